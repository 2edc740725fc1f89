package render

import (
	"cmp"
	"fmt"
	"slices"

	"riddle/sim"
)

// Label is the name of a part on the picture: its words with their upper left
// corner at At, Size px high and at most Wide px wide, and a lead from From at
// the words to To at the part.
type Label struct {
	Key      string // the part's ID
	Text     string
	At       Pt
	Wide     float32
	Size     float32
	From, To Pt
}

const (
	labelSize = 12.5 // px at scale 1
	labelWide = 0.56 // of a letter over its height, an upper bound of the mean
	labelGap  = 9    // px between labels
	labelEdge = 8    // px to the edge of the picture
	labelLine = 1.5  // of a row over the height of its words
	labelRows = 3
)

// Labels returns where the names of the parts stand that the view shows: in
// rows along its upper and lower edge, each near over or under its part, so
// that no name covers another or the lead of another. What finds no room is
// left out.
func Labels(snap *sim.Snapshot, opt Options) []Label {
	v := opt.View()
	size := labelHeight(opt, v)
	edge := labelEdge * float32(v.Scale)
	up := shelf{v: v, y: edge, way: size * labelLine}
	down := shelf{v: v, y: v.H - edge - size, way: -size * labelLine}
	down.keep(scaleOf(v, size))
	for _, p := range inSight(snap, v) {
		l := Label{Key: p.ID, Text: p.Name, Wide: float32(len(p.Name)) * size * labelWide, Size: size, To: v.Px(p.Anchor)}
		first, second := &up, &down
		if p.Below {
			first, second = second, first
		}
		if !first.put(l) {
			second.put(l)
		}
	}
	return append(up.labels, down.labels[1:]...)
}

// Scale is the bar that says how large the picture is: from From to To, with
// its words at At.
type Scale struct {
	Text         string
	At, From, To Pt
	Size         float32
}

// ScaleBar returns the bar in the lower left corner of a picture. Labels keep
// clear of it.
func ScaleBar(opt Options) Scale {
	v := opt.View()
	return scaleOf(v, labelHeight(opt, v))
}

func scaleOf(v View, size float32) Scale {
	s := Scale{Size: size}
	for _, m := range [...]float64{5, 2, 1, 0.5, 0.2, 0.1, 0.05, 0.02, 0.01, 0.005} {
		long := float32(m * v.K)
		if long > v.W*0.14 {
			continue
		}
		edge := labelEdge * float32(v.Scale)
		y := v.H - edge - size*0.45
		s.From, s.To = Pt{edge, y}, Pt{edge + long, y}
		s.At = Pt{edge + long + size*0.5, v.H - edge - size}
		s.Text = fmt.Sprintf("%g m", m)
		if m < 1 {
			s.Text = fmt.Sprintf("%g cm", m*100)
		}
		break
	}
	return s
}

// labelHeight returns the height of words, px.
func labelHeight(opt Options, v View) float32 {
	theme, _ := FindTheme(opt.Theme)
	return labelSize * float32(v.Scale) * theme.Type * min(max(root4(v.W/float32(v.Scale)/1200), 0.8), 1.15)
}

// inSight returns the parts whose anchors a view shows: those that obey a
// setting first, since names are wanted there most, then from left to right.
func inSight(snap *sim.Snapshot, v View) []*Part {
	var parts []*Part
	for i := range Parts {
		if p := &Parts[i]; p.On(snap.Crop) && v.Rect.Contains(p.Anchor) {
			parts = append(parts, p)
		}
	}
	slices.SortStableFunc(parts, func(a, b *Part) int {
		return cmp.Or(cmp.Compare(min(len(b.Sets), 1), min(len(a.Sets), 1)), cmp.Compare(a.Anchor.X, b.Anchor.X))
	})
	return parts
}

// shelf takes labels in rows: the outermost has its upper edge at y, and each
// further one lies way px from the last.
type shelf struct {
	v      View
	y, way float32
	labels []Label
	row    []int // of each label
}

// keep takes the place of the scale bar.
func (s *shelf) keep(b Scale) {
	wide := b.At.X + float32(len(b.Text))*b.Size*labelWide - b.From.X
	s.labels = append(s.labels, Label{At: Pt{b.From.X, b.At.Y}, Wide: wide, Size: b.Size, From: Pt{-1e4, 0}, To: Pt{-1e4, 1}})
	s.row = append(s.row, 0)
}

// put finds the best place for a label: near its part, and in an outer row
// rather than an inner one. It reports whether there was one.
func (s *shelf) put(l Label) bool {
	best, found := Label{}, false
	bestRow, least := 0, float32(0)
	step := l.Size * 0.5
	for row := range labelRows {
		for i := -24; i <= 24; i++ {
			c := s.at(l, row, l.To.X-l.Wide/2+float32(i)*step)
			cost := abs32(float32(i))*step + float32(row)*l.Size*1.2
			if (!found || cost < least) && s.free(&c, row) {
				best, bestRow, least, found = c, row, cost, true
			}
		}
	}
	if found {
		s.labels, s.row = append(s.labels, best), append(s.row, bestRow)
	}
	return found
}

// at returns the label as it would stand in a row from x on.
func (s *shelf) at(l Label, row int, x float32) Label {
	edge := labelEdge * float32(s.v.Scale)
	x = min(max(x, edge), s.v.W-edge-l.Wide)
	l.At = Pt{x, s.y + float32(row)*s.way}
	l.From = Pt{min(max(l.To.X, x+l.Size*0.4), x+l.Wide-l.Size*0.4), l.At.Y + l.Size*1.15}
	if s.way < 0 {
		l.From.Y = l.At.Y - l.Size*0.12
	}
	return l
}

// free reports whether a label in a row neither covers another nor a lead, nor
// its own lead another label.
func (s *shelf) free(l *Label, row int) bool {
	if l.At.X < 0 || (l.To.Y-l.From.Y)*s.way < 0 { // no room, or the part lies beyond the words
		return false
	}
	gap := labelGap * float32(s.v.Scale)
	for i := range s.labels {
		o := &s.labels[i]
		switch {
		case s.row[i] == row:
			if l.At.X < o.At.X+o.Wide+gap && o.At.X < l.At.X+l.Wide+gap {
				return false
			}
		case s.row[i] > row: // o stands nearer to the machine
			if crosses(l, o, gap/2) {
				return false
			}
		case crosses(o, l, gap/2):
			return false
		}
		if abs32(l.To.X-o.To.X) < 3*float32(s.v.Scale) && abs32(l.From.X-o.From.X) < gap/2 {
			return false // two leads in one
		}
		if meet(l, o) {
			return false
		}
	}
	return true
}

// crosses reports whether the lead of a passes through the words of b.
func crosses(a, b *Label, gap float32) bool {
	lo, hi := b.At.X-gap, b.At.X+b.Wide+gap
	for _, y := range [...]float32{b.At.Y, b.At.Y + b.Size} {
		t := (y - a.From.Y) / (a.To.Y - a.From.Y)
		if x := a.From.X + t*(a.To.X-a.From.X); x > lo && x < hi {
			return true
		}
	}
	return false
}

// meet reports whether the leads of two labels cross.
func meet(a, b *Label) bool {
	side := func(p, q, r Pt) bool { return (q.X-p.X)*(r.Y-p.Y) > (q.Y-p.Y)*(r.X-p.X) }
	return side(a.From, a.To, b.From) != side(a.From, a.To, b.To) && side(b.From, b.To, a.From) != side(b.From, b.To, a.To)
}
