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
	s := span{pix: dst.pix, ink: c, alpha: alpha}
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
	alpha             uint32 // of 255
	along, across     int
	longest, broadest int
}

// one is a pixel in the fixed-point numbers of a stroke.
const one = 1 << 16

// run paints from t0 to t1 along the longer axis. The stroke's middle is at m
// there, rises by slope a pixel, and reaches half to each side.
func (s *span) run(t0, t1, m, slope, half float32) {
	if !(t1 > 0) || t0 >= float32(s.longest) {
		return
	}
	from, to := max(floor(t0), 0), min(floor(t1), s.longest-1)
	mid := int(min(max(m+slope*(float32(from)+0.5-t0), -1e4), 1e4) * one)
	step, reach := int(slope*one), int(half*one)
	full, top := s.alpha*257, s.broadest<<16
	pix, rb, ga, across := s.pix, s.ink.rb, s.ink.ga, s.across
	for i := from; i <= to; i++ {
		alpha := full
		if i == from || i == to { // the ends cover their pixels in part
			alpha = uint32((min(float32(i+1), t1) - max(float32(i), t0)) * float32(full))
		}
		lo, hi := max(mid-reach, 0), min(mid+reach, top)
		mid += step
		y := lo &^ (one - 1)
		for at := i*s.along + y>>16*across; y < hi; y += one { // the pixels across
			cover := min(hi, y+one) - max(lo, y)
			a := (uint32(cover)>>8*alpha + 32768) >> 16
			p, b := pix[at], 256-a // as ink.over, with its parts at hand
			pix[at] = (p&pair*b+rb*a)>>8&pair | (p>>8&pair*b+ga*a)&(pair<<8)
			at += across
		}
	}
}

func abs(x float32) float32 {
	if x < 0 {
		return -x
	}
	return x
}
