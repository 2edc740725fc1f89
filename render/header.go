package render

import (
	"math"

	"riddle/sim/stage/section"
)

// Figures of the header that only the drawing needs, m.
const (
	sheetMetal = 0.004 // thickness of sheets
	augerTube  = 0.17  // radius
	tineLength = 0.20
	reelBats   = 6
)

// feederBelt is the chain of the feeder house.
var feederBelt = newBelt(section.FeederShafts[0], section.FeederShafts[1])

// gathering is one of the chains that bring stalks to the snapping rolls.
var gathering = newBelt(disc(-4.02, 0.36, 0.06), disc(-3.08, 0.76, 0.06))

func (p *pen) headerStill(snaps bool) {
	back := section.HeaderBack
	p.sheet(sheetMetal, section.Platform...)
	p.sheet(-sheetMetal, back.A, back.B)
	p.line(plain, Ink, back.B, pt(back.B.X-0.16, back.B.Y+0.02))
	if snaps {
		p.snapperStill()
		return
	}
	// The end sheet and the divider stand outside the section.
	p.broken(fine, Line, pt(-2.45, 1.05), pt(-2.95, 0.98), pt(-3.60, 0.52), pt(-4.22, 0.20), pt(-4.28, 0.13), pt(-3.75, 0.07), pt(-2.75, 0.07))
	// Guard and knife.
	c := section.CutterBar
	p.cut(fine, 0.02, pt(c.X+0.05, c.Y-0.022), pt(c.X-0.02, c.Y-0.024), pt(c.X-0.135, c.Y-0.006), pt(c.X-0.02, c.Y+0.016), pt(c.X+0.05, c.Y+0.012))
	p.line(plain, Ink, pt(c.X-0.09, c.Y+0.004), pt(c.X+0.06, c.Y+0.004))
	// Arm of the reel and its ram.
	h := section.Reel.Centre
	p.line(fine, Line, pt(back.B.X-0.02, back.B.Y+0.03), pt(h.X, h.Y+0.035))
	p.line(fine, Line, pt(back.B.X-0.02, back.B.Y-0.03), pt(h.X, h.Y-0.035))
}

// snapperStill draws the snout of a corn header and the bed of its rolls.
func (p *pen) snapperStill() {
	p.broken(fine, Line, pt(-2.45, 1.05), pt(-3.02, 0.98), pt(-3.80, 0.62), pt(-4.55, 0.14), pt(-4.50, 0.08), pt(-3.72, 0.16), pt(-3.00, 0.20))
	r := section.SnappingRoll
	p.line(plain, Ink, aside(r, 0.065).A, aside(r, 0.065).B) // stripper plate
	p.cut(fine, 0.05, pt(r.B.X, r.B.Y-0.10), pt(r.B.X+0.12, r.B.Y-0.04), pt(r.B.X+0.12, r.B.Y+0.09), pt(r.B.X, r.B.Y+0.05))
}

func (m *moving) header() {
	if m.snaps() {
		m.snapper()
	} else {
		m.reel()
	}
	m.auger(section.HeaderAuger, augerTube, m.s.ChainTravel/section.HeaderAuger.R)
}

// reel draws the bats on their arms and the tines, which hang at a steady
// slant.
func (m *moving) reel() {
	c := section.Reel
	turn := m.s.ReelAngle * 180 / math.Pi
	from := m.begin()
	for i := range reelBats {
		q := polar(c, turn+float64(i)*360/reelBats)
		m.to(q.X, q.Y)
	}
	m.end(from, Shape{Tone: Line, Width: m.width[fine], Closed: true})
	m.circle(fine, Line, section.Circle{Centre: c.Centre, R: c.R * 0.30})
	for i := range reelBats {
		bat := polar(c, turn+float64(i)*360/reelBats)
		m.line(fine, Line, c.Centre, bat)
		m.line(plain, Ink, bat, pt(bat.X+0.012, bat.Y-tineLength*0.55), pt(bat.X+0.04, bat.Y-tineLength))
		m.disc(Ink, section.Circle{Centre: bat, R: 0.022})
	}
	m.shaft(c.Centre, 0.04)
}

// auger draws a cross auger seen from its end: the reach of its flight, the
// tube, and the fingers that draw in and out.
func (m *moving) auger(c section.Circle, tube, angle float64) {
	m.circle(plain, Ink, c)
	m.disc(Sheet, section.Circle{Centre: c.Centre, R: tube})
	m.circle(plain, Ink, section.Circle{Centre: c.Centre, R: tube})
	eye := pt(c.Centre.X-0.05, c.Centre.Y-0.05)
	for i := range 4 {
		a := angle + float64(i)*math.Pi/2
		sin, cos := math.Sincos(a)
		m.line(fine, Ink, pt(c.Centre.X+tube*cos, c.Centre.Y+tube*sin), pt(eye.X+(c.R-0.02)*cos, eye.Y+(c.R-0.02)*sin))
	}
	m.flight(c, tube, angle)
	m.shaft(c.Centre, 0.03)
}

// flight draws where the near end of the flight stands.
func (m *moving) flight(c section.Circle, tube, angle float64) {
	for i := range 2 {
		deg := angle*180/math.Pi + 45 + float64(i)*180
		m.line(plain, Ink, polar(section.Circle{Centre: c.Centre, R: tube}, deg-28), polar(c, deg))
	}
}

// snapper draws the fluted rolls and the gathering chains of a corn header.
func (m *moving) snapper() {
	r := section.SnappingRoll
	low, high := aside(r, -0.045), aside(r, 0.045)
	m.fill(Sheet, low.A, low.B, high.B, high.A)
	m.ring(plain, Ink, low.A, low.B, high.B, high.A)
	m.line(plain, Ink, low.A, along(r, -0.16), high.A) // point of the roll
	const flutes = 9
	turn := wrap(m.s.ChainTravel*1.6, 1)
	for i := range flutes {
		t := (float64(i) + turn) / flutes
		m.line(fine, Line, between(low, t-0.05), between(high, t+0.05))
	}
	m.belt(fine, Line, &gathering)
	m.slats(fine, Ink, &gathering, m.s.ChainTravel, 0.16, 0, 0.07)
}

func (p *pen) feederStill() {
	p.sheet(sheetMetal, section.FeederFloor.A, section.FeederFloor.B)
	p.sheet(-sheetMetal, section.FeederRoof.A, section.FeederRoof.B)
}

func (m *moving) feeder() {
	m.belt(fine, Line, &feederBelt)
	m.slats(plain, Ink, &feederBelt, m.s.ChainTravel, 0.22, -0.012, 0.05)
	for _, c := range section.FeederShafts {
		m.circle(fine, Line, section.Circle{Centre: c.Centre, R: c.R - 0.02})
		m.shaft(c.Centre, 0.03)
	}
}
