package chart

import (
	"image"
	"math"
	"strings"

	"riddle/render"
)

// frame is a chart being drawn: the room of its curves and the scale, px. One
// u is a pixel of a chart 1,600 px wide.
type frame struct {
	*pen
	c              Chart
	u              float32
	x0, y0, x1, y1 float32 // of the curves
	weight         float32 // of lines
}

// Sizes of type, in u: a fiftieth of the width and more can be read from the
// back of a room.
const (
	titleSize, axisSize, tickSize, nameSize, noteSize, textSize = 46, 30, 30, 31, 30, 23
)

// Draw draws a chart.
func Draw(c Chart, size Size) (*image.RGBA, error) {
	theme, _ := render.FindTheme(size.Theme)
	p, err := newPen(size.Width, size.Height(), theme)
	if err != nil {
		return nil, err
	}
	u := float32(size.Width) / 1600
	f := &frame{pen: p, c: c, u: u, x0: 118 * u, y0: 178 * u, x1: 1215 * u, y1: 772 * u, weight: theme.Weight * u}
	f.band()
	f.grid()
	f.stop()
	f.set()
	for i := range c.Lines {
		f.curve(&c.Lines[i])
	}
	f.cutOff()
	f.names()
	f.least()
	f.headings()
	return p.img, nil
}

func (f *frame) letters(size float32, bold bool) face { return face{size * f.u, bold} }

// at returns the place of a value.
func (f *frame) at(x, y float64) pt {
	across := (x - f.c.X.From) / (f.c.X.To - f.c.X.From)
	up := (y - f.c.Y.From) / (f.c.Y.To - f.c.Y.From)
	return pt{f.x0 + (f.x1-f.x0)*float32(across), f.y1 - (f.y1-f.y0)*float32(up)}
}

// band shades the usual range and names it.
func (f *frame) band() {
	b := f.c.Band
	if b == nil {
		return
	}
	left, right := f.at(b.From, 0).x, f.at(b.To, 0).x
	f.rect(left, f.y0, right, f.y1, render.Sheet, 255)
	ty := f.letters(noteSize-4, false)
	half := f.wide(b.Name, ty) / 2
	mid := min(max((left+right)/2, f.x0+half), f.x1-half)
	f.words(b.Name, mid, f.y0-12*f.u, ty, 0.5, render.Ink)
	for _, x := range [...]float32{left, right} {
		f.stroke([]pt{{x, f.y0}, {x, f.y1}}, 1.5*f.weight, nil, render.Line)
	}
}

// grid draws axes, ticks and their numbers.
func (f *frame) grid() {
	ty := f.letters(tickSize, false)
	for _, v := range ticks(f.c.Y.From, f.c.Y.To, 5) {
		q := f.at(f.c.X.From, v)
		if v > f.c.Y.From {
			f.shapes([][]pt{bar(pt{f.x0, q.y}, pt{f.x1, q.y}, f.weight)}, render.Line, 90)
		}
		f.words(number(v), f.x0-14*f.u, q.y+10*f.u, ty, 1, render.Ink)
	}
	for _, v := range ticks(f.c.X.From, f.c.X.To, 7) {
		q := f.at(v, f.c.Y.From)
		f.stroke([]pt{{q.x, f.y1}, {q.x, f.y1 + 10*f.u}}, 2*f.weight, nil, render.Ink)
		f.words(number(v), q.x, f.y1+42*f.u, ty, 0.5, render.Ink)
	}
	f.stroke([]pt{{f.x0, f.y0}, {f.x0, f.y1}, {f.x1, f.y1}}, 2.5*f.weight, nil, render.Ink)
}

// stop hatches where the machine plugs.
func (f *frame) stop() {
	s := f.c.Stop
	if s == nil {
		return
	}
	left, right := f.at(s.X, 0).x, f.x1
	if s.X < (f.c.X.From+f.c.X.To)/2 {
		left, right = f.x0, left
	}
	for x := left - (f.y1 - f.y0); x < right; x += 22 * f.u {
		a, b := pt{x, f.y1}, pt{x + (f.y1 - f.y0), f.y0}
		if a.x < left {
			a = pt{left, f.y1 - (left - a.x)}
		}
		if b.x > right {
			b = pt{right, f.y0 + (b.x - right)}
		}
		f.stroke([]pt{a, b}, 1.2*f.weight, nil, render.Line)
	}
	mid := min(max((left+right)/2, f.x0+60*f.u), f.x1-60*f.u)
	f.onPaper(s.Text, mid, (f.y0+f.y1)/2, f.letters(noteSize, true), 0.5, render.Ink, render.Paper)
}

// set shows the value that the machine is set to.
func (f *frame) set() {
	if f.c.Set == nil {
		return
	}
	x := f.at(f.c.Set.X, 0).x
	f.stroke([]pt{{x, f.y0 + 8*f.u}, {x, f.y1}}, 2*f.weight, []float32{2 * f.u, 9 * f.u}, render.Ink)
	ty := f.letters(noteSize-4, false)
	side, off := float32(0), 10*f.u
	if x+f.wide(f.c.Set.Text, ty)+off > f.x1 {
		side, off = 1, -off
	}
	f.onPaper(f.c.Set.Text, x+off, f.y0+34*f.u, ty, side, render.Ink, f.under(f.c.Set.X))
}

// under returns the tone of the ground at a value.
func (f *frame) under(x float64) render.Tone {
	if b := f.c.Band; b != nil && x >= b.From && x <= b.To {
		return render.Sheet
	}
	return render.Paper
}

// least marks the least value.
func (f *frame) least() {
	l := f.c.Least
	if l == nil {
		return
	}
	q, ty := f.at(l.X, l.Y), f.letters(noteSize, true)
	at := f.clear(q, f.wide(l.Text, ty), ty.size)
	near := at.y + 10*f.u // the side of the words that faces the place
	if at.y > q.y {
		near = at.y - ty.size
	}
	f.stroke([]pt{q, {q.x, near}}, 2*f.weight, nil, render.Ink)
	f.shapes([][]pt{disc(q, 13*f.u, 28)}, render.Ink, 255)
	f.shapes([][]pt{disc(q, 8*f.u, 28)}, render.Paper, 255)
	f.onPaper(l.Text, at.x, at.y, ty, 0.5, render.Ink, f.under(l.X))
}

// clear finds room for words of a size above or below a place, where they
// cover the least of the lines; it returns the middle of their baseline.
func (f *frame) clear(q pt, wide, high float32) pt {
	x := min(max(q.x, f.x0+wide/2+16*f.u), f.x1-wide/2-8*f.u)
	best, least := pt{x, q.y - 70*f.u}, math.MaxInt
	for _, off := range [...]float32{-70, -110, -150, -190, -230, -270, -310, -350, -390, 80, 120} {
		y := q.y + off*f.u
		if y-high < f.y0+48*f.u || y > f.y1-14*f.u {
			continue
		}
		if n := f.covered(x-wide/2, y-high, x+wide/2, y+high*0.3); n < least {
			best, least = pt{x, y}, n
		}
	}
	return best
}

// covered counts places on the lines that a box covers, heavy lines twice.
func (f *frame) covered(x0, y0, x1, y1 float32) int {
	n := 0
	for i := range f.c.Lines {
		l := &f.c.Lines[i]
		for _, way := range f.ways(l) {
			for k := 1; k < len(way); k++ {
				for s := range 16 {
					at := float32(s) / 16
					x, y := way[k-1].x+(way[k].x-way[k-1].x)*at, way[k-1].y+(way[k].y-way[k-1].y)*at
					if x > x0 && x < x1 && y > y0-6*f.u && y < y1+6*f.u {
						n++
						if l.Style.Heavy {
							n++
						}
					}
				}
			}
		}
	}
	return n
}

// headings writes title, method, axes and circumstances.
func (f *frame) headings() {
	head := f.letters(titleSize, true)
	for room := 1490*f.u - f.wide(f.c.Method, f.letters(axisSize-4, false)); f.wide(f.c.Title, head) > room && head.size > 24*f.u; {
		head.size -= f.u
	}
	f.words(f.c.Title, 40*f.u, 66*f.u, head, 0, render.Ink)
	method := f.letters(axisSize-4, false)
	f.words(f.c.Method, (1600-40)*f.u, 66*f.u, method, 1, render.Ink)
	y := f.letters(axisSize-2, false)
	for f.wide(f.c.Y.Label, y) > 1520*f.u && y.size > 18*f.u {
		y.size -= f.u
	}
	f.words(f.c.Y.Label, 40*f.u, 116*f.u, y, 0, render.Ink)
	f.words(f.c.X.Label, (f.x0+f.x1)/2, f.y1+88*f.u, f.letters(axisSize+2, true), 0.5, render.Ink)
	ty := f.letters(textSize, false)
	down := f.y1 + 136*f.u
	for _, row := range f.wrap(f.c.Text, ty, 1520*f.u) {
		f.words(row, 40*f.u, down, ty, 0, render.Ink)
		down += float32(math.Round(float64(ty.size * 1.35)))
	}
}

// wrap parts a text into lines of a width.
func (f *frame) wrap(text string, ty face, width float32) []string {
	rows, row := []string{}, ""
	for _, word := range strings.Fields(text) {
		if row != "" && f.wide(row+" "+word, ty) > width {
			rows, row = append(rows, row), word
			continue
		}
		row = strings.TrimSpace(row + " " + word)
	}
	return append(rows, row)
}
