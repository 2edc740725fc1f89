package render

import (
	"math"

	"riddle/sim"
	"riddle/sim/stage/flow"
	"riddle/sim/stage/section"
)

// The way of the straw from the cutter bar to the walkers: platform and
// feeder, the gap, the plate under the beater, the walkers. Distances along it
// are as the stages have them, m.
var (
	feedLegs    = legsOf(section.FeedPath)
	feedLength  = lengthOf(feedLegs)
	gapEnd      = feedLength + section.ConcaveLength
	plateEnd    = gapEnd + section.BeaterPlate.Length()
	walkersHead = section.Line{A: section.BeaterPlate.B, B: pt(section.BeaterPlate.B.X+1, section.BeaterPlate.B.Y+0.17)}
)

// bendStep is how finely a bent straw is drawn, m, from afar and from close.
var bendStep = [...]float64{classes: 0.09, kinds: 0.06, figures: 0.03}

// bentFrom is the length from which a straw is drawn bent, mm.
const bentFrom = 80

func lengthOf(legs []leg) (sum float64) {
	for i := range legs {
		sum += legs[i].length
	}
	return sum
}

// bend draws a straw that lies along a bent way as a bent one, in its true
// length about its place. It reports whether it did; a straw on a straight way
// is left to be drawn straight.
func (k *marker) bend(d *flow.Dot, m Glyph) bool {
	base := 0.0
	switch {
	case k.place == sim.Gap:
		base = feedLength
	case k.place == sim.Plate:
		base = gapEnd
	case k.place != sim.Feeding || d.Ride != flow.InMat:
		return false
	}
	if d.Size < bentFrom {
		return false
	}
	at, half := base+float64(d.Along), float64(d.Size)/2000
	if k.place == sim.Gap {
		at -= share(d.ID) * k.gapStep
	}
	w := strawWay{h: float64(d.Level), up: 0.01 + 0.12*float64(d.Level), front: k.front, rear: k.rear}
	if k.place == sim.Feeding {
		w.up, w.from = offPath(d), at
		if at+half < feedLength && at-half > feedLength-section.FeederFloor.Length() {
			return false
		}
	}
	from := max(at-half, 0)
	n := max(int(math.Ceil((at+half-from)/bendStep[k.level])), 1)
	step := (at + half - from) / float64(n)
	if m.Form == Knotty {
		m.Form = Stem
	}
	a := k.v.Px(w.at(from))
	for i := range n {
		b := k.v.Px(w.at(from + step*float64(i+1)))
		m.X, m.Y = (a.X+b.X)/2, (a.Y+b.Y)/2
		m.DX, m.DY = (b.X-a.X)/2, (b.Y-a.Y)/2
		*k.out = append(*k.out, m)
		a = b
	}
	return true
}

// offPath returns how far a dot lies off the feed path, m.
func offPath(d *flow.Dot) float64 {
	q, ux, uy := onPath(float64(d.Along))
	return (float64(d.X)-q.X)*-uy + (float64(d.Y)-q.Y)*ux
}

// leg is a straight stretch of a way: its length, m, and direction.
type leg struct {
	from           section.Point
	length, ux, uy float64
}

func legsOf(path []section.Point) (legs []leg) {
	for i := 1; i < len(path); i++ {
		l := section.Line{A: path[i-1], B: path[i]}
		ux, uy := unit(l)
		legs = append(legs, leg{l.A, l.Length(), ux, uy})
	}
	return legs
}

// onPath returns the point s metres along the feed path and its direction.
func onPath(s float64) (q section.Point, ux, uy float64) {
	i := 0
	for ; i < len(feedLegs)-1 && s > feedLegs[i].length; i++ {
		s -= feedLegs[i].length
	}
	l := &feedLegs[i]
	return pt(l.from.X+s*l.ux, l.from.Y+s*l.uy), l.ux, l.uy
}

// strawWay is the line on which one straw lies: at height h of the crop in the
// gap, and up metres off platform and feeder, from where it nears the floor on
// its way into the gap.
type strawWay struct{ h, up, from, front, rear float64 }

// at returns the point s metres from the cutter bar.
func (w *strawWay) at(s float64) section.Point {
	switch {
	case s < feedLength:
		q, ux, uy := onPath(s)
		up := w.up
		if s > w.from {
			up *= 0.15 + 0.85*(feedLength-s)/max(feedLength-w.from, 0.01)
		}
		return pt(q.X-uy*up, q.Y+ux*up)
	case s < gapEnd:
		t := (s - feedLength) / section.ConcaveLength
		gap := (w.front + t*(w.rear-w.front)) / 1000
		c := section.Cylinder
		c.R += w.h * gap
		return polar(c, section.ConcaveFrom+t*(section.ConcaveTo-section.ConcaveFrom))
	case s < plateEnd:
		return along(aside(section.BeaterPlate, 0.01+0.06*w.h), s-gapEnd)
	}
	return along(aside(walkersHead, 0.01+0.06*w.h), s-plateEnd)
}
