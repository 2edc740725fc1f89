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

// fill covers the whole canvas.
func (c *canvas) fill(k ink) {
	for i := range c.pix {
		c.pix[i] = k.solid()
	}
}

// ink is a colour as two pairs of channels, so that two are mixed at a time:
// red and blue, green and an alpha of 255.
type ink struct{ rb, ga uint32 }

const pair = 0x00FF00FF

func inkOf(c render.RGB) ink { return ink{uint32(c.R) | uint32(c.B)<<16, uint32(c.G) | 255<<16} }

// solid returns a pixel of nothing but the ink.
func (k ink) solid() uint32 { return k.rb | k.ga<<8 }

// over returns pixel p under a of 256 parts of the ink.
func (k ink) over(p, a uint32) uint32 {
	b := 256 - a
	return (p&pair*b+k.rb*a)>>8&pair | (p>>8&pair*b+k.ga*a)&(pair<<8)
}
