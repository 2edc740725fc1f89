package chart

import (
	"fmt"
	"image"
	"image/color"
	"math"

	"golang.org/x/image/font"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/opentype"
	"golang.org/x/image/math/fixed"
	"golang.org/x/image/vector"

	"riddle/render"
)

// pt is a place in the picture, px from its upper left.
type pt struct{ x, y float32 }

// pen paints shapes and words into an image.
type pen struct {
	img     *image.RGBA
	fill    vector.Rasterizer
	colours *render.Palette
	faces   map[face]font.Face
	fonts   [2]*opentype.Font // plain, bold
}

// face is a size of type, px.
type face struct {
	size float32
	bold bool
}

func newPen(w, h int, theme *render.Theme) (*pen, error) {
	p := &pen{img: image.NewRGBA(image.Rect(0, 0, w, h)), colours: &theme.Colours, faces: map[face]font.Face{}}
	for i, ttf := range [...][]byte{goregular.TTF, gobold.TTF} {
		f, err := opentype.Parse(ttf)
		if err != nil {
			return nil, fmt.Errorf("type of the chart: %w", err)
		}
		p.fonts[i] = f
	}
	p.rect(0, 0, float32(w), float32(h), render.Paper, 255)
	return p, nil
}

func (p *pen) ink(t render.Tone, alpha uint8) color.NRGBA {
	c := p.colours[t]
	return color.NRGBA{c.R, c.G, c.B, alpha}
}

// shapes fills closed outlines, all turning the same way, as one.
func (p *pen) shapes(outlines [][]pt, t render.Tone, alpha uint8) {
	lo, hi := pt{math.MaxFloat32, math.MaxFloat32}, pt{-math.MaxFloat32, -math.MaxFloat32}
	for _, o := range outlines {
		for _, q := range o {
			lo, hi = pt{min(lo.x, q.x), min(lo.y, q.y)}, pt{max(hi.x, q.x), max(hi.y, q.y)}
		}
	}
	box := image.Rect(int(lo.x)-1, int(lo.y)-1, int(hi.x)+2, int(hi.y)+2).Intersect(p.img.Rect)
	if box.Empty() {
		return
	}
	p.fill.Reset(box.Dx(), box.Dy())
	dx, dy := float32(box.Min.X), float32(box.Min.Y)
	for _, o := range outlines {
		p.fill.MoveTo(o[0].x-dx, o[0].y-dy)
		for _, q := range o[1:] {
			p.fill.LineTo(q.x-dx, q.y-dy)
		}
		p.fill.ClosePath()
	}
	p.fill.Draw(p.img, box, image.NewUniform(p.ink(t, alpha)), image.Point{})
}

func (p *pen) rect(x0, y0, x1, y1 float32, t render.Tone, alpha uint8) {
	p.shapes([][]pt{{{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}}}, t, alpha)
}

// stroke draws a line through places; dash as in Style, in px.
func (p *pen) stroke(way []pt, width float32, dash []float32, t render.Tone) {
	if len(way) < 2 {
		return
	}
	outlines := [][]pt{}
	for _, part := range dashes(way, dash) {
		for i, q := range part {
			outlines = append(outlines, disc(q, width/2, 12))
			if i > 0 {
				outlines = append(outlines, bar(part[i-1], q, width))
			}
		}
	}
	p.shapes(outlines, t, 255)
}

// bar is the outline of a straight piece of line; it turns as disc does.
func bar(a, b pt, width float32) []pt {
	dx, dy := b.x-a.x, b.y-a.y
	length := float32(math.Hypot(float64(dx), float64(dy)))
	if length == 0 {
		return disc(a, width/2, 4)
	}
	nx, ny := -dy/length*width/2, dx/length*width/2
	return []pt{{a.x - nx, a.y - ny}, {b.x - nx, b.y - ny}, {b.x + nx, b.y + ny}, {a.x + nx, a.y + ny}}
}

// disc is a regular outline of n corners, one of them to the right.
func disc(c pt, r float32, n int) []pt {
	o := make([]pt, n)
	for i := range o {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(n))
		o[i] = pt{c.x + r*float32(cos), c.y + r*float32(sin)}
	}
	return o
}

// dashes cuts a way into pieces on and off.
func dashes(way []pt, dash []float32) [][]pt {
	if len(dash) == 0 {
		return [][]pt{way}
	}
	parts, part := [][]pt{}, []pt{way[0]}
	i, left := 0, dash[0]
	for k := 1; k < len(way); k++ {
		a, b := way[k-1], way[k]
		for {
			length := float32(math.Hypot(float64(b.x-a.x), float64(b.y-a.y)))
			if length <= left {
				left -= length
				if i%2 == 0 {
					part = append(part, b)
				}
				break
			}
			f := left / length
			a = pt{a.x + (b.x-a.x)*f, a.y + (b.y-a.y)*f}
			if i%2 == 0 {
				parts = append(parts, append(part, a))
			}
			part = []pt{a}
			i = (i + 1) % len(dash)
			left = dash[i]
		}
	}
	if i%2 == 0 && len(part) > 1 {
		parts = append(parts, part)
	}
	return parts
}

// marker draws the shape of a marker.
func (p *pen) marker(m Marker, c pt, r float32, t render.Tone) {
	switch m {
	case Round:
		p.shapes([][]pt{disc(c, r, 24)}, t, 255)
	case Square:
		r *= 0.85
		p.rect(c.x-r, c.y-r, c.x+r, c.y+r, t, 255)
	case Triangle:
		p.shapes([][]pt{{{c.x, c.y - r*1.2}, {c.x + r*1.1, c.y + r*0.8}, {c.x - r*1.1, c.y + r*0.8}}}, t, 255)
	case Diamond:
		p.shapes([][]pt{disc(c, r*1.25, 4)}, t, 255)
	case Cross:
		p.stroke([]pt{{c.x - r, c.y - r}, {c.x + r, c.y + r}}, r*0.55, nil, t)
		p.stroke([]pt{{c.x - r, c.y + r}, {c.x + r, c.y - r}}, r*0.55, nil, t)
	}
}

func (p *pen) face(f face) font.Face {
	if p.faces[f] == nil {
		which := p.fonts[0]
		if f.bold {
			which = p.fonts[1]
		}
		made, err := opentype.NewFace(which, &opentype.FaceOptions{Size: float64(f.size), DPI: 72, Hinting: font.HintingNone})
		if err != nil {
			panic(err) // never: the sizes are ours
		}
		p.faces[f] = made
	}
	return p.faces[f]
}

// wide returns the width of words, px.
func (p *pen) wide(text string, f face) float32 {
	return float32(font.MeasureString(p.face(f), text)) / 64
}

// words writes text with its baseline at y; from is the share of its width
// that lies left of x: 0, 0.5 or 1.
func (p *pen) words(text string, x, y float32, f face, from float32, t render.Tone) {
	x -= p.wide(text, f) * from
	d := font.Drawer{Dst: p.img, Src: image.NewUniform(p.ink(t, 255)), Face: p.face(f),
		Dot: fixed.Point26_6{X: fixed.Int26_6(x * 64), Y: fixed.Int26_6(y * 64)}}
	d.DrawString(text)
}

// onPaper writes words with a rim of a tone, so that lines do not run through.
func (p *pen) onPaper(text string, x, y float32, f face, from float32, t, paper render.Tone) {
	for _, q := range disc(pt{x, y}, f.size*0.13, 12) {
		p.words(text, q.x, q.y, f, from, paper)
	}
	p.words(text, x, y, f, from, t)
}
