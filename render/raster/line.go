package raster

import (
	"math"
	"unsafe"

	"riddle/render"
)

// line paints a straight stroke.
func line(dst *canvas, a, b render.Pt, width float32, c ink, alpha uint32) {
	dx, dy := (b.X-a.X)/2, (b.Y-a.Y)/2
	s := stylus{dst.pix, dst.w, dst.h, c, width}
	s.stroke((a.X+b.X)/2, (a.Y+b.Y)/2, dx, dy, float32(math.Sqrt(float64(dx*dx+dy*dy))), alpha)
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

// stroke paints a stroke about x, y that reaches dx, dy, in all n, to either
// side. Along its longer axis it goes pixel by pixel; across, each pixel is
// covered by as much as the stroke covers of it. Its ends stand over a little.
func (s *stylus) stroke(x, y, dx, dy, n float32, alpha uint32) {
	at, t, m := lie{1, s.w, s.w, s.h}, x, y
	if abs(dx) < abs(dy) {
		at, t, m, dx, dy = lie{s.w, 1, s.h, s.w}, y, x, dy, dx
	}
	end, slope, share := s.width*0.3, float32(0), float32(1) // share of its length that lies along the axis
	if n > 0 {
		dx, dy = dx/n, dy/n
		share, slope = abs(dx), dy/dx
		end = (n + end) * share
	}
	s.run(&at, t-end, t+end, m-end*slope, slope, s.width/2/share, uint64(alpha)*257)
}

// one is a pixel in the fixed-point numbers of a stroke.
const one = 1 << 16

// run paints from t0 to t1 along the longer axis. The stroke's middle is at m
// there, rises by slope a pixel, and reaches far to each side; full is the
// strength of its ink, of 65535.
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
	low, high := mid, mid+step*(to-from)
	if low > high {
		low, high = high, low
	}
	if 2*reach <= one && low-reach >= 0 && high+reach < (of.broadest-1)<<16 {
		s.thin(of, from, to, mid-reach, step, 2*reach, [3]uint64{first, full, last})
		return
	}
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
// between, and of the last.
//
//go:noinline
func (s *stylus) thin(of *lie, from, to, lo, step, wide int, strength [3]uint64) {
	along, across := of.along*4, of.across*4
	p := unsafe.Pointer(unsafe.SliceData(s.pix[from*of.along:]))
	k, alpha, n := s.ink, strength[0], to-from
	k.step(p, lo, across, wide, alpha)
	if n == 0 {
		return
	}
	p, lo = unsafe.Add(p, along), lo+step
	alpha = strength[1]
	for range (n - 1) >> 1 {
		k.step(p, lo, across, wide, alpha)
		p, lo = unsafe.Add(p, along), lo+step
		k.step(p, lo, across, wide, alpha)
		p, lo = unsafe.Add(p, along), lo+step
	}
	if n&1 == 0 {
		k.step(p, lo, across, wide, alpha)
		p, lo = unsafe.Add(p, along), lo+step
	}
	k.step(p, lo, across, wide, strength[2])
}

func (k ink) step(p unsafe.Pointer, lo, across, wide int, alpha uint64) {
	part := one - lo&(one-1)
	if part > wide {
		part = wide
	}
	near, whole := (uint64(part)*alpha+half)>>24, (uint64(wide)*alpha+half)>>24
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
