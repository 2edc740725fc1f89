package render

import (
	"math"

	"riddle/sim/stage/section"
)

// Figures of the shoe that only the drawing needs.
const (
	conveyorR   = 0.035 // m
	fanBlades   = 6
	casingR     = 0.37 // m, of the fan's housing
	bladeLong   = 1.08 // length of a louvre over its pitch
	bladeBelow  = 0.22 // share of it below its wire
	conveyorOut = 0.3  // travel of the conveyors' flights over the elevators'
)

func (p *pen) shoeStill() {
	f := section.ConveyorFloor
	p.sheet(sheetMetal, f.A, f.B)
	p.casing()
}

// casing draws the housing of the fan and its two mouths. The intake is a hole
// in the housing's side.
func (p *pen) casing() {
	up, low := mouths()
	top, foot := polar(scroll, scrollTop), polar(scroll, scrollFoot)
	p.disc(Sheet, scroll)
	p.fill(Sheet, top, up.A, low.B, foot, scroll.Centre)
	p.bow(heavy, Ink, scroll, scrollTop, scrollFoot)
	p.line(heavy, Ink, top, up.A)
	p.line(heavy, Ink, foot, low.B)
	p.line(plain, Ink, pt(up.B.X-0.15, up.B.Y-0.07), up.B)
	p.line(fine, Line, up.A, up.B, low.B)
	p.brokenCircle(fine, Line, section.Circle{Centre: section.Fan.Centre, R: 0.20})
}

// scroll is the round part of the fan's housing, from its top round the front
// to its foot, degrees.
var scroll = section.Circle{Centre: section.Fan.Centre, R: casingR}

const scrollTop, scrollFoot = 62, 321

// mouths returns the upper and lower mouth of the fan, each from its upper to
// its lower edge.
func mouths() (up, low section.Line) {
	up = section.UpperMouth
	ux, uy := unit(up)
	a := section.LowerMouthHigh
	return up, section.Line{A: up.B, B: pt(up.B.X+ux*a, up.B.Y+uy*a)}
}

func (m *moving) shoe() {
	m.conveyors()
	m.fan()
	set := &m.s.Setup.Settings
	m.pan(section.CollectingPan, m.shake, 1)
	m.sieve(section.PreSieve, m.shake, section.PrePitch, math.Inf(1), set.PreSieve)
	m.sieve(section.UpperSieve, m.shake, section.UpperPitch, section.UpperTail, set.Upper)
	tail := shaken(section.TailPlate, m.shake)
	m.line(plain, Ink, tail.A, tail.B)
	m.sieve(section.LowerSieve, -m.shake, section.LowerPitch, math.Inf(1), set.Lower)
}

// conveyors draws the augers under the concave: they lie side by side along
// the machine, so that one hides the others.
func (m *moving) conveyors() {
	l := section.ConveyorAugers
	top, low := aside(l, conveyorR), aside(l, -conveyorR)
	m.line(fine, Line, l.A, l.B)
	const pitch = 0.08
	n := int(l.Length() / pitch)
	turn := wrap(m.s.ElevatorTravel*conveyorOut/pitch, 1)
	for i := range n {
		s := (float64(i) + turn) * pitch
		m.line(fine, Ink, along(low, s-pitch/4), along(top, s+pitch/4))
	}
}

func (m *moving) fan() {
	c := section.Fan
	turn := m.turned(m.s.FanAngle)
	for i := range fanBlades {
		deg := turn + float64(i)*360/fanBlades
		m.line(fine, Line, c.Centre, polar(c, deg))
		m.line(plain, Ink, polar(section.Circle{Centre: c.Centre, R: 0.16}, deg), polar(c, deg))
	}
	m.shaft(c.Centre, shaftR)
}

// louvre returns the slant of a louvre to its sieve, degrees, at which
// neighbours that stand pitch apart leave the gap, both mm.
func louvre(gap, pitch float64) float64 {
	return math.Asin(min(max(gap/pitch, 0), 1)) * 180 / math.Pi
}

// shaken returns a line moved by metres of the sieves' shaking.
func shaken(l section.Line, by float64) section.Line {
	sin, cos := math.Sincos(rad(section.ShakeAngle))
	return shift(l, by*cos, by*sin)
}

// sieve draws an adjustable sieve at by metres of its shaking: its louvres
// stand at the slant that leaves the gap that is set, mm. From tail metres on
// they open wider.
func (m *moving) sieve(l section.Line, by, pitch, tail, gap float64) {
	l = shaken(l, by)
	long := pitch / 1000 * bladeLong
	bed := aside(l, -long)
	m.line(fine, Ink, bed.A, bed.B)
	m.line(plain, Ink, bed.A, aside(l, 0.012).A)
	m.line(plain, Ink, bed.B, aside(l, 0.012).B)
	every := 1
	for !m.shows(pitch/1000*float64(every)) && every < 8 {
		every++
	}
	base := slope(l)
	for s := pitch / 1000; s < l.Length(); s += pitch / 1000 * float64(every) {
		open := gap
		if s > tail {
			open = gap + section.UpperTailWider
		}
		sin, cos := math.Sincos(rad(base + louvre(open, pitch)))
		m.blade(along(l, s), long*cos, long*sin)
	}
}

// blade draws one louvre, whose upper edge is at q in the face of the sieve,
// and the wire on which it turns.
func (m *moving) blade(q section.Point, dx, dy float64) {
	w := fine
	if m.shows(0.0024) {
		w = plain
		m.disc(Ink, section.Circle{Centre: pt(q.X-dx*(1-bladeBelow), q.Y-dy*(1-bladeBelow)), R: 0.0024})
	}
	m.line(w, Ink, pt(q.X-dx, q.Y-dy), q)
}
