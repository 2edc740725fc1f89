package raster

import "unsafe"

// inked is a stamp in its ink: the pixels that it changes, and how.
type inked struct {
	spots []spot
	reach int // pixels from that of the dot to the farthest of them
}

type spot struct {
	ink  uint64 // of its veil
	off  int32  // from the pixel of the dot, in a canvas of the width that it was made for
	rest uint16 // of its veil
	dy   int16  // rows below the pixel of the dot
}

// add puts in a pixel that lies dx, dy off that of the dot, unless its veil
// changes nothing.
func (s *inked) add(dx, dy, w int, v veil) {
	if v.rest == 256 {
		return
	}
	s.spots = append(s.spots, spot{v.ink, int32(dy*w + dx), uint16(v.rest), int16(dy)})
	s.reach = max(s.reach, dx, -dx, dy, -dy)
}

// lay lays it over the picture, about the pixel x, y.
func (s *inked) lay(dst *canvas, x, y int) {
	if x < s.reach || y < s.reach || x >= dst.w-s.reach || y >= dst.h-s.reach {
		s.clipped(dst, x, y)
		return
	}
	p := unsafe.Pointer(&dst.pix[y*dst.w+x])
	for i := range s.spots {
		touch(p, &s.spots[i])
	}
}

// touch lays a spot over the picture, p being the pixel of its dot. That the
// spot lies on the picture has been seen before, for all of them at a time.
func touch(p unsafe.Pointer, e *spot) {
	q := (*uint32)(unsafe.Add(p, e.off*4))
	*q = veil{e.ink, uint64(e.rest)}.over(*q)
}

// clipped lays that part of it over the picture that lies on it. It is called
// seldom, and would only be in the way among what is done often.
//
//go:noinline
func (s *inked) clipped(dst *canvas, x, y int) {
	if x < -s.reach || y < -s.reach || x >= dst.w+s.reach || y >= dst.h+s.reach {
		return
	}
	for i := range s.spots {
		e := &s.spots[i]
		dy := int(e.dy)
		if x, y := x+int(e.off)-dy*dst.w, y+dy; x >= 0 && y >= 0 && x < dst.w && y < dst.h {
			q := &dst.pix[y*dst.w+x]
			*q = veil{e.ink, uint64(e.rest)}.over(*q)
		}
	}
}
