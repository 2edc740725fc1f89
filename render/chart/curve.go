package chart

import (
	"fmt"
	"sort"

	"riddle/render"
)

// plain is the width of a plain line and heavy of the main one, in u.
const (
	plainWidth, heavyWidth = 5, 8
	markerSize             = 9
	markersAcross          = 9 // about so many on a line
)

func (f *frame) width(s Style) float32 {
	if s.Heavy {
		return heavyWidth * f.weight
	}
	return plainWidth * f.weight
}

func (f *frame) dash(s Style) []float32 {
	list := make([]float32, len(s.Dash))
	for i, d := range s.Dash {
		list[i] = d * plainWidth * f.weight
	}
	return list
}

// curve draws one line with its errors and markers.
func (f *frame) curve(l *Line) {
	w := f.width(l.Style)
	for _, way := range f.ways(l) {
		f.stroke(way, w, f.dash(l.Style), l.Tone)
	}
	every := max(1, (len(l.Points)+markersAcross/2)/markersAcross)
	for i, p := range l.Points {
		if p.Gap || p.Y > f.c.Y.To {
			continue
		}
		if p.Error > 0 {
			f.whisker(p, l.Tone)
		}
		if i%every == every/2 {
			f.marker(l.Style.Marker, f.at(p.X, p.Y), markerSize*f.weight, l.Tone)
		}
	}
}

// whisker draws one standard error up and down.
func (f *frame) whisker(p Point, t render.Tone) {
	hi, lo := f.at(p.X, min(p.Y+p.Error, f.c.Y.To)), f.at(p.X, max(p.Y-p.Error, f.c.Y.From))
	f.stroke([]pt{hi, lo}, 2*f.weight, nil, t)
	for _, q := range [...]pt{hi, lo} {
		f.stroke([]pt{{q.x - 6*f.u, q.y}, {q.x + 6*f.u, q.y}}, 2*f.weight, nil, t)
	}
}

// ways parts a line where it has no value or leaves the chart at the top.
func (f *frame) ways(l *Line) [][]pt {
	list, way := [][]pt{}, []pt{}
	end := func() {
		if len(way) > 1 {
			list = append(list, way)
		}
		way = nil
	}
	for i, p := range l.Points {
		if p.Gap {
			end()
			continue
		}
		out := p.Y > f.c.Y.To
		if i > 0 && !l.Points[i-1].Gap && (l.Points[i-1].Y > f.c.Y.To) != out {
			way = append(way, f.crossing(l.Points[i-1], p))
		}
		if out {
			end()
			continue
		}
		way = append(way, f.at(p.X, p.Y))
	}
	end()
	return list
}

// crossing is where the line between two points meets the top.
func (f *frame) crossing(a, b Point) pt {
	share := (f.c.Y.To - a.Y) / (b.Y - a.Y)
	return f.at(a.X+(b.X-a.X)*share, f.c.Y.To)
}

// cutOff says how high the highest line goes where it is cut off on the left;
// on the right the names say so.
func (f *frame) cutOff() {
	var l *Line
	for i := range f.c.Lines {
		next := &f.c.Lines[i]
		if len(next.Points) < 2 || next.Points[0].Gap || next.Points[0].Y <= f.c.Y.To {
			continue
		}
		if l == nil || next.Points[0].Y > l.Points[0].Y {
			l = next
		}
	}
	if l == nil {
		return
	}
	x := f.x0
	for i := 1; i < len(l.Points); i++ {
		if p := l.Points[i]; !p.Gap && p.Y <= f.c.Y.To {
			x = f.crossing(l.Points[i-1], p).x
			break
		}
	}
	text, ty := fmt.Sprintf("↑ %.0f %%", l.Points[0].Y), f.letters(noteSize-4, true)
	if wide := f.wide(text, ty); x-wide-24*f.u > f.x0 {
		x -= wide + 12*f.u
	} else {
		x += 22 * f.u
	}
	f.onPaper(text, x, f.y0+34*f.u, ty, 0, l.Tone, f.under(l.Points[0].X))
}

// label is the name of a line beside its end.
type label struct {
	line *Line
	text string
	end  pt
	y    float32
}

// names writes the names at the right ends of the lines, apart from another.
func (f *frame) names() {
	list := []label{}
	for i := range f.c.Lines {
		if l, ok := f.label(&f.c.Lines[i]); ok {
			list = append(list, l)
		}
	}
	sort.SliceStable(list, func(i, j int) bool { return list[i].end.y < list[j].end.y })
	f.apart(list)
	x := f.x1 + 30*f.u
	for _, l := range list {
		ty := f.letters(nameSize, true)
		f.stroke([]pt{l.end, {x - 6*f.u, l.y}}, 1.5*f.weight, nil, render.Line)
		f.stroke([]pt{{x, l.y}, {x + 52*f.u, l.y}}, f.width(l.line.Style), f.dash(l.line.Style), l.line.Tone)
		f.marker(l.line.Style.Marker, pt{x + 26*f.u, l.y}, markerSize*f.weight, l.line.Tone)
		for f.wide(l.text, ty) > 1584*f.u-x-64*f.u && ty.size > 18*f.u {
			ty.size -= f.u
		}
		f.words(l.text, x+64*f.u, l.y+ty.size*0.36, ty, 0, l.line.Tone)
	}
}

// label returns the name of a line and where the line ends.
func (f *frame) label(l *Line) (label, bool) {
	for i := len(l.Points) - 1; i >= 0; i-- {
		p := l.Points[i]
		switch {
		case p.Gap:
			continue
		case p.Y <= f.c.Y.To:
			return label{line: l, text: l.Name, end: f.at(p.X, p.Y)}, true
		}
		end := f.at(p.X, f.c.Y.To)
		for k := i; k > 0 && !l.Points[k-1].Gap; k-- {
			if l.Points[k-1].Y <= f.c.Y.To {
				end = f.crossing(l.Points[k-1], l.Points[k])
				break
			}
		}
		return label{line: l, text: fmt.Sprintf("%s ↑ %.0f %%", l.Name, p.Y), end: end}, true
	}
	return label{}, false
}

// apart moves names up and down until none lies on another, within the chart.
func (f *frame) apart(list []label) {
	gap := (nameSize + 9) * f.u
	for i := range list {
		list[i].y = list[i].end.y
		if i > 0 {
			list[i].y = max(list[i].y, list[i-1].y+gap)
		}
	}
	for i := len(list) - 1; i >= 0; i-- {
		limit := f.y1
		if i < len(list)-1 {
			limit = list[i+1].y - gap
		}
		list[i].y = min(list[i].y, limit)
	}
}
