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
	s := span{pix: dst.Pix, r: uint32(c.R), g: uint32(c.G), b: uint32(c.B)}
	w, h := dst.Rect.Dx(), dst.Rect.Dy()
	if abs(dx) >= abs(dy) {
		if a.X > b.X {
			a, b = b, a
		}
		s.along, s.across, s.longest, s.broadest = 4, dst.Stride, w, h
		s.run(a.X, b.X, a.Y, dy/dx, width/2*n/abs(dx), alpha)
		return
	}
	if a.Y > b.Y {
		a, b = b, a
	}
	s.along, s.across, s.longest, s.broadest = dst.Stride, 4, h, w
	s.run(a.Y, b.Y, a.X, dx/dy, width/2*n/abs(dy), alpha)
}

// span is a stroke in the making: along its longer axis and across it, pixels
// lie so many bytes apart, and there are so many of them.
type span struct {
	pix               []byte
	r, g, b           uint32
	along, across     int
	longest, broadest int
}

// one is a pixel in the fixed-point numbers of a stroke.
const one = 1 << 16

// run paints from t0 to t1 along the longer axis. The stroke's middle is at m
// there, rises by slope a pixel, and reaches half to each side.
func (s *span) run(t0, t1, m, slope, half float32, alpha uint32) {
	if !(t1 > 0) || t0 >= float32(s.longest) {
		return
	}
	from, to := max(floor(t0), 0), min(floor(t1), s.longest-1)
	mid := int(min(max(m+slope*(float32(from)+0.5-t0), -1e4), 1e5) * one)
	step, reach := int(slope*one), int(half*one)
	for i := from; i <= to; i++ {
		a := alpha
		if i == from || i == to { // the ends cover their pixels in part
			l, r := max(float32(i), t0), min(float32(i+1), t1)
			a = uint32(max(r-l, 0) * float32(alpha))
		}
		s.column(i*s.along, mid-reach, mid+reach, a)
		mid += step
	}
}

// column covers the pixels across from lo to hi.
func (s *span) column(at, lo, hi int, alpha uint32) {
	first, last := max(lo>>16, 0), min(hi>>16, s.broadest-1)
	for j := first; j <= last; j++ {
		cover := min(hi, (j+1)<<16) - max(lo, j<<16)
		a := (uint32(cover)>>8*alpha*257 + 32768) >> 16 // of 256
		at := at + j*s.across
		p := s.pix[at : at+3 : at+3]
		b := 256 - a
		p[0] = uint8((uint32(p[0])*b + s.r*a) >> 8)
		p[1] = uint8((uint32(p[1])*b + s.g*a) >> 8)
		p[2] = uint8((uint32(p[2])*b + s.b*a) >> 8)
	}
}

// blend lays a colour over the opaque pixel at byte i, a of 255 parts.
func blend(pix []byte, i int, c render.RGB, a uint32) {
	p := pix[i : i+3 : i+3]
	if a >= 255 {
		p[0], p[1], p[2] = c.R, c.G, c.B
		return
	}
	a += a >> 7 // 255 becomes 256
	b := 256 - a
	p[0] = uint8((uint32(p[0])*b + uint32(c.R)*a) >> 8)
	p[1] = uint8((uint32(p[1])*b + uint32(c.G)*a) >> 8)
	p[2] = uint8((uint32(p[2])*b + uint32(c.B)*a) >> 8)
}

func abs(x float32) float32 { return max(x, -x) }
