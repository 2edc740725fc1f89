package raster

import (
	"math"

	"riddle/render"
)

// line paints a straight stroke. Along its longer axis it goes pixel by pixel;
// across, each pixel is covered by as much as the stroke covers of it.
func line(dst *canvas, a, b render.Pt, width float32, c ink, alpha uint32) {
	dx, dy := b.X-a.X, b.Y-a.Y
	n := float32(math.Sqrt(float64(dx*dx + dy*dy)))
	cap := width * 0.3
	if n > 0 {
		ux, uy := dx/n*cap, dy/n*cap
		a, b = render.Pt{X: a.X - ux, Y: a.Y - uy}, render.Pt{X: b.X + ux, Y: b.Y + uy}
	} else {
		a.X, b.X, dx, n = a.X-cap, b.X+cap, 1, 1
	}
	s := span{pix: dst.pix, ink: c, alpha: uint64(alpha) * 257}
	if abs(dx) >= abs(dy) {
		if a.X > b.X {
			a, b = b, a
		}
		s.along, s.across, s.longest, s.broadest = 1, dst.w, dst.w, dst.h
		s.run(a.X, b.X, a.Y, dy/dx, width/2*n/abs(dx))
		return
	}
	if a.Y > b.Y {
		a, b = b, a
	}
	s.along, s.across, s.longest, s.broadest = dst.w, 1, dst.h, dst.w
	s.run(a.Y, b.Y, a.X, dx/dy, width/2*n/abs(dy))
}

// span is a stroke in the making: along its longer axis and across it, pixels
// lie so far apart in the canvas, and there are so many of them.
type span struct {
	pix               []uint32
	ink               ink
	alpha             uint64 // of 65535
	along, across     int
	longest, broadest int
}

// one is a pixel in the fixed-point numbers of a stroke.
const one = 1 << 16

// run paints from t0 to t1 along the longer axis. The stroke's middle is at m
// there, rises by slope a pixel, and reaches far to each side.
func (s *span) run(t0, t1, m, slope, far float32) {
	if !(t1 > 0) || t0 >= float32(s.longest) {
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
	if to >= s.longest {
		to, tail = s.longest-1, 1
	}
	m += slope * (float32(from) + 0.5 - t0)
	switch { // plain comparisons, as in floor
	case !(m > -1e4):
		m = -1e4
	case m > 1e4:
		m = 1e4
	}
	mid, step, reach := int(m*one), int(slope*one), int(far*one)
	ends := [2]uint64{uint64(head * float32(s.alpha)), uint64(tail * float32(s.alpha))}
	low, high := mid, mid+step*(to-from)
	if low > high {
		low, high = high, low
	}
	if 2*reach <= one && low-reach >= 0 && high+reach < (s.broadest-1)<<16 {
		s.thin(from*s.along, to-from, mid-reach, step, 2*reach, ends)
		return
	}
	for i := from; i <= to; i++ {
		alpha := s.alpha
		if i == from {
			alpha = ends[0]
		} else if i == to {
			alpha = ends[1]
		}
		lo, hi := max(mid-reach, 0), min(mid+reach, s.broadest<<16)
		at, y := i*s.along+lo>>16*s.across, lo&^(one-1)
		for ; y < hi; y += one { // across the stroke
			cover := min(hi, y+one) - max(lo, y)
			s.pix[at] = s.ink.over(s.pix[at], (uint64(cover)*alpha+half)>>24)
			at += s.across
		}
		mid += step
	}
}

// thin paints a stroke that is no wider than a pixel, and so covers two at most
// across, none of them off the canvas. The first stands at an index and is
// covered from lo across on; as many as last follow.
func (s *span) thin(at, last, lo, step, wide int, ends [2]uint64) {
	pix, k, along, across := s.pix, s.ink, s.along, s.across
	stretches := [...]struct {
		n     int
		alpha uint64
	}{{1, ends[0]}, {last - 1, s.alpha}, {min(last, 1), ends[1]}}
	for _, e := range stretches {
		whole := (uint64(wide)*e.alpha + half) >> 24
		for range e.n {
			q, part := at+lo>>16*across, one-lo&(one-1)
			if part > wide {
				part = wide
			}
			near := (uint64(part)*e.alpha + half) >> 24
			pix[q] = k.over(pix[q], near)
			pix[q+across] = k.over(pix[q+across], whole-near)
			at, lo = at+along, lo+step
		}
	}
}

// half rounds the product of two numbers of 16 bits to one of 8.
const half = 1 << 23

func abs(x float32) float32 {
	if x < 0 {
		return -x
	}
	return x
}
