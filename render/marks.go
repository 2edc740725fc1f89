package render

import (
	"math"

	"riddle/sim"
	"riddle/sim/stage/flow"
	"riddle/sim/stage/section"
	"riddle/sim/trade/crop"
)

// Form is how a glyph is painted.
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

// Glyph is one dot as it is painted.
type Glyph struct {
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
// least 2.8 px long, kinds where 3 dots in a row would be told apart.
func detail(c *crop.Crop, v View) ladder {
	switch seed := c.Seed.Length / 1000 * v.K; {
	case seed >= 2.8:
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
	stalkW float32 // of stalks, px
	wide   int     // of the picture, px
	high   int
	grainR float32  // of a grain speck, px
	out    *[]Glyph // the layer of the present dot
	place  sim.Place
	front  float64 // concave gaps, mm
	rear   float64

	heap     heap    // of grain in the tank
	gapStep  float64 // of the crop in the gap in one tick, m
	windrow  bool    // the chopper is off
	cobs     bool    // the crop's long MOG is whole cobs
	strength int     // of the ink for the present dot, of 255
	small    int     // strength of a grain speck, of 255: less where dots lie closer than they can be told apart
	paleness int     // the same in the clean grain elevator

	brushes [flow.Kinds][flow.AtRest + 1]brush // at the present place
	specks  [slots]uint8                       // at the present place, by slot: the number of the specks that they are, plus one; 0 if they are none
	rest    []int32                            // room for the numbers of dots
}

// marker returns the marker of a snapshot.
func (s *Scene) marker(snap *sim.Snapshot) marker {
	c := snap.Crop
	if c == nil {
		c = wheat
	}
	k := marker{
		v: s.View, c: c, level: detail(c, s.View), front: snap.Front, rear: snap.Rear, heap: s.heap, rest: s.rest, gapStep: snap.GapSpeed / sim.TickHz,
		windrow: !snap.Setup.Settings.Chopper, cobs: snaps(c),
	}
	z := float32(s.View.Scale) * s.Theme.Weight
	ratio := float32(s.View.K / (133 * s.View.Scale)) // over a page-wide whole view
	k.thick = max(0.75*z*min(root4(ratio), 1.5), 0.6)
	k.stalkW, k.wide, k.high = k.thick, int(s.View.W), int(s.View.H)
	if k.level == figures {
		k.stalkW *= 1.35
	}
	k.grainR = max(0.98*z*min(sqrt(ratio), root4(ratio), 1.5), 0.75, float32(c.Seed.Length/1000*s.View.K)*0.42)
	k.small = int(255 * min(max(sqrt(ratio), 0.5), 1))
	k.paleness = 125
	return k
}

// mark makes the marks of all dots, each in its layer.
func (s *Scene) mark(snap *sim.Snapshot) {
	k := s.marker(snap)
	for i := range s.Marks {
		s.Marks[i] = s.Marks[i][:0]
	}
	for i := range s.Specks {
		s.Specks[i].At = s.Specks[i].At[:0]
	}
	for p := range snap.Dots {
		if len(snap.Dots[p]) > 0 {
			k.place = sim.Place(p)
			k.swarm(snap.Dots[p], s)
		}
	}
	s.rest = k.rest
}

// stalk reports whether a kind is drawn as a stroke of its length.
func (k *marker) stalk(kind flow.Kind) bool {
	return kind == flow.Straw || kind == flow.Short && !(k.cobs && k.level == figures)
}

// Layers of marks, painted one over the other: what rides in the returns
// elevator, which stands beyond the far side wall, then what is not grain, then
// what holds grain, so that grain lies on top, then what rides in the clean
// grain elevator, which stands before the near side wall.
const (
	beyond = iota
	mog
	pieces
	kernels
	Fore
	Layers // how many there are
)

// layer returns the layer of a dot.
func (k *marker) layer(d *flow.Dot) int {
	switch {
	case k.place == sim.Returning:
		return beyond
	case k.place == sim.Lifting && d.Ride == flow.InBucket:
		return Fore
	}
	return kindLayers[d.Kind]
}

var kindLayers = [flow.Kinds]int{flow.Sound: kernels, flow.Light: kernels, flow.Broken: kernels, flow.Piece: pieces,
	flow.Chaff: mog, flow.Short: mog, flow.Straw: mog, flow.Weed: mog}

// strengthOf returns the strength of ink for a dot, of 255. The clean grain
// elevator is pale, so that the flow behind it is seen; straw and chaff on the
// ground are, so that lost grain among them is.
func (k *marker) strengthOf(d *flow.Dot, layer int) int {
	switch {
	case layer == Fore:
		return k.paleness
	case layer == mog && d.Ride == flow.AtRest:
		return 150
	}
	return 255
}

// ink returns the alpha of a mark for the present dot.
func (k *marker) ink(alpha int) uint8 { return uint8(alpha * k.strength / 255) }

var wheat = crop.Find("wheat")

func (k *marker) dot(d *flow.Dot, of *brush) {
	p := k.v.Px(section.Point{X: float64(d.X), Y: float64(d.Y)})
	if k.place == sim.Gap {
		p = k.v.Px(k.inGap(d))
	}
	m := Glyph{X: p.X, Y: p.Y, Tone: of.tone}
	switch {
	case of.stalk:
		m.Alpha = of.alpha
		k.straw(d, m)
	case k.level == figures:
		m.Alpha = of.strength
		k.figure(d, m)
	default:
		*k.out = append(*k.out, k.speck(d.Kind, m))
	}
}

// inGap returns where in the gap a dot is drawn. What enters in one tick is
// computed as if it came in at once, a hand's breadth before the next; it is
// drawn spread over that breadth, each dot at a place of its own.
func (k *marker) inGap(d *flow.Dot) section.Point {
	h := float64(d.Level)
	if d.Kind == flow.Straw && k.cobs {
		h = 0.6 // a cob fills the gap
	}
	w := strawWay{h: h, front: k.front, rear: k.rear}
	return w.at(feedLength + max(float64(d.Along)-share(d.ID)*k.gapStep, 0))
}

// cosines of the 256 parts of a turn; the sine is the cosine 64 parts back.
var cosines = func() (t [256]float32) {
	for i := range t {
		t[i] = float32(math.Cos(float64(i) * math.Pi / 128))
	}
	return
}()
