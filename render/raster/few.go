package raster

import (
	"image"
	"image/color"

	"riddle/render"
)

// FewColours returns a picture in the colours of a theme and the most frequent
// others, so many in all (2 to 256), each pixel in the nearest one: a file of it is
// a fraction as large.
func FewColours(img *image.RGBA, theme *render.Theme, most int) *image.Paletted {
	var p palette
	p.choose(img.Pix, theme, most)
	few := image.NewPaletted(img.Rect, make(color.Palette, len(p.list)))
	for i, c := range p.list {
		few.Palette[i] = color.RGBA{c[0], c[1], c[2], 255}
	}
	p.number(few.Pix, img.Pix)
	return few
}
