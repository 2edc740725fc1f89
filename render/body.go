package render

import (
	"math"

	"riddle/sim/section"
)

// room is the outline of the space inside the machine.
var room = []section.Point{
	pt(-2.45, 0.85), pt(-0.50, 2.15), pt(0.25, 2.40), pt(2.20, 2.58), pt(4.50, 3.00), pt(5.40, 2.85), pt(5.55, 1.60), pt(5.20, 1.35),
	pt(4.67, 1.60), pt(3.80, 0.80), pt(3.60, 0.30), pt(3.42, 0.30), pt(3.20, 0.50), pt(3.18, 0.50), pt(2.22, 0.28), pt(2.02, 0.28), pt(1.55, 0.55),
	pt(1.09, 0.50), pt(0.90, 0.80), pt(0.62, 0.86), pt(-0.35, 1.24), pt(-0.42, 1.46), pt(-0.34, 1.66), pt(-2.45, 0.25),
}

// bodyStill draws what the section does not cut: cab, tank walls, wheels.
func (p *pen) bodyStill() {
	p.cab()
	p.fill(Inside, room...)
	p.fill(Inside, section.Tank...)
}

// cab draws the outline of the cab and its steps.
func (p *pen) cab() {
	a, b := section.Cab[0], section.Cab[1]
	p.fill(Sheet, a, pt(a.X-0.06, a.Y+0.55), pt(a.X+0.06, b.Y-0.16), pt(a.X+0.18, b.Y), pt(b.X, b.Y), pt(b.X, a.Y))
	p.fill(Paper, pt(a.X+0.06, a.Y+0.30), pt(a.X+0.03, a.Y+0.56), pt(a.X+0.14, b.Y-0.20), pt(b.X-0.42, b.Y-0.20), pt(b.X-0.42, a.Y+0.30))
	p.ring(fine, Line, pt(a.X+0.06, a.Y+0.30), pt(a.X+0.03, a.Y+0.56), pt(a.X+0.14, b.Y-0.20), pt(b.X-0.42, b.Y-0.20), pt(b.X-0.42, a.Y+0.30))
	p.ring(plain, Line, a, pt(a.X-0.06, a.Y+0.55), pt(a.X+0.06, b.Y-0.16), pt(a.X+0.18, b.Y), pt(b.X, b.Y), pt(b.X, a.Y))
	p.line(fine, Line, pt(a.X+0.06, b.Y-0.16), pt(b.X, b.Y-0.16))
	// Wheel, column and seat.
	p.line(fine, Line, pt(a.X+0.30, a.Y+0.30), pt(a.X+0.40, a.Y+0.66))
	p.line(plain, Line, pt(a.X+0.30, a.Y+0.70), pt(a.X+0.52, a.Y+0.62))
	p.line(fine, Line, pt(a.X+0.56, a.Y+0.30), pt(a.X+0.56, a.Y+0.46), pt(a.X+0.92, a.Y+0.44), pt(a.X+1.02, a.Y+0.98))
}

// wheels draws the wheels as broken lines: they stand before the section.
func (p *pen) wheels() {
	for _, w := range [...]section.Circle{section.FrontWheel, section.RearWheel} {
		p.brokenCircle(fine, Line, w)
		p.brokenCircle(fine, Line, section.Circle{Centre: w.Centre, R: w.R * 0.56})
		p.circle(fine, Line, section.Circle{Centre: w.Centre, R: w.R * 0.12})
	}
}

const earthDeep = 0.20 // m of hatched earth below the ground

// earth draws the ground: a heavy line over slanting strokes that pass as the
// machine drives.
func (m *moving) earth() {
	v := m.view
	from, to := v.Rect.X0-0.5, v.Rect.X1+0.5
	m.line(heavy, Ink, pt(from, 0), pt(to, 0))
	gap := 0.09
	for !m.shows(gap * 0.55) {
		gap *= 2
	}
	first := math.Floor((from-m.s.GroundTravel)/gap)*gap + m.s.GroundTravel
	i := int(math.Round((first - m.s.GroundTravel) / gap))
	for x := first; x < to+earthDeep; x += gap {
		deep := earthDeep * (0.45 + 0.55*share(uint32(i)))
		m.line(fine, Line, pt(x, 0), pt(x-deep*0.8, -deep))
		i++
	}
}

// stubble draws the stalks that stay in the field, as high as they are cut.
func (m *moving) stubble() {
	high := m.s.Setup.Settings.CuttingHeight / 100
	if m.snaps() {
		high = snappedHeight
	}
	front := section.CutterBar.X
	v := m.view
	if v.Rect.Y0 > high || !(high > 0) {
		return
	}
	gap := 0.11
	from := max(v.Rect.X0, front)
	i := int(math.Ceil((from - m.s.GroundTravel) / gap))
	for {
		x := float64(i)*gap + m.s.GroundTravel + (share(uint32(i))-0.5)*gap*0.8
		if x > v.Rect.X1 {
			return
		}
		if x > front {
			lean := (share(uint32(i)*7+3) - 0.5) * 0.25 * high
			m.line(fine, Stubble, pt(x, 0), pt(x+lean, high*(0.85+0.15*share(uint32(i)*5+1))))
		}
		i++
	}
}

// snappedHeight is how much of a corn stalk still stands behind the snapping
// rolls, m. From memory.
const snappedHeight = 0.35

// share returns a number from 0 to 1 that looks random but is the same for the
// same n.
func share(n uint32) float64 { return float64(mix(n)>>8) / (1 << 24) }

// mix spreads the bits of n.
func mix(n uint32) uint32 {
	n ^= n >> 16
	n *= 0x7feb352d
	n ^= n >> 15
	n *= 0x846ca68b
	return n ^ n>>16
}
