package render

import (
	"cmp"
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
	theme, _ := FindTheme(opt.Theme)
	size := labelSize * float32(v.Scale) * theme.Type * min(max(root4(v.W/float32(v.Scale)/1200), 0.8), 1.15)
	edge := labelEdge * float32(v.Scale)
	up := shelf{v: v, y: edge, way: size * labelLine}
	down := shelf{v: v, y: v.H - edge - size, way: -size * labelLine}
	for _, p := range inSight(snap, v) {
		l := Label{Key: p.ID, Text: p.Name, Wide: float32(len(p.Name)) * size * labelWide, Size: size, To: v.Px(p.Anchor)}
		room := size * labelLine * (labelRows + 0.5)
		if l.To.Y > v.H-room || !p.Below && l.To.Y > room {
			up.put(l)
		} else {
			down.put(l)
		}
	}
	return append(up.labels, down.labels...)
}

// inSight returns the parts whose anchors a view shows, from left to right.
func inSight(snap *sim.Snapshot, v View) []*Part {
	var parts []*Part
	for i := range Parts {
		if p := &Parts[i]; p.On(snap.Crop) && v.Rect.Contains(p.Anchor) {
			parts = append(parts, p)
		}
	}
	slices.SortStableFunc(parts, func(a, b *Part) int { return cmp.Compare(a.Anchor.X, b.Anchor.X) })
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

// put finds the best place for a label, if there is one: near its part, and
// in an outer row rather than an inner one.
func (s *shelf) put(l Label) {
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
	if l.At.X < 0 {
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
