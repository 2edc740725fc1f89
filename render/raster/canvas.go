package raster

import (
	"image"
	"unsafe"

	"riddle/render"
)

// canvas is an opaque picture as one number a pixel, red in its lowest byte.
type canvas struct {
	pix  []uint32
	w, h int
}

// canvasOf returns the canvas on the pixels of an image: the same memory, seen
// as whole pixels, since a pixel is read and written whole. It holds for
// machines that put the lowest byte first, as all that Go builds the page for
// do.
func canvasOf(img *image.RGBA) canvas {
	n := len(img.Pix) / 4
	return canvas{unsafe.Slice((*uint32)(unsafe.Pointer(unsafe.SliceData(img.Pix))), n), img.Rect.Dx(), img.Rect.Dy()}
}

// rows returns the part of the canvas from one row up to another.
func (c canvas) rows(from, to int) canvas {
	return canvas{c.pix[from*c.w : to*c.w], c.w, to - from}
}

// fill covers the whole canvas.
func (c canvas) fill(k ink) {
	for i := range c.pix {
		c.pix[i] = k.solid()
	}
}

// ink is a colour in four lanes of 16 bits, so that all channels are mixed at a
// time: red, blue, green and an alpha of 255.
type ink uint64

const lanes = 0x00FF00FF00FF00FF

func inkOf(c render.RGB) ink {
	return ink(c.R) | ink(c.B)<<16 | ink(c.G)<<32 | 255<<48
}

// solid returns a pixel of nothing but the ink.
func (k ink) solid() uint32 { return uint32(k | k>>24) }

// over returns pixel p under a of 256 parts of the ink.
func (k ink) over(p uint32, a uint64) uint32 {
	return k.veil(a).over(p)
}

// veil is an ink in a strength, ready to be laid over many pixels.
type veil struct{ ink, rest uint64 } // the ink times its strength, and what is left of 256 parts

// veil returns a of 256 parts of the ink.
func (k ink) veil(a uint64) veil { return veil{uint64(k) * a, 256 - a} }

// over returns pixel p under the veil.
func (v veil) over(p uint32) uint32 {
	spread := (uint64(p) | uint64(p)<<24) & lanes
	mixed := (spread*v.rest + v.ink) >> 8 & lanes
	return uint32(mixed | mixed>>24)
}

// on returns the veil that does what v does over w.
func (v veil) on(w veil) veil {
	const opaque = 0xFFFF << 48
	rest := v.rest * w.rest >> 8
	mixed := (w.ink>>8&lanes)*v.rest + v.ink
	return veil{mixed&^opaque | 255*(256-rest)<<48, rest}
}
