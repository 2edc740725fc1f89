package raster

import (
	"fmt"
	"image"
	"image/color"
	"image/png"
	"io"

	"golang.org/x/image/font"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/opentype"
	"golang.org/x/image/math/fixed"

	"riddle/render"
	"riddle/sim"
)

// PNG writes the picture of a snapshot, with names if they are asked for.
func PNG(w io.Writer, snap *sim.Snapshot, opt render.Options) error {
	img, err := Picture(snap, opt)
	if err != nil {
		return err
	}
	return png.Encode(w, img)
}

// Picture paints a snapshot, with names if they are asked for.
func Picture(snap *sim.Snapshot, opt render.Options) (*image.RGBA, error) {
	var p Painter
	img := p.Paint(snap, opt)
	if opt.Labels {
		if err := p.words(render.Labels(snap, opt)); err != nil {
			return nil, err
		}
	}
	return img, nil
}

// words paints labels with their leads.
func (p *Painter) words(labels []render.Label) error {
	if len(labels) == 0 {
		return nil
	}
	ttf, err := opentype.Parse(goregular.TTF)
	if err != nil {
		return fmt.Errorf("type for the names: %w", err)
	}
	face, err := opentype.NewFace(ttf, &opentype.FaceOptions{Size: float64(labels[0].Size), DPI: 72, Hinting: font.HintingNone})
	if err != nil {
		return fmt.Errorf("type for the names: %w", err)
	}
	defer face.Close()
	ink, black := p.inks[render.Ink], p.scene.Theme.Colours[render.Ink]
	thin := 0.8 * float32(p.scene.View.Scale)
	for _, l := range labels {
		line(&p.frame, l.From, l.To, thin, ink, 200)
		dot := roundStamp(thin*2, 0.5, 0.5)
		press(&p.frame, &dot, floor(l.To.X), floor(l.To.Y), ink, 255)
	}
	d := font.Drawer{Dst: p.img, Src: image.NewUniform(color.RGBA{black.R, black.G, black.B, 255}), Face: face}
	for _, l := range labels {
		wide := float32(font.MeasureString(face, l.Text)) / 64
		x := min(max(l.From.X-wide/2, l.At.X), l.At.X+max(l.Wide-wide, 0))
		p.ground(x, l.At.Y, wide, l.Size)
		d.Dot = fixed.Point26_6{X: fixed.Int26_6(x * 64), Y: fixed.Int26_6((l.At.Y + l.Size*0.86) * 64)}
		d.DrawString(l.Text)
	}
	return nil
}

// ground lays paper under words, so that lines do not run through them.
func (p *Painter) ground(x, y, wide, high float32) {
	m := high * 0.25
	a, b := render.Pt{X: x - m, Y: y + high*0.55}, render.Pt{X: x + wide + m, Y: y + high*0.55}
	line(&p.frame, a, b, high*1.2, p.inks[render.Paper], 215)
}
