package render

import (
	"math"

	"riddle/sim/stage/section"
)

// Figures of walkers and chopper that only the drawing needs, m.
const (
	walkerDeep = 0.22
	toothLong  = 0.12
	toothHigh  = 0.022
	slotPitch  = 0.045
	panRidge   = 0.05
	shaftR     = 0.028
)

func (p *pen) strawStill() {
	p.sheet(-sheetMetal, section.HoodRoof...)
	last := section.HoodRoof[len(section.HoodRoof)-1]
	p.line(plain, Ink, last, pt(last.X+0.22, last.Y-0.14)) // spreader plate
}

// straw draws the walker pan, the walkers and the chopper.
func (m *moving) straw() {
	m.pan(section.WalkerPan, -m.shake, -1)
	for lane := 3; lane >= 0; lane-- {
		m.walker(lane)
	}
	m.cranks()
	m.chopper()
}

// pin returns where the crank of a lane stands off its shaft. The crank turns
// over the top to the rear, by which the straw is thrown on.
func (m *moving) pin(lane int) (dx, dy float64) {
	sin, cos := math.Sincos(m.s.CrankAngle + float64(lane)*math.Pi/2)
	return -section.CrankThrow * cos, section.CrankThrow * sin
}

// walker draws one of the four walkers: its stepped face over a closed
// bottom. The nearest hides the others in part and shows its teeth and
// openings.
func (m *moving) walker(lane int) {
	dx, dy := m.pin(lane)
	faces := section.WalkerFaces()
	for i := range faces {
		faces[i] = shift(faces[i], dx, dy)
	}
	if lane > 0 {
		from := m.begin()
		m.outline(&faces)
		m.end(from, Shape{Tone: Line, Width: m.width[fine], Closed: true, Alpha: 150})
		return
	}
	for _, f := range faces { // step by step: less to fill than around them all
		m.fill(Inside, f.A, f.B, pt(f.B.X, f.B.Y-walkerDeep+0.03), pt(f.A.X+0.03, f.A.Y-walkerDeep+0.05))
	}
	from := m.begin()
	m.outline(&faces)
	m.end(from, Shape{Tone: Ink, Width: m.width[plain], Closed: true})
	m.teeth(&faces)
}

func (m *moving) outline(faces *[4]section.Line) {
	for _, f := range faces {
		m.to(f.A.X, f.A.Y)
		m.to(f.B.X, f.B.Y)
	}
	for i := len(faces) - 1; i >= 0; i-- {
		f := faces[i]
		m.to(f.B.X, f.B.Y-walkerDeep+0.03)
		m.to(f.A.X+0.03, f.A.Y-walkerDeep+0.05)
	}
}

// teeth draws the saw teeth that carry the straw on, and the openings through
// which grain falls.
func (m *moving) teeth(faces *[4]section.Line) {
	if m.shows(toothHigh) {
		for _, f := range faces {
			ux, uy := unit(f)
			for s := toothLong; s < f.Length(); s += toothLong {
				q := along(f, s)
				m.line(fine, Ink, along(f, s-toothLong), pt(q.X-uy*toothHigh, q.Y+ux*toothHigh), q)
			}
		}
	}
	if m.shows(slotPitch) {
		for _, f := range faces {
			low := aside(f, -0.03)
			for s := slotPitch; s < f.Length(); s += slotPitch {
				m.line(fine, Line, along(f, s), along(low, s-0.03))
			}
		}
	}
}

// cranks draws the crankshafts and the pins on which the walkers ride.
func (m *moving) cranks() {
	for _, c := range section.Cranks {
		m.circle(fine, Line, c)
		for lane := 3; lane >= 0; lane-- {
			dx, dy := m.pin(lane)
			q := pt(c.Centre.X+dx, c.Centre.Y+dy)
			m.line(fine, Line, c.Centre, q)
			m.disc(Line, section.Circle{Centre: q, R: 0.012})
		}
		dx, dy := m.pin(0)
		m.circle(plain, Ink, disc(c.Centre.X+dx, c.Centre.Y+dy, 0.045))
		m.shaft(c.Centre, 0.016)
	}
}

// pan draws a shaken pan with a ridged floor that faces the way it brings its
// load: 1 to the rear, -1 forward. It is drawn by metres along itself.
func (m *moving) pan(l section.Line, by, way float64) {
	ux, uy := unit(l)
	l = shift(l, ux*by, uy*by)
	m.line(heavy, Ink, l.A, l.B)
	if !m.shows(panRidge * 0.4) {
		return
	}
	for i := range int(l.Length() / panRidge) {
		s := float64(i) * panRidge
		steep, low := s, s+panRidge
		if way < 0 {
			steep, low = low, steep
		}
		q := along(l, steep)
		m.line(fine, Ink, q, pt(q.X-uy*panRidge*0.22, q.Y+ux*panRidge*0.22), along(l, low))
	}
}

// chopper draws the rotor with its knives, the counter knives, and the door
// that stands over it when the straw is to drop in a windrow.
func (m *moving) chopper() {
	c := section.Chopper
	m.drum(c, 0.08)
	turn := m.turned(m.s.ChopperAngle)
	for i := range 6 {
		deg := turn + float64(i)*60
		root, tip := section.Circle{Centre: c.Centre, R: 0.075}, c
		m.line(plain, Ink, polar(root, deg-5), polar(tip, deg-3), polar(tip, deg+3), polar(root, deg+5))
	}
	m.shaft(c.Centre, shaftR)
	for i := range 4 { // counter knives
		deg := 236 + float64(i)*9
		m.line(fine, Line, polar(section.Circle{Centre: c.Centre, R: c.R - 0.06}, deg), polar(section.Circle{Centre: c.Centre, R: c.R + 0.07}, deg+5))
	}
	if m.s.Setup.Settings.Chopper {
		m.line(plain, Ink, pt(4.74, 1.66), pt(4.80, 1.42), pt(5.00, 1.42)) // floor of the housing
		return
	}
	m.line(plain, Ink, pt(5.42, 2.12), section.WindrowDoor.B, section.WindrowDoor.A)
}
