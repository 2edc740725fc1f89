package render

import (
	"math"

	"riddle/sim/stage/section"
)

// room is the outline of the space between the side walls.
var room = func() []section.Point {
	up, low := mouths()
	out := []section.Point{section.FeederRoof.A}
	out = append(out, section.FeederRoof.B)
	out = append(out, section.HoodRoof...)
	for i := len(section.ReturnsTrough) - 1; i >= 0; i-- {
		out = append(out, section.ReturnsTrough[i])
	}
	for i := len(section.GrainTrough) - 1; i >= 0; i-- {
		out = append(out, section.GrainTrough[i])
	}
	out = append(out, low.B, up.A)
	for deg := scrollTop; deg <= wallOnScroll; deg += 10 {
		out = append(out, polar(scroll, float64(deg)))
	}
	return append(out, section.ConveyorFloor.A, pt(-0.42, 1.46), section.FeederFloor.B, section.FeederFloor.A)
}()

// wallOnScroll is where the lower edge of the side wall meets the fan's
// housing, degrees.
const wallOnScroll = 132

// bodyStill draws what the section does not cut: cab, tank walls, side walls.
func (p *pen) bodyStill() {
	p.cab()
	p.fill(Inside, room...)
	p.returnsStill()
	p.fill(Inside, section.Tank...)
	_, low := mouths()
	hood := section.HoodRoof[len(section.HoodRoof)-1]
	p.line(fine, Line, hood, section.ReturnsTrough[3])
	p.line(fine, Line, low.B, section.GrainTrough[0])
	p.line(fine, Line, polar(scroll, wallOnScroll), section.ConveyorFloor.A)
	// Posts under the tank, and the deck on which the cab stands.
	p.line(fine, Line, section.Tank[2], pt(section.Tank[2].X, 2.25))
	p.line(fine, Line, section.Tank[3], pt(section.Tank[3].X, section.Line{A: section.HoodRoof[0], B: section.HoodRoof[1]}.At(section.Tank[3].X)))
	p.line(plain, Line, section.Cab[0], pt(section.Tank[2].X, section.Cab[0].Y))
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

// groundLine draws the face of the field.
func (p *pen) groundLine() {
	p.line(heavy, Ink, pt(p.view.Rect.X0-0.5, 0), pt(p.view.Rect.X1+0.5, 0))
}

// earth draws the ground below its face: slanting strokes that pass as the
// machine drives.
func (m *moving) earth() {
	v := m.view
	from, to := v.Rect.X0-0.5, v.Rect.X1+0.5
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
