package render

import (
	"math"

	"riddle/sim/stage/section"
)

// Figures of the grain's way that only the drawing needs.
const (
	legWide     = 0.115 // m, half the width of an elevator's leg
	sprocketR   = 0.055 // m
	crossR      = 0.06  // m, half the width of the returns' cross auger
	paddlePitch = 0.24  // m
	repose      = 24    // degrees, the slope at which grain in a heap comes to rest; common practice
)

// legs are the chains of the elevators.
var legs = [2]belt{
	newBelt(section.Circle{Centre: section.GrainElevator.A, R: sprocketR}, section.Circle{Centre: section.GrainElevator.B, R: sprocketR}),
	newBelt(section.Circle{Centre: section.ReturnsElevator.A, R: sprocketR}, section.Circle{Centre: section.ReturnsElevator.B, R: sprocketR}),
}

func (p *pen) grainStill() {
	p.sheet(sheetMetal, section.GrainTrough...)
	p.sheet(sheetMetal, section.ReturnsTrough...)
	p.sheet(sheetMetal, section.Tank...)
	for _, q := range section.FloorAugers { // roofs over the floor augers
		p.line(plain, Ink, pt(q.X-0.17, q.Y+0.10), pt(q.X, q.Y+0.22), pt(q.X+0.17, q.Y+0.10))
	}
}

// leg puts the outline of an elevator's casing.
func (p *pen) leg(l section.Line) (from int32) {
	r, left := aside(l, -legWide), aside(l, legWide)
	deg := slope(l)
	from = p.begin()
	p.to(r.A.X, r.A.Y)
	p.arc(section.Circle{Centre: l.B, R: legWide}, deg-90, deg+90)
	p.to(left.A.X, left.A.Y)
	p.arc(section.Circle{Centre: l.A, R: legWide}, deg+90, deg+270)
	return from
}

// tint returns the strength of a casing's tint, of 255, from that in a view of
// the whole: the closer the view, the more of it the casing fills, and the less
// it needs to be told.
func (p *pen) tint(whole float32) uint8 {
	return uint8(whole / max(p.px(1)/float32(133*p.view.Scale), 1))
}

// returnsStill draws the casing of the returns elevator and of its cross auger.
// It stands beyond the far side wall: behind all else, and in a broken line.
func (p *pen) returnsStill() {
	c := section.ReturnsCross
	up, low := aside(c, crossR), aside(c, -crossR)
	p.alpha = p.tint(255)
	p.fill(Sheet, up.A, up.B, low.B, low.A)
	p.end(p.leg(section.ReturnsElevator), Shape{Tone: Sheet})
	p.alpha = 255
	p.broken(fine, Line, up.A, up.B)
	p.broken(fine, Line, low.A, low.B)
	p.dash(p.leg(section.ReturnsElevator), plain, Line)
}

// grainElevator draws the clean grain elevator. It stands before the near side
// wall: over the flow, which shows through.
func (m *moving) grainElevator() {
	m.end(m.leg(section.GrainElevator), Shape{Tone: Inside, Alpha: m.tint(120)})
	m.dash(m.leg(section.GrainElevator), plain, Ink)
	m.alpha = 150
	m.chain(&legs[0])
	m.alpha = 255
	m.crossAuger(section.GrainAuger)
}

// crossAuger draws an auger that runs across the machine, cut.
func (m *moving) crossAuger(c section.Circle) {
	m.circle(plain, Ink, c)
	m.flight(c, 0.03, m.s.ElevatorTravel/0.09)
	m.shaft(c.Centre, 0.02)
}

// chain draws the paddles of an elevator.
func (m *moving) chain(leg *belt) {
	m.belt(fine, Line, leg)
	m.slats(fine, Line, leg, m.s.ElevatorTravel, paddlePitch, -0.01, 0.05)
	m.shaft(leg.b.Centre, 0.018)
}

// grain draws what moves on the grain's way: cross augers, elevators, the
// augers that fill and empty the tank.
func (m *moving) grain() {
	m.crossAuger(section.ReturnsAuger)
	m.chain(&legs[1])
	m.unloading()
}

// unloading draws the augers that empty the tank. They turn and stand solid
// only while it is emptied.
func (m *moving) unloading() {
	turn := 0.0
	if m.s.Setup.Settings.Unload {
		turn = m.s.ElevatorTravel / 0.09
	}
	for _, q := range section.FloorAugers {
		c := section.Circle{Centre: q, R: 0.075}
		m.circle(plain, Ink, c)
		m.flight(c, 0.025, turn)
		m.shaft(q, 0.015)
	}
	m.tube(section.Line{A: section.Sump, B: section.UprightTop}, 0.085, turn)
	out := section.Line{A: section.UprightTop, B: section.CrossAugerEnd}
	e := out.B
	spout := [...]section.Point{pt(e.X-0.02, e.Y+0.10), pt(e.X+0.12, e.Y+0.02), pt(e.X+0.14, e.Y-0.22), pt(e.X-0.06, e.Y-0.22), pt(e.X-0.04, e.Y-0.10)}
	m.bow(fine, Line, section.Circle{Centre: out.A, R: 0.10}, 80, 200)
	if m.s.Setup.Settings.Unload {
		m.tube(out, 0.095, turn)
		m.line(plain, Ink, spout[:]...)
		return
	}
	left, right := aside(out, 0.095), aside(out, -0.095)
	m.broken(fine, Line, left.A, left.B)
	m.broken(fine, Line, right.A, right.B)
	m.broken(fine, Line, spout[:]...)
}

// tube draws a conveying auger seen from its side.
func (m *moving) tube(l section.Line, r, turn float64) {
	left, right := aside(l, r), aside(l, -r)
	m.line(fine, Line, left.A, left.B)
	m.line(fine, Line, right.A, right.B)
	const pitch = 0.15
	if !m.shows(pitch / 4) {
		return
	}
	n := int(l.Length() / pitch)
	at := wrap(turn/(2*math.Pi), 1)
	for i := range n {
		s := (float64(i) + at) * pitch
		m.line(fine, Line, along(right, s-pitch/4), along(left, s+pitch/4))
	}
}
