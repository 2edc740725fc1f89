//go:build js

// Package screen shows the picture of package render in the browser through
// Ebitengine. It paints with the very code that paints files, so that screen
// and file agree, and hands the engine one finished image a frame.
package screen

import (
	"image"
	"math"

	"github.com/hajimehoshi/ebiten/v2"

	"riddle/render"
	"riddle/render/raster"
	"riddle/sim"
)

// MaxPixels is the most pixels that a view paints a frame. A larger target is
// painted smaller and enlarged, since cost grows with pixels.
const MaxPixels = 2_000_000

// View draws snapshots on the screen. The zero value is ready for use.
type View struct {
	painter raster.Painter
	sheet   *ebiten.Image // the picture, where it is to be enlarged
	to      *ebiten.Image // where it was sent
}

// Draw paints the snapshot over the whole of dst. Width and height of the
// options count, and are those of dst if they are 0; words are left to the
// page, which sets them in the margins: see render.Labels.
func (v *View) Draw(dst *ebiten.Image, snap *sim.Snapshot, opt render.Options) {
	size := dst.Bounds().Size()
	if opt.Width <= 0 || opt.Height <= 0 {
		opt.Width, opt.Height = size.X, size.Y
	}
	opt = within(opt, MaxPixels)
	img := v.painter.Paint(snap, opt)
	if img.Rect.Size() == size {
		v.send(dst, img)
		return
	}
	v.to = nil
	v.enlarge(dst, img, size)
}

// send writes the picture to a target of its size: of the same target as before
// only what has changed.
func (v *View) send(dst *ebiten.Image, img *image.RGBA) {
	if in := v.painter.Changed(); v.to == dst && in != img.Rect {
		part := dst.SubImage(in.Add(dst.Bounds().Min)).(*ebiten.Image)
		part.WritePixels(img.Pix[img.PixOffset(0, in.Min.Y):img.PixOffset(0, in.Max.Y)])
		return
	}
	v.to = dst
	dst.WritePixels(img.Pix)
}

// within returns the options for a picture of at most n pixels.
func within(opt render.Options, n int) render.Options {
	if opt.Width*opt.Height <= n {
		return opt
	}
	k := math.Sqrt(float64(n) / float64(opt.Width*opt.Height))
	if !(opt.Scale > 0) {
		opt.Scale = 1
	}
	opt.Width, opt.Height, opt.Scale = int(float64(opt.Width)*k), int(float64(opt.Height)*k), opt.Scale*k
	return opt
}

// enlarge draws the picture over a target of another size.
func (v *View) enlarge(dst *ebiten.Image, img *image.RGBA, size image.Point) {
	at := img.Rect.Size()
	if v.sheet == nil || v.sheet.Bounds().Size() != at {
		if v.sheet != nil {
			v.sheet.Deallocate()
		}
		v.sheet = ebiten.NewImage(at.X, at.Y)
	}
	v.sheet.WritePixels(img.Pix)
	op := &ebiten.DrawImageOptions{Filter: ebiten.FilterLinear, Blend: ebiten.BlendCopy}
	op.GeoM.Scale(float64(size.X)/float64(at.X), float64(size.Y)/float64(at.Y))
	op.GeoM.Translate(float64(dst.Bounds().Min.X), float64(dst.Bounds().Min.Y)) // dst may be a part of an image
	dst.DrawImage(v.sheet, op)
}
