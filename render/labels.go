package render

import (
	"cmp"
	"fmt"
	"slices"
	"unicode/utf8"

	"riddle/sim"
	"riddle/sim/stage/section"
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
// rows in the margins over and under the picture, each near its part, so that
// no name covers a part, another name or the lead of another, and no two leads
// cross. Of the ways to lead to a part the one is taken that crosses the least
// of the flow. What finds no room is left out.
//
// In a view that stays it pays to look for a better order of placing them: what
// was placed at the greatest cost is placed earlier the next time.
func Labels(snap *sim.Snapshot, opt Options) []Label {
	opt.Labels = true
	v := opt.View()
	turns := labelTurns(snap, v, opt)
	best, least := layLabels(turns, v, opt)
	if !opt.Rect.Empty() {
		return best
	}
	for range labelTries {
		slices.SortStableFunc(turns, func(a, b labelTurn) int { return cmp.Compare(b.weight, a.weight) })
		if labels, cost := layLabels(turns, v, opt); cost < least {
			best, least = labels, cost
		}
	}
	return best
}

// labelTries is how many orders of the names are tried.
const labelTries = 24

// unnamed returns what a name that finds no place costs, px: on a narrow picture
// less than a lead through the straw does, so that only those stand there that
// stand well.
func unnamed(opt Options, size float32) float32 {
	if float64(opt.Width) < 1000*max(opt.Scale, 1) {
		return 34 * size
	}
	return 4000
}

// otherSide is what a name costs on the side of the machine that is not its
// part's, over the height of its words.
const otherSide = 10

// labelTurn is a part whose name waits to be placed: the greater its weight,
// the earlier.
type labelTurn struct {
	part   *Part
	name   string
	weight float32 // what placing it has cost so far, px, of late more than long ago
}

func labelTurns(snap *sim.Snapshot, v View, opt Options) []labelTurn {
	var turns []labelTurn
	for _, p := range inSight(snap, v) {
		if opt.Unnamed == nil || !slices.Contains(*opt.Unnamed, p.ID) {
			turns = append(turns, labelTurn{part: p, name: opt.nameOf(p, snap)})
		}
	}
	return turns
}

// layLabels places the names in the order given, notes what each costs, and
// says what all do.
func layLabels(turns []labelTurn, v View, opt Options) (labels []Label, cost float32) {
	size := labelHeight(opt)
	edge := labelEdge * float32(v.Scale)
	ways := v.flowWays()
	up := shelf{v: v, ways: ways, y: edge, way: size * labelLine, rows: opt.rows()}
	down := shelf{v: v, ways: ways, y: v.H - edge - size, way: -size * labelLine, rows: opt.rows()}
	down.keep(scaleOf(v, size))
	for i := range turns {
		t := &turns[i]
		c := place(t.part, t.name, &up, &down, size, unnamed(opt, size))
		t.weight = t.weight*0.8 + c
		cost += c
	}
	return append(up.labels, down.labels[1:]...), cost
}

// place puts the name of a part on the better of two shelves, if that costs less
// than to leave it out, and says what it cost.
func place(p *Part, name string, up, down *shelf, size, least float32) float32 {
	l := Label{Key: p.ID, Text: name, Wide: float32(utf8.RuneCountInString(name)) * size * labelWide, Size: size}
	var on *shelf
	best, row := Label{}, 0
	for _, s := range [...][2]*shelf{{up, down}, {down, up}} {
		for _, anchor := range p.anchors() {
			if !up.v.shows(anchor) {
				continue
			}
			l.To = up.v.Px(anchor)
			c, r, cost, ok := s[0].seek(l, s[1])
			if p.Below != (s[0] == down) {
				cost += otherSide * size
			}
			if ok && cost < least {
				on, best, row, least = s[0], c, r, cost
			}
		}
	}
	if on != nil {
		on.labels, on.row = append(on.labels, best), append(on.row, row)
	}
	return least
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
func ScaleBar(opt Options) Scale { return scaleOf(opt.View(), labelHeight(opt)) }

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

// labelHeight returns the height of words, px: for a projector at least a
// forty-fifth of the picture's, so that they are read from the last row.
func labelHeight(opt Options) float32 {
	scale := max(opt.Scale, 0)
	if !(scale > 0) {
		scale = 1
	}
	theme, _ := FindTheme(opt.Theme)
	size := labelSize * float32(scale) * theme.Type * min(max(root4(float32(opt.Width)/float32(scale)/1200), 0.8), 1.15)
	if theme.Type > 1 {
		size = max(size, float32(opt.Width)/labelShare)
	}
	return size
}

// labelShare is the width of a projected picture over the least height of its
// words: on a screen of 16 to 9 that the picture fills but for narrow margins
// they have a forty-fifth of the height.
const labelShare = 78

// inSight returns the parts whose anchors a view shows: those that obey a
// setting first, since names are wanted there most, then from left to right.
func inSight(snap *sim.Snapshot, v View) []*Part {
	var parts []*Part
	for i := range Parts {
		if p := &Parts[i]; p.On(snap.Crop) && slices.ContainsFunc(p.anchors(), v.shows) {
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
	ways   []flowWay
	y, way float32
	rows   int
	labels []Label
	row    []int // of each label
}

// keep takes the place of the scale bar.
func (s *shelf) keep(b Scale) {
	wide := b.At.X + float32(len(b.Text))*b.Size*labelWide - b.From.X
	s.labels = append(s.labels, Label{At: Pt{b.From.X, b.At.Y}, Wide: wide, Size: b.Size, From: Pt{-1e4, 0}, To: Pt{-1e4, 1}})
	s.row = append(s.row, 0)
}

// seek finds the best place for a label: near its part, in an outer row rather
// than an inner one, with a lead that crosses little of the flow and none of
// those on the other shelf.
func (s *shelf) seek(l Label, other *shelf) (best Label, bestRow int, least float32, found bool) {
	step := l.Size * 0.5
	for row := range s.rows {
		for i := range 57 { // from its part outwards, to both sides
			out := float32((i+1)/2*(1-i%2*2)) * step
			if found && abs32(out)+float32(row)*l.Size*1.2 >= least {
				break
			}
			c := s.at(l, row, l.To.X-l.Wide/2+out)
			cost := abs32(c.At.X+c.Wide/2-l.To.X) + float32(row)*l.Size*1.2 + 0.4*abs32(c.From.Y-c.To.Y)
			if found && cost >= least || !s.free(&c, row) || other.cuts(&c) {
				continue
			}
			if cost += s.crossed(&c) * l.Size; !found || cost < least {
				best, bestRow, least, found = c, row, cost, true
			}
		}
	}
	return
}

// cuts reports whether the lead of a label on another shelf crosses one here.
func (s *shelf) cuts(l *Label) bool {
	for i := range s.labels {
		if meet(l, &s.labels[i]) {
			return true
		}
	}
	return false
}

// flowLines are the ways of the flow that a lead should not cross, and how
// much it counts: a mat of straw hides more than a sheet of grain.
var flowLines = []struct {
	way    section.Line
	weight float32
}{
	{section.FeederFloor, 8},
	{section.Line{A: section.Platform[0], B: section.Platform[1]}, 4},
	{shift(section.Line{A: section.WalkerStart, B: section.Point{X: section.RearEdgeWalkers + 0.3, Y: 2.36}}, 0, 0.22), 30},
	{section.WalkerPan, 3}, {section.ConveyorFloor, 6}, {section.PreSieve, 4}, {section.UpperSieve, 6},
	{section.TailPlate, 4}, {section.LowerSieve, 4}, {section.CollectingPan, 2},
	{section.GrainElevator, 3}, {section.ReturnsElevator, 2}, {section.BeaterPlate, 4},
	{section.Line{A: section.Point{X: 0.35, Y: 3.10}, B: section.Point{X: 1.45, Y: 3.10}}, 3}, // falling into the tank
	{section.Line{A: section.Tank[1], B: section.Tank[4]}, 2},
	{section.Line{A: section.Point{X: 4.70, Y: 2.00}, B: section.Point{X: 5.30, Y: 2.00}}, 3}, // straw to the chopper
	{section.Line{A: section.Point{X: 3.84, Y: 0.45}, B: section.Point{X: 4.10, Y: 0.45}}, 3}, // chaff to the ground
}

// flowWay is one of them on the picture.
type flowWay struct {
	way    Label
	weight float32
}

func (v View) flowWays() []flowWay {
	var ways []flowWay
	for _, f := range flowLines {
		ways = append(ways, flowWay{Label{From: v.Px(f.way.A), To: v.Px(f.way.B)}, f.weight})
	}
	return ways
}

// crossed returns how much of the flow a lead crosses.
func (s *shelf) crossed(l *Label) (sum float32) {
	for i := range s.ways {
		if meet(l, &s.ways[i].way) {
			sum += s.ways[i].weight
		}
	}
	return sum
}

// shows reports whether a point lies in the picture proper, its margins apart.
func (v View) shows(q section.Point) bool {
	p := v.Px(q)
	return p.X >= 0 && p.X <= v.W && p.Y >= v.Margin && p.Y <= v.H-v.Margin
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
