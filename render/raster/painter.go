// Package raster paints the draw list of package render into an image of
// package image, for files and for the screen alike.
package raster

import (
	"image"

	"golang.org/x/image/font"
	"golang.org/x/image/vector"

	"riddle/render"
	"riddle/sim"
)

// Painter paints one snapshot after another and keeps what it can: the static
// part of the picture, the shapes of the dots, and all room. It is not safe
// for concurrent use.
type Painter struct {
	scene   render.Scene
	still   canvas      // paper and static part
	frame   canvas      // the picture
	img     *image.RGBA // the same as an image
	fill    filler
	stamps  stamps
	changed bool // the view is another one than before
	inks    [render.Tones]ink

	face     font.Face // of words, of a size in px
	faceSize float32
}

// Paint returns the picture of a snapshot without words. The image belongs to
// the painter and is overwritten by the next call.
func (p *Painter) Paint(snap *sim.Snapshot, opt render.Options) *image.RGBA {
	opt.Width, opt.Height = max(opt.Width, 1), max(opt.Height, 1)
	p.changed = p.scene.Set(opt, snap.Crop)
	if p.changed {
		p.prepare(snap, opt)
	}
	p.scene.Update(snap, opt)
	in := p.within()
	p.restore(in.Min.Y, in.Max.Y)
	p.list(&p.frame, &p.scene.Moving)
	p.marks()
	p.list(&p.frame, &p.scene.Over)
	p.margins(opt)
	return p.img
}

// Changed returns that part of the picture which can differ from the one before:
// all of it where the view is another one, else what lies within its margins.
func (p *Painter) Changed() image.Rectangle {
	if p.changed {
		return p.img.Rect
	}
	return p.within()
}

func (p *Painter) within() image.Rectangle {
	m := max(floor(p.scene.View.Margin), 0)
	return image.Rect(0, m, p.frame.w, p.frame.h-m)
}

// restore puts back what stands still in the rows from one up to another.
func (p *Painter) restore(from, to int) {
	copy(p.frame.rows(from, to).pix, p.still.rows(from, to).pix)
}

// margins lays paper over what reaches into the margins for names and, round a
// part of the machine, rules the picture off.
func (p *Painter) margins(opt render.Options) {
	m := floor(p.scene.View.Margin)
	if m <= 0 {
		return
	}
	w, h := p.frame.w, p.frame.h
	p.restore(0, m)
	p.restore(h-m, h)
	if opt.Rect.Empty() && (opt.Zone == "" || opt.Zone == "whole") {
		return
	}
	thin := 1.1 * float32(p.scene.View.Scale)
	x0, x1, y0, y1 := thin/2, float32(w)-thin/2, float32(m), float32(h-m)
	for _, l := range [...][2]render.Pt{{{X: x0, Y: y0}, {X: x1, Y: y0}}, {{X: x0, Y: y1}, {X: x1, Y: y1}}, {{X: x0, Y: y0}, {X: x0, Y: y1}}, {{X: x1, Y: y0}, {X: x1, Y: y1}}} {
		line(&p.frame, l[0], l[1], thin, p.inks[render.Ink], 255)
	}
}

// prepare paints what stays for all pictures of a view.
func (p *Painter) prepare(snap *sim.Snapshot, opt render.Options) {
	for i, c := range &p.scene.Theme.Colours {
		p.inks[i] = inkOf(c)
	}
	if size := image.Rect(0, 0, opt.Width, opt.Height); p.img == nil || p.img.Rect != size {
		p.img = image.NewRGBA(size)
		p.frame, p.still = canvasOf(p.img), canvasOf(image.NewRGBA(size))
	}
	p.still.fill(p.inks[render.Paper])
	p.list(&p.still, &p.scene.Static)
	in := p.within()
	p.still.rows(0, in.Min.Y).fill(p.inks[render.Paper])
	p.still.rows(in.Max.Y, p.still.h).fill(p.inks[render.Paper])
	p.stamps.prepare(snap.Crop, p.scene.View, p.inks[render.Inside])
}

// list paints the shapes of a list in their order.
func (p *Painter) list(dst *canvas, l *render.List) {
	for i := range l.Shapes {
		s := &l.Shapes[i]
		pts := l.Of(s)
		if s.Width > 0 {
			p.stroke(dst, pts, s)
		} else {
			p.fill.fill(dst, pts, p.inks[s.Tone], float32(s.Alpha)*256/255)
		}
	}
}

// stroke paints a line through points.
func (p *Painter) stroke(dst *canvas, pts []render.Pt, s *render.Shape) {
	c := p.inks[s.Tone]
	for i := 1; i < len(pts); i++ {
		line(dst, pts[i-1], pts[i], s.Width, c, uint32(s.Alpha))
	}
	if s.Closed {
		line(dst, pts[len(pts)-1], pts[0], s.Width, c, uint32(s.Alpha))
	}
}

// outline sets up the rasterizer for a polygon within the rectangle r.
func outline(z *vector.Rasterizer, r image.Rectangle, pts []render.Pt) {
	z.Reset(r.Dx(), r.Dy())
	x, y := float32(r.Min.X), float32(r.Min.Y)
	z.MoveTo(pts[0].X-x, pts[0].Y-y)
	for _, q := range pts[1:] {
		z.LineTo(q.X-x, q.Y-y)
	}
	z.ClosePath()
}

// box returns the pixels that hold the points.
func box(pts []render.Pt) image.Rectangle {
	lo, hi := render.Bounds(pts)
	return image.Rect(floor(lo.X), floor(lo.Y), floor(hi.X)+1, floor(hi.Y)+1)
}

// floor returns the greatest whole number not above x, within what a picture
// can hold.
func floor(x float32) int {
	// Plain comparisons: min and max of numbers with a point are calls in
	// WebAssembly.
	switch {
	case !(x > -1e6):
		x = -1e6
	case x > 1e6:
		x = 1e6
	}
	i := int(x)
	if float32(i) > x {
		i--
	}
	return i
}
