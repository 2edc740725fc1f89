package raster

import (
	"image"
	"math"

	"riddle/render"
)

// line paints a straight stroke. Along its longer axis it goes pixel by pixel;
// across, each pixel is covered by as much as the stroke covers of it.
func line(dst *image.RGBA, a, b render.Pt, width float32, c render.RGB, alpha uint32) {
	dx, dy := b.X-a.X, b.Y-a.Y
	n := float32(math.Sqrt(float64(dx*dx + dy*dy)))
	cap := width * 0.3
	if n > 0 {
		ux, uy := dx/n*cap, dy/n*cap
		a, b = render.Pt{X: a.X - ux, Y: a.Y - uy}, render.Pt{X: b.X + ux, Y: b.Y + uy}
	} else {
		a.X, b.X, dx, n = a.X-cap, b.X+cap, 1, 1
	}
	s := span{pix: dst.Pix, c: c, alpha: float32(alpha)}
	w, h := dst.Rect.Dx(), dst.Rect.Dy()
	if abs(dx) >= abs(dy) {
		if a.X > b.X {
			a, b = b, a
		}
		s.along, s.across, s.longest, s.broadest = 4, dst.Stride, w, h
		s.run(a.X, b.X, a.Y, dy/dx, width/2*n/abs(dx))
		return
	}
	if a.Y > b.Y {
		a, b = b, a
	}
	s.along, s.across, s.longest, s.broadest = dst.Stride, 4, h, w
	s.run(a.Y, b.Y, a.X, dx/dy, width/2*n/abs(dy))
}

// span is a stroke in the making: along its longer axis and across it, pixels
// lie so many bytes apart, and there are so many of them.
type span struct {
	pix               []byte
	c                 render.RGB
	alpha             float32
	along, across     int
	longest, broadest int
}

// run paints from t0 to t1 along the longer axis. The stroke's middle is at m
// there, rises by slope a pixel, and is half wide to each side.
func (s *span) run(t0, t1, m, slope, half float32) {
	if !(t1 > 0) || t0 >= float32(s.longest) {
		return
	}
	from, to := max(floor(t0), 0), min(floor(t1), s.longest-1)
	for i := from; i <= to; i++ {
		l, r := max(float32(i), t0), min(float32(i+1), t1)
		if r <= l {
			continue
		}
		mid := m + slope*((l+r)/2-t0)
		s.column(i*s.along, mid-half, mid+half, (r-l)*s.alpha)
	}
}

// column covers the pixels across from lo to hi.
func (s *span) column(at int, lo, hi, alpha float32) {
	if !(hi > 0) || lo >= float32(s.broadest) {
		return
	}
	first, last := max(floor(lo), 0), min(floor(hi), s.broadest-1)
	for j := first; j <= last; j++ {
		cover := min(hi, float32(j+1)) - max(lo, float32(j))
		blend(s.pix, at+j*s.across, s.c, uint32(cover*alpha+0.5))
	}
}

// blend lays a colour over the opaque pixel at byte i, a of 255 parts.
func blend(pix []byte, i int, c render.RGB, a uint32) {
	if a == 0 {
		return
	}
	p := pix[i : i+3 : i+3]
	a += a >> 7 // 255 becomes 256
	b := 256 - a
	p[0] = uint8((uint32(p[0])*b + uint32(c.R)*a) >> 8)
	p[1] = uint8((uint32(p[1])*b + uint32(c.G)*a) >> 8)
	p[2] = uint8((uint32(p[2])*b + uint32(c.B)*a) >> 8)
}

func abs(x float32) float32 { return max(x, -x) }
