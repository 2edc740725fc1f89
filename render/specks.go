package render

import (
	"riddle/sim"
	"riddle/sim/flow"
)

// Specks are round dots, of which a view of the whole has tens of thousands:
// those that look alike and follow one another in runs.
type Specks struct {
	At   []Pt // where each is
	Runs []Run
}

// Run is how specks look up to the one at an index.
type Run struct {
	To    int
	R     float32 // radius, px
	Tone  Tone
	Alpha uint8
}

func (s *Specks) reset() { s.At, s.Runs = s.At[:0], s.Runs[:0] }

// turn lets those that follow look so.
func (s *Specks) turn(look Run) {
	look.To = len(s.At)
	if n := len(s.Runs); n > 0 {
		s.Runs[n-1].To = len(s.At)
	}
	s.Runs = append(s.Runs, look)
}

// speckOf is the speck that all dots of a kind that ride alike have at a place.
type speckOf struct {
	look  uint8 // its number among those of the picture; 0 is none
	layer uint8
}

// alike reckons what specks the dots have at the present place.
func (k *marker) alike() {
	k.specks = [flow.Kinds][flow.AtRest + 1]speckOf{}
	if k.level == figures || k.place == sim.Gap {
		return
	}
	for kind := range flow.Kinds {
		if k.stalk(kind) {
			continue
		}
		for ride := range flow.AtRest + 1 {
			d := flow.Dot{Kind: kind, Ride: ride}
			layer := k.layer(&d)
			k.strength = k.strengthOf(&d, layer)
			k.specks[kind][ride] = speckOf{k.lookOf(kind), uint8(layer)}
		}
	}
}

// lookOf returns the number of the look that a kind has at the present
// strength.
func (k *marker) lookOf(kind flow.Kind) uint8 {
	m := k.speck(kind, Mark{Tone: k.tone(kind)})
	look := Run{R: m.DX, Tone: m.Tone, Alpha: m.Alpha}
	for i := range k.looks {
		if k.looks[i] == look {
			return uint8(i + 1)
		}
	}
	k.looks = append(k.looks, look)
	return uint8(len(k.looks))
}

// swarm makes the marks of the dots at the present place.
func (k *marker) swarm(dots []flow.Dot, s *Scene) {
	k.alike()
	r := &k.v.Rect
	x0, x1, y0, y1 := float32(r.X0), float32(r.X1), float32(r.Y0), float32(r.Y1)
	for i := range dots {
		d := &dots[i]
		m := d.Size / 1000
		if m < 0.03 {
			m = 0.03
		}
		if d.X < x0-m || d.X > x1+m || d.Y < y0-m || d.Y > y1+m || k.place == sim.Filling && k.heap.holds(d) {
			continue
		}
		of := k.specks[d.Kind][d.Ride]
		if of.look == 0 {
			layer := k.layer(d)
			k.out = &s.Marks[layer]
			k.strength = k.strengthOf(d, layer)
			k.dot(d)
			continue
		}
		to := &s.Specks[of.layer]
		if k.last[of.layer] != of.look {
			k.last[of.layer] = of.look
			to.turn(k.looks[of.look-1])
		}
		to.At = append(to.At, Pt{float32((float64(d.X) - r.X0) * k.v.K), float32((r.Y1 - float64(d.Y)) * k.v.K)}) // as View.Px has it
	}
}
