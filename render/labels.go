package render

import (
	"cmp"
	"slices"

	"riddle/sim"
)

// Label is the name of a part on the picture: its words with their upper left
// corner at At, Size px high, about Wide px wide, and a lead from From at the
// words to To at the part.
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
	labelGap  = 10   // px between labels
	labelEdge = 8    // px to the edge of the picture
)

// Labels returns where the names of the parts stand that the view shows, in
// rows along its upper and lower edge and in the order of their parts from
// left to right, so that leads do not cross. What finds no room is left out.
func Labels(snap *sim.Snapshot, opt Options) []Label {
	v := opt.View()
	theme, _ := FindTheme(opt.Theme)
	size := labelSize * float32(v.Scale) * theme.Type * min(max(root4(v.W/float32(v.Scale)/1200), 0.8), 1.15)
	var up, down []Label
	for i := range Parts {
		p := &Parts[i]
		if !p.On(snap.Crop) || !v.Rect.Contains(p.Anchor) {
			continue
		}
		l := Label{Key: p.ID, Text: p.Name, Wide: float32(len(p.Name)) * size * labelWide, Size: size, To: v.Px(p.Anchor)}
		if p.Below {
			down = append(down, l)
		} else {
			up = append(up, l)
		}
	}
	edge := labelEdge * float32(v.Scale)
	rows := int(min(max(v.H/size/6, 1), 3))
	return append(place(up, v, rows, edge, 1), place(down, v, rows, v.H-edge-size, -1)...)
}

// place sets labels into rows; the first row's upper edge is at y and further
// rows follow downwards (way 1) or upwards (−1).
func place(ls []Label, v View, rows int, y float32, way float32) []Label {
	slices.SortStableFunc(ls, func(a, b Label) int { return cmp.Compare(a.To.X, b.To.X) })
	edge, gap := labelEdge*float32(v.Scale), labelGap*float32(v.Scale)
	ends := make([]float32, rows)
	for i := range ends {
		ends[i] = edge
	}
	out := ls[:0]
	for _, l := range ls {
		want := min(max(l.To.X-l.Wide/2, edge), v.W-edge-l.Wide)
		row, x := bestRow(ends, want, l.Wide, v.W-edge)
		if row < 0 {
			continue
		}
		ends[row] = x + l.Wide + gap
		l.At = Pt{x, y + way*float32(row)*l.Size*1.5}
		l.From = Pt{min(max(l.To.X, x+l.Size*0.3), x+l.Wide-l.Size*0.3), l.At.Y + l.Size*1.12}
		if way < 0 {
			l.From.Y = l.At.Y - l.Size*0.1
		}
		out = append(out, l)
	}
	return out
}

// bestRow returns the row in which a label comes closest to where it wants to
// stand, or −1.
func bestRow(ends []float32, want, wide, right float32) (row int, x float32) {
	row = -1
	best := float32(0)
	for i, end := range ends {
		at := max(want, end)
		if at+wide > right {
			continue
		}
		if cost := at - want + float32(i)*wide*0.1; row < 0 || cost < best {
			row, x, best = i, at, cost
		}
	}
	return row, x
}
