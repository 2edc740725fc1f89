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
// least 5 px long, kinds where 3 dots in a row would be told apart.
func detail(c *crop.Crop, v View) ladder {
	switch seed := c.Seed.Length / 1000 * v.K; {
	case seed >= 5:
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
}

var wheat = crop.Find("wheat")

// mark makes the marks of all dots: first what is not grain, then what holds
// grain, so that grain lies on top.
func (s *Scene) mark(snap *sim.Snapshot) {
	c := snap.Crop
	if c == nil {
		c = wheat
	}
	k := marker{v: s.View, c: c, level: detail(c, s.View), out: s.Marks[:0]}
	z := float32(s.View.Scale) * s.Theme.Weight
	small := min(root4(float32(s.View.K/(133*s.View.Scale))), 1.5)
	k.thick = 0.75 * z * small
	k.grainR = max(0.98*z*small, float32(c.Seed.Length/1000*s.View.K)*0.42)
	for pass := range 3 {
		for p := range snap.Dots {
			k.place = sim.Place(p)
			for i := range snap.Dots[p] {
				if d := &snap.Dots[p][i]; order(d.Kind) == pass && k.near(d) {
					k.dot(d)
				}
			}
		}
	}
	s.Marks = k.out
}

// order returns the pass in which a kind is painted.
func order(k flow.Kind) int {
	switch {
	case k.IsMOG():
		return 0
	case k == flow.Piece:
		return 1
	}
	return 2
}

// near reports whether any of the dot can be on the picture.
func (k *marker) near(d *flow.Dot) bool {
	m := max(d.Size, 30) / 1000
	r := &k.v.Rect
	return d.X > float32(r.X0)-m && d.X < float32(r.X1)+m && d.Y > float32(r.Y0)-m && d.Y < float32(r.Y1)+m
}

func (k *marker) dot(d *flow.Dot) {
	p := k.v.Px(section.Point{X: float64(d.X), Y: float64(d.Y)})
	m := Mark{X: p.X, Y: p.Y, Alpha: 255, Tone: k.tone(d.Kind)}
	switch {
	case d.Kind == flow.Straw || d.Kind == flow.Short && !(snaps(k.c) && k.level == figures):
		k.straw(d, m)
	case k.level == figures:
		k.figure(d, m)
	default:
		k.speck(d, m)
	}
}

// tone returns the tone of a kind at the level of detail.
func (k *marker) tone(kind flow.Kind) Tone {
	if k.level == classes {
		switch {
		case kind.IsKernel():
			return GrainTone
		case kind == flow.Piece:
			return PieceTone
		}
		return StrawTone
	}
	t := kindTones[kind]
	if t == StrawTone && snaps(k.c) {
		return CobTone
	}
	return t
}

var kindTones = [flow.Kinds]Tone{flow.Sound: GrainTone, flow.Light: GrainTone, flow.Broken: BrokenTone, flow.Piece: PieceTone,
	flow.Chaff: ChaffTone, flow.Short: StrawTone, flow.Straw: StrawTone, flow.Weed: WeedTone}

// KindTone returns the tone in which a kind is drawn where kinds are told
// apart.
func KindTone(k flow.Kind) Tone { return kindTones[k] }

// speck makes a round dot, of a size by which grain stays the plainest.
func (k *marker) speck(d *flow.Dot, m Mark) {
	m.Form, m.DX = Speck, k.grainR
	switch {
	case d.Kind == flow.Piece:
		m.DX = max(k.grainR*1.3, float32(k.c.PieceSize/1000*k.v.K)*0.5)
	case d.Kind.IsMOG():
		m.DX, m.Alpha = k.grainR*0.72, 150
	}
	k.out = append(k.out, m)
}

// figure makes a mark in the true shape and size of its kind.
func (k *marker) figure(d *flow.Dot, m Mark) {
	m.Form, m.Turn = kindForms[d.Kind], turnOf(d, k.place)
	m.Grade = 1
	if typical := typicalSize(k.c, d.Kind); typical > 0 {
		switch ratio := d.Size / typical; {
		case ratio < 0.91:
			m.Grade = 0
		case ratio > 1.1:
			m.Grade = 2
		}
	}
	k.out = append(k.out, m)
}

var kindForms = [flow.Kinds]Form{flow.Sound: KernelForm, flow.Light: LightForm, flow.Broken: HalfForm, flow.Piece: PieceForm,
	flow.Chaff: FlakeForm, flow.Short: BitForm, flow.Straw: Knotty, flow.Weed: WeedForm}

// typicalSize is the limiting dimension of a kind, mm; 0 where all are drawn
// alike.
func typicalSize(c *crop.Crop, k flow.Kind) float32 {
	switch k {
	case flow.Sound:
		return float32(c.Size)
	case flow.Light:
		return float32(c.Size * 0.85)
	case flow.Broken:
		return float32(c.Size * 0.75)
	case flow.Piece:
		return float32(c.PieceSize)
	}
	return 0
}

// straw makes a stroke of the straw's true length. Whole cobs are as thick as
// cobs are.
func (k *marker) straw(d *flow.Dot, m Mark) {
	m.Form, m.W, m.Alpha = Stem, k.thick, 170
	if k.level == figures {
		m.W, m.Alpha = k.thick*1.35, 230
		if d.Kind == flow.Straw {
			m.Form = Knotty
		}
	}
	if snaps(k.c) && d.Kind == flow.Straw {
		m.W, m.Form = max(float32(cobThick*k.v.K), k.thick), Stem
	}
	length := float32(d.Size) / 1000 * float32(k.v.K)
	if k.bend(d, m, length) {
		return
	}
	a := turnOf(d, k.place)
	m.DX, m.DY = length/2*cosines[a], -length/2*cosines[a-64]
	k.out = append(k.out, m)
}

// cobThick is the thickness of a corn cob, m. From memory.
const cobThick = 0.026

// cosines of the 256 parts of a turn; the sine is the cosine 64 parts back.
var cosines = func() (t [256]float32) {
	for i := range t {
		t[i] = float32(math.Cos(float64(i) * math.Pi / 128))
	}
	return
}()
