package raster

import (
	"fmt"
	"image"
	"image/color"
	"image/png"
	"io"
	"strings"

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
		if err := p.words(opt, render.Labels(snap, opt), render.ScaleBar(opt)); err != nil {
			return nil, err
		}
	}
	return img, nil
}

// words paints labels with their leads, and the scale bar.
func (p *Painter) words(opt render.Options, labels []render.Label, bar render.Scale) error {
	d, err := p.letters(bar.Size)
	if err != nil {
		return err
	}
	for _, l := range labels {
		p.lead(l)
	}
	if opt.Rect.Empty() && (opt.Zone == "" || opt.Zone == "whole") && float64(opt.Width) >= keyFrom*p.scene.View.Scale {
		p.key(d, bar)
	}
	p.bar(bar)
	write := func(text string, x, y float32) { p.write(d, bar.Size, text, x, y) }
	write(bar.Text, bar.At.X, bar.At.Y)
	for _, l := range labels {
		wide := float32(d.MeasureString(l.Text)) / 64
		write(l.Text, min(max(l.From.X-wide/2, l.At.X), l.At.X+max(l.Wide-wide, 0)), l.At.Y)
	}
	return nil
}

// letters returns what draws words of a height in px with ink.
func (p *Painter) letters(size float32) (*font.Drawer, error) {
	if p.face == nil || p.faceSize != size {
		ttf, err := opentype.Parse(goregular.TTF)
		if err != nil {
			return nil, fmt.Errorf("type for the names: %w", err)
		}
		face, err := opentype.NewFace(ttf, &opentype.FaceOptions{Size: float64(size), DPI: 72, Hinting: font.HintingNone})
		if err != nil {
			return nil, fmt.Errorf("type for the names: %w", err)
		}
		p.face, p.faceSize = face, size
	}
	black := p.scene.Theme.Colours[render.Ink]
	return &font.Drawer{Dst: p.img, Src: image.NewUniform(color.RGBA{black.R, black.G, black.B, 255}), Face: p.face}, nil
}

// write paints words on a ground, with their upper left corner at x, y.
func (p *Painter) write(d *font.Drawer, size float32, text string, x, y float32) {
	p.ground(x, y, float32(d.MeasureString(text))/64, size)
	d.Dot = fixed.Point26_6{X: fixed.Int26_6(x * 64), Y: fixed.Int26_6((y + size*0.86) * 64)}
	d.DrawString(text)
}

// note paints the scale bar and, in the lower right corner, a line of words.
func (p *Painter) note(text string, bar render.Scale) error {
	d, err := p.letters(bar.Size)
	if err != nil {
		return err
	}
	p.bar(bar)
	p.write(d, bar.Size, bar.Text, bar.At.X, bar.At.Y)
	room := float32(p.frame.w) - 2*bar.From.X
	lines := p.lines(d, text, room)
	beside := bar.At.X + float32(d.MeasureString(bar.Text))/64 + bar.Size
	for i, line := range lines { // upwards from the lowest
		wide := float32(d.MeasureString(line)) / 64
		up := float32(len(lines) - 1 - i)
		if bar.From.X+room-wide < beside {
			up++
		}
		p.write(d, bar.Size, line, bar.From.X+room-wide, bar.At.Y-up*bar.Size*1.4)
	}
	return nil
}

// lines breaks words into lines of at most so many px.
func (p *Painter) lines(d *font.Drawer, text string, room float32) (lines []string) {
	line := ""
	for word := range strings.FieldsSeq(text) {
		longer := strings.TrimSpace(line + " " + word)
		if line != "" && float32(d.MeasureString(longer))/64 > room {
			lines = append(lines, line)
			longer = word
		}
		line = longer
	}
	return append(lines, line)
}

// keyFrom is the width from which the key stands clear of the leads, px.
const keyFrom = 1150

// key says in the upper left corner of a whole view what the dots are, where
// only three classes are told apart, and what a broken line is.
func (p *Painter) key(d *font.Drawer, bar render.Scale) {
	x, y := bar.From.X, p.scene.View.Margin+bar.Size
	r := bar.Size * 0.22
	for _, k := range [...]struct {
		tone render.Tone
		text string
	}{{render.GrainTone, "grain"}, {render.PieceTone, "unthreshed"}, {render.StrawTone, "straw"}, {render.ChaffTone, "chaff"}, {render.AirTone, "air"}} {
		mid := y + bar.Size*0.55
		switch k.tone {
		case render.StrawTone, render.AirTone:
			line(&p.frame, render.Pt{X: x, Y: mid + r}, render.Pt{X: x + bar.Size*0.9, Y: mid - r}, bar.Size*0.09, p.inks[k.tone], 255)
		default:
			if k.tone == render.ChaffTone {
				r *= 0.72
			}
			dot := roundStamp(r, 0.5, 0.5)
			p.stamps.ready(dot, p.inks[k.tone], 255).lay(&p.frame, floor(x+bar.Size*0.45), floor(mid))
		}
		p.write(d, bar.Size, k.text, x+bar.Size*1.3, y)
		y += bar.Size * 1.45
	}
	mid, thin := y+bar.Size*0.55, 1.15*float32(p.scene.View.Scale)
	for _, at := range [...]float32{0, 0.55} {
		line(&p.frame, render.Pt{X: x + bar.Size*at, Y: mid}, render.Pt{X: x + bar.Size*(at+0.35), Y: mid}, thin, p.inks[render.Ink], 255)
	}
	p.write(d, bar.Size, "before, behind", x+bar.Size*1.3, y)
}

// lead paints the line from a name to its part.
func (p *Painter) lead(l render.Label) {
	thin := 0.8 * float32(p.scene.View.Scale)
	line(&p.frame, l.From, l.To, 3.4*thin, p.inks[render.Inside], 170) // a seam, by which it is told from the flow
	line(&p.frame, l.From, l.To, thin, p.inks[render.Ink], 200)
	dot := roundStamp(thin*2, 0.5, 0.5)
	p.stamps.ready(dot, p.inks[render.Ink], 255).lay(&p.frame, floor(l.To.X), floor(l.To.Y))
}

// bar paints the scale bar with its ends.
func (p *Painter) bar(b render.Scale) {
	ink, w := p.inks[render.Ink], 1.2*float32(p.scene.View.Scale)
	line(&p.frame, b.From, b.To, w, ink, 255)
	for _, q := range [...]render.Pt{b.From, b.To} {
		line(&p.frame, render.Pt{X: q.X, Y: q.Y - b.Size*0.3}, render.Pt{X: q.X, Y: q.Y + b.Size*0.3}, w, ink, 255)
	}
}

// ground lays paper under words, so that lines do not run through them: the
// paper of the picture, or of the inside where the words stand there.
func (p *Painter) ground(x, y, wide, high float32) {
	mid, m := y+high*0.55, high*0.25
	paper := p.inks[render.Paper]
	if m := p.scene.View.Margin; y < m || y > float32(p.still.h)-m {
		return // nothing reaches into the margins
	}
	if i := floor(mid)*p.still.w + floor(x+wide/2); i >= 0 && i < len(p.still.pix) && p.still.pix[i] == p.inks[render.Inside].solid() {
		paper = p.inks[render.Inside]
	}
	line(&p.frame, render.Pt{X: x - m, Y: mid}, render.Pt{X: x + wide + m, Y: mid}, high*1.2, paper, 215)
}
