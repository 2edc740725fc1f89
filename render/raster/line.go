package raster

import (
	"math"
	"unsafe"

	"riddle/render"
)

// line paints a straight stroke.
func line(dst *canvas, a, b render.Pt, width float32, c ink, alpha uint32) {
	s := stylus{dst.pix, dst.w, dst.h, c, width}
	s.stroke((a.X+b.X)/2, (a.Y+b.Y)/2, (b.X-a.X)/2, (b.Y-a.Y)/2, alpha)
}

// stylus paints straight strokes of one ink and width on a canvas.
type stylus struct {
	pix   []uint32
	w, h  int
	ink   ink
	width float32
}

// lie is how a stroke lies on the canvas: along its longer axis and across it,
// pixels are so far apart, and there are so many of them.
type lie struct{ along, across, longest, broadest int }

// stroke paints a stroke about x, y that reaches dx, dy to either side. Along
// its longer axis it goes pixel by pixel; across, each pixel is covered by as
// much as the stroke covers of it. Its ends stand over a little.
func (s *stylus) stroke(x, y, dx, dy float32, alpha uint32) {
	n := float32(math.Sqrt(float64(dx*dx + dy*dy)))
	of := lie{1, s.w, s.w, s.h}
	if abs(dx) < abs(dy) {
		of = lie{s.w, 1, s.h, s.w}
		x, y, dx, dy = y, x, dy, dx
	}
	end, slope, share := s.width*0.3, float32(0), float32(1) // share of its length that lies along the axis
	if n > 0 {
		share, slope = abs(dx)/n, dy/dx
		end = (n + end) * share
	}
	// Most strokes are thin and lie wholly within the canvas: that is found out
	// with one branch.
	t0, t1, full := x-end, x+end, uint64(alpha)*257
	from, to := int(t0), int(t1)
	mid, step, reach := int((y+slope*(float32(from)+0.5-x))*one), int(slope*one), int(s.width/2/share*one)
	last, far := mid+step*(to-from), (of.broadest-1)<<16-reach-1
	if t0 < 0 || (to-from-1)|(of.longest-1-to)|(one-2*reach)|(mid-reach)|(last-reach)|(far-mid)|(far-last) < 0 {
		s.run(&of, t0, t1, y-end*slope, slope, s.width/2/share, full)
		return
	}
	head, tail := float32(from+1)-t0, t1-float32(to) // the ends cover their pixels in part
	s.thin(&of, from, to, mid-reach, step, 2*reach, [3]uint64{uint64(head * float32(full)), full, uint64(tail * float32(full))})
}

// one is a pixel in the fixed-point numbers of a stroke.
const one = 1 << 16

// run paints from t0 to t1 along the longer axis. The stroke's middle is at m
// there, rises by slope a pixel, and reaches far to each side; full is the
// strength of its ink, of 65535.
//
//go:noinline
func (s *stylus) run(of *lie, t0, t1, m, slope, far float32, full uint64) {
	if !(t1 > 0) || t0 >= float32(of.longest) {
		return
	}
	from, to := floor(t0), floor(t1)
	head, tail := float32(from+1)-t0, t1-float32(to) // the ends cover their pixels in part
	if from == to {
		head += tail - 1
	}
	if from < 0 {
		from, head = 0, 1
		if to == 0 { // of which only the end is to be seen
			head = tail
		}
	}
	if to >= of.longest {
		to, tail = of.longest-1, 1
	}
	m += slope * (float32(from) + 0.5 - t0)
	switch { // plain comparisons, as in floor
	case !(m > -1e4):
		m = -1e4
	case m > 1e4:
		m = 1e4
	}
	mid, step, reach := int(m*one), int(slope*one), int(far*one)
	first, last := uint64(head*float32(full)), uint64(tail*float32(full))
	for i := from; i <= to; i++ {
		alpha := full
		if i == from {
			alpha = first
		} else if i == to {
			alpha = last
		}
		lo, hi := max(mid-reach, 0), min(mid+reach, of.broadest<<16)
		at, y := i*of.along+lo>>16*of.across, lo&^(one-1)
		for ; y < hi; y += one { // across the stroke
			cover := min(hi, y+one) - max(lo, y)
			s.pix[at] = s.ink.over(s.pix[at], (uint64(cover)*alpha+half)>>24)
			at += of.across
		}
		mid += step
	}
}

// thin paints a stroke that is no wider than a pixel, and so covers two at most
// across, none of them off the canvas: from one pixel to another along it, the
// first covered from lo across on, with the strengths of the first, of those
// between, and of the last. One step after another stands in a row, because in
// WebAssembly each branch costs as much as a pixel.
//
//go:noinline
func (s *stylus) thin(of *lie, from, to, lo, step, wide int, strength [3]uint64) {
	along, across, n := of.along*4, of.across*4, to-from
	p := unsafe.Pointer(unsafe.SliceData(s.pix[from*of.along:]))
	s.ink.dab(p, lo, across, wide, strength[0])
	k, alpha := s.ink, strength[1]
	for range (n - 1) / 2 {
		p, lo = unsafe.Add(p, along), lo+step
		k.dab(p, lo, across, wide, alpha)
		p, lo = unsafe.Add(p, along), lo+step
		k.dab(p, lo, across, wide, alpha)
	}
	if n%2 == 0 {
		p, lo = unsafe.Add(p, along), lo+step
		k.dab(p, lo, across, wide, alpha)
	}
	k.dab(unsafe.Add(p, along), lo+step, across, wide, strength[2])
}

// dab paints one pixel along a thin stroke: wide, from lo across on. The first
// pixel across is at p.
func (k ink) dab(p unsafe.Pointer, lo, across, wide int, strength uint64) {
	part := one - lo&(one-1)
	if part > wide {
		part = wide
	}
	near, whole := (uint64(part)*strength+half)>>24, (uint64(wide)*strength+half)>>24
	p = unsafe.Add(p, lo>>16*across)
	q := (*uint32)(p)
	*q = k.over(*q, near)
	q = (*uint32)(unsafe.Add(p, across))
	*q = k.over(*q, whole-near)
}

// half rounds the product of two numbers of 16 bits to one of 8.
const half = 1 << 23

func abs(x float32) float32 {
	if x < 0 {
		return -x
	}
	return x
}
