package render

import (
	"math"

	"riddle/sim/stage/section"
)

// Figures of the threshing unit that only the drawing needs.
const (
	barHigh     = 0.024 // m, of a rasp bar
	barHalf     = 5.2   // degrees, half the width of a rasp bar
	concaveBars = 14
	barDeep     = 0.032                                 // m, of a concave bar
	barThick    = 0.008                                 // m
	vanes       = 4                                     // of the beater
	beaterHub   = 0.075                                 // m
	drumR       = section.CylinderD/2 - barHigh - 0.012 // m, of the drum under the bars
	drumHub     = 0.10                                  // m
)

func (p *pen) threshingStill() {
	plate := section.BeaterPlate
	p.sheet(sheetMetal, plate.A, plate.B)
	// Roof over cylinder and beater, to the straw hood.
	p.sheet(-sheetMetal, section.FeederRoof.B, section.HoodRoof[0])
	p.drum(section.Cylinder, drumR)
	p.circle(fine, Line, section.Circle{Centre: section.Cylinder.Centre, R: drumHub})
	p.drum(section.Beater, beaterHub)
	// Sheet from the feeder's floor down to the conveyors.
	p.sheet(sheetMetal, section.FeederFloor.B, pt(-0.42, 1.46), section.ConveyorFloor.A)
}

// drum draws the body of a rotor, r metres thick, and the circle of its reach.
func (p *pen) drum(reach section.Circle, r float64) {
	body := section.Circle{Centre: reach.Centre, R: r}
	p.circle(fine, Line, reach)
	p.disc(Sheet, body)
	p.circle(plain, Ink, body)
}

func (m *moving) threshing() {
	m.cylinder()
	m.concave()
	m.beater()
}

// cylinder draws the spokes of the drum and the rasp bars.
func (m *moving) cylinder() {
	c := section.Cylinder
	turn := m.turned(m.s.CylinderAngle)
	for i := range section.RaspBars {
		deg := turn + float64(i)*360/section.RaspBars
		m.line(fine, Line, polar(section.Circle{Centre: c.Centre, R: drumHub}, deg), polar(section.Circle{Centre: c.Centre, R: drumR}, deg))
		m.raspBar(c, deg)
	}
	m.shaft(c.Centre, 0.042)
}

// raspBar draws one bar, cut: a ribbed back that is high at its leading edge,
// on a bracket.
func (m *moving) raspBar(c section.Circle, deg float64) {
	at := func(r, d float64) section.Point { return polar(section.Circle{Centre: c.Centre, R: c.R - r}, deg+d) }
	m.cut(fine, barHigh*0.5, at(barHigh, -barHalf), at(0.010, -barHalf), at(0.004, -barHalf*0.55), at(0.006, -barHalf*0.35), at(0.001, 0),
		at(0.003, barHalf*0.15), at(0, barHalf*0.5), at(0, barHalf), at(0.010, barHalf*1.1), at(barHigh, barHalf*0.8))
	m.line(plain, Ink, at(barHigh, -barHalf*0.8), at(barHigh+0.012, -barHalf*0.8), at(barHigh+0.012, barHalf*0.8), at(barHigh, barHalf*0.8))
}

// gap returns the clearance between cylinder and concave at deg degrees, m.
func (m *moving) gap(deg float64) float64 {
	t := (deg - section.ConcaveFrom) / (section.ConcaveTo - section.ConcaveFrom)
	return (m.front + t*(m.rear-m.front)) / 1000
}

// concave draws the bars of the grate, cut, and the wires that run through
// them. Its distance from the cylinder is the one that is set.
func (m *moving) concave() {
	c := section.Cylinder
	at := func(deg, below float64) section.Point {
		return polar(section.Circle{Centre: c.Centre, R: c.R + m.gap(deg) + below}, deg)
	}
	const wide = barThick / 2 / (section.CylinderD / 2) * 180 / math.Pi
	step := (section.ConcaveTo - section.ConcaveFrom) / float64(concaveBars-1)
	for i := range concaveBars {
		deg := section.ConcaveFrom + float64(i)*step
		m.cut(fine, barThick, at(deg-wide, 0), at(deg+wide, 0), at(deg+wide, barDeep), at(deg-wide, barDeep))
	}
	for _, below := range [...]float64{0.008, 0.020} {
		m.thread(fine, Line, at, below)
	}
	m.thread(plain, Ink, at, barDeep)
	// The frame hangs on rods, by which front and rear are set.
	m.line(plain, Line, at(section.ConcaveFrom, barDeep), at(section.ConcaveFrom-8, 0.10))
	m.line(plain, Line, at(section.ConcaveTo, barDeep), at(section.ConcaveTo+9, 0.06))
}

// thread strokes a line along the whole concave, a distance below its face.
func (m *moving) thread(w weight, t Tone, at func(deg, below float64) section.Point, below float64) {
	const steps = 40
	from := m.begin()
	for i := range steps + 1 {
		q := at(section.ConcaveFrom+float64(i)*(section.ConcaveTo-section.ConcaveFrom)/steps, below)
		m.to(q.X, q.Y)
	}
	m.end(from, Shape{Tone: t, Width: m.width[w]})
}

func (m *moving) beater() {
	c := section.Beater
	turn := m.turned(m.s.BeaterAngle)
	for i := range vanes {
		deg := turn + float64(i)*360/vanes
		root := polar(section.Circle{Centre: c.Centre, R: beaterHub}, deg)
		tip := polar(c, deg)
		m.line(plain, Ink, root, polar(section.Circle{Centre: c.Centre, R: c.R - 0.03}, deg), tip, polar(section.Circle{Centre: c.Centre, R: c.R - 0.02}, deg-12))
	}
	m.shaft(c.Centre, 0.025)
}
