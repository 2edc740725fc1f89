package render

import (
	"math"

	"riddle/sim"
	"riddle/sim/crop"
	"riddle/sim/flow"
	"riddle/sim/section"
)

// Form is how a mark is painted.
type Form uint8

const (
	Speck  Form = iota // a round dot of radius DX
	Stem               // a stroke from X−DX, Y−DY to X+DX, Y+DY, W wide
	Knotty             // the same with the ticks of nodes
	// The rest are figures of the crop in true size: see Figures.
	KernelForm
	LightForm
	HalfForm
	PieceForm
	FlakeForm
	BitForm
	WeedForm
	Forms // how many there are
)

// Mark is one dot as it is painted.
type Mark struct {
	X, Y   float32 // where the dot is, px
	DX, DY float32 // px, as its form has it
	W      float32 // px
	Form   Form
	Tone   Tone
	Turn   uint8 // of a figure, anticlockwise; 256 is a whole turn
	Grade  uint8 // of a figure: 0 small, 1 middling, 2 large
	Alpha  uint8
}

// Grades is the number of sizes in which a figure is kept, and GradeSize their
// size.
const Grades = 3

// GradeSize is the size of each grade over that of the middle one.
var GradeSize = [Grades]float32{0.82, 1, 1.2}

// ladder is the level of detail at which dots are told apart.
type ladder uint8

const (
	classes ladder = iota // grain, unthreshed, everything else
	kinds                 // every kind, by tone
	figures               // every kind, by its true shape
)

// detail returns the level for a crop in a view: figures where a kernel is at
// least 3.4 px long, kinds where 3 dots in a row would be told apart.
func detail(c *crop.Crop, v View) ladder {
	switch seed := c.Seed.Length / 1000 * v.K; {
	case seed >= 3.4:
		return figures
	case v.K >= 250*v.Scale:
		return kinds
	}
	return classes
}

// marker turns dots into marks.
type marker struct {
	v      View
	c      *crop.Crop
	level  ladder
	thick  float32 // of strokes, px
	grainR float32 // of a grain speck, px
	out    []Mark
	place  sim.Place
	front  float64 // concave gaps, mm
	rear   float64

	strength int // of the ink for the present dot, of 255
}

// restingStrength is that of straw and chaff on the ground, so that lost grain
// among it is seen.
const restingStrength = 150

// ink returns the alpha of a mark for the present dot.
func (k *marker) ink(alpha int) uint8 { return uint8(alpha * k.strength / 255) }

var wheat = crop.Find("wheat")

// mark makes the marks of all dots: of those in the machine first what is not
// grain, then what holds grain, so that grain lies on top.
func (s *Scene) mark(snap *sim.Snapshot) {
	c := snap.Crop
	if c == nil {
		c = wheat
	}
	k := marker{v: s.View, c: c, level: detail(c, s.View), out: s.Marks[:0], front: snap.Front, rear: snap.Rear}
	z := float32(s.View.Scale) * s.Theme.Weight
	ratio := float32(s.View.K / (133 * s.View.Scale)) // over a page-wide whole view
	k.thick = max(0.75*z*min(root4(ratio), 1.5), 0.6)
	k.grainR = max(0.98*z*min(sqrt(ratio), root4(ratio), 1.5), 0.75, float32(c.Seed.Length/1000*s.View.K)*0.42)
	for pass := range 4 {
		for p := range snap.Dots {
			k.place = sim.Place(p)
			for i := range snap.Dots[p] {
				if d := &snap.Dots[p][i]; k.pass(d) == pass && k.near(d) {
					k.dot(d)
				}
			}
		}
		if pass == 0 {
			k.pale()
		}
	}
	s.Marks = k.out
}

// pass returns the pass in which a dot is painted: first what rides in the
// elevators, which stand outside the side walls.
func (k *marker) pass(d *flow.Dot) int {
	if k.place == sim.Returning || k.place == sim.Lifting && d.Ride == flow.InMat {
		return 0
	}
	return order[d.Kind]
}

// pale thins what was painted so far, so that the flow behind it can be seen.
func (k *marker) pale() {
	alpha := min(85*root4(float32(k.v.K/(133*k.v.Scale))), 110)
	for i := range k.out {
		k.out[i].Alpha = uint8(float32(k.out[i].Alpha) * alpha / 255)
	}
}

// order is the pass in which a kind is painted.
var order = [flow.Kinds]int{flow.Sound: 3, flow.Light: 3, flow.Broken: 3, flow.Piece: 2,
	flow.Chaff: 1, flow.Short: 1, flow.Straw: 1, flow.Weed: 1}

// near reports whether any of the dot can be on the picture.
func (k *marker) near(d *flow.Dot) bool {
	m := max(d.Size, 30) / 1000
	r := &k.v.Rect
	return d.X > float32(r.X0)-m && d.X < float32(r.X1)+m && d.Y > float32(r.Y0)-m && d.Y < float32(r.Y1)+m
}

func (k *marker) dot(d *flow.Dot) {
	p := k.v.Px(section.Point{X: float64(d.X), Y: float64(d.Y)})
	k.strength = 255
	if d.Ride == flow.AtRest && d.Kind.IsMOG() {
		k.strength = restingStrength
	}
	m := Mark{X: p.X, Y: p.Y, Alpha: k.ink(255), Tone: k.tone(d.Kind)}
	switch {
	case d.Kind == flow.Straw || d.Kind == flow.Short && !(snaps(k.c) && k.level == figures):
		k.straw(d, m)
	case k.level == figures:
		k.figure(d, m)
	default:
		k.speck(d, m)
	}
}

// cosines of the 256 parts of a turn; the sine is the cosine 64 parts back.
var cosines = func() (t [256]float32) {
	for i := range t {
		t[i] = float32(math.Cos(float64(i) * math.Pi / 128))
	}
	return
}()
