package render

import (
	"math"
	"slices"

	"riddle/sim/stage/flow"
	"riddle/sim/stage/section"
)

const heapSteps = 80

// heapXs are the places at which the surface of a heap is computed, m: even
// steps and the corners of the tank.
var heapXs = func() []float64 {
	var xs []float64
	for _, q := range section.Tank[1:5] {
		xs = append(xs, q.X)
	}
	from, to := xs[0], xs[len(xs)-1]
	for i := 1; i < heapSteps; i++ {
		xs = append(xs, from+(to-from)*float64(i)/heapSteps)
	}
	xs = append(xs, section.GrainElevator.B.X)
	slices.Sort(xs)
	return xs
}()

// tankFloor returns the height of the tank's floor at x.
func tankFloor(x float64) float64 {
	t := section.Tank
	for i := 2; i < len(t)-1; i++ {
		if x <= t[i].X {
			return section.Line{A: t[i-1], B: t[i]}.At(x)
		}
	}
	return section.Line{A: t[len(t)-3], B: t[len(t)-2]}.At(x)
}

// heap is grain in the tank: a pile under the elevator's mouth that slopes to
// both sides, as high as its volume asks.
type heap struct{ peak float64 } // height of its top, m

// slope returns the height of the pile at x were there no floor, m.
func (h heap) slope(x float64) float64 {
	return h.peak - heapSlope*abs(x-section.GrainElevator.B.X)
}

var heapSlope = math.Tan(rad(repose))

// top returns the height of the pile at x, m.
func (h heap) top(x float64) float64 {
	return max(h.slope(x), tankFloor(x))
}

// holds reports whether a falling dot has met the pile: there it is not drawn
// any more, though the tank counts it a moment later.
func (h heap) holds(d *flow.Dot) bool {
	y := float64(d.Y)
	return (y < h.peak || y < section.Tank[1].Y) && y < h.top(float64(d.X))
}

// area returns the area of the pile in the section, m².
func (h heap) area() float64 {
	sum := 0.0
	for _, foot := range heapFeet {
		if h.peak > foot {
			sum += h.peak - foot
		}
	}
	return sum * (section.Tank[4].X - section.Tank[1].X) / heapSteps
}

// heapFeet say, for even stretches of the tank, how high the peak of a pile
// stands that just reaches the floor there, m.
var heapFeet = func() (feet [heapSteps]float64) {
	from, to := section.Tank[1].X, section.Tank[4].X
	for i := range feet {
		x := from + (float64(i)+0.5)*(to-from)/heapSteps
		feet[i] = tankFloor(x) - heap{}.slope(x)
	}
	return
}()

// heapOf returns the pile that fills a share of the tank, 0 to 1. A full tank
// is one whose pile reaches the brim at the wall that it reaches first.
func heapOf(share float64) heap {
	brim, floor := section.Tank[0].Y, section.Tank[2].Y
	full := heap{brim}.area()
	lo, hi := floor, brim
	for range 24 {
		mid := (lo + hi) / 2
		if (heap{mid}).area() < full*min(max(share, 0), 1) {
			lo = mid
		} else {
			hi = mid
		}
	}
	return heap{(lo + hi) / 2}
}

// heap draws the grain in the tank as a tint with a surface.
func (m *moving) heap() {
	if !(m.s.TankShare > 0) {
		return
	}
	h := m.grainHeap
	at := m.begin()
	for _, x := range heapXs {
		m.to(x, h.top(x))
	}
	for i := len(section.Tank) - 2; i > 0; i-- {
		m.to(section.Tank[i].X, section.Tank[i].Y)
	}
	m.end(at, Shape{Tone: Heap, Alpha: 170}) // what stands in the grain shows through
	at = m.begin()
	for i, x := range heapXs {
		bare := h.top(x) <= tankFloor(x)
		if next := min(i+1, len(heapXs)-1); !bare || h.top(heapXs[next]) > tankFloor(heapXs[next]) {
			m.to(x, h.top(x))
		}
	}
	m.end(at, Shape{Tone: GrainTone, Width: m.width[plain]})
}

// truck draws the bed of a truck that stands beside the machine to be filled,
// and how high the grain in it is.
func (m *moving) truck() {
	if !m.s.Setup.Settings.Unload && !(m.s.TruckKg > 0) {
		return
	}
	b := section.TruckBed
	m.broken(plain, Line, b[0], b[1], b[2], b[3], b[0])
	for i := 1; i < 6; i++ {
		x := b[0].X + float64(i)*(b[3].X-b[0].X)/6
		m.broken(fine, Line, pt(x, b[0].Y), pt(x, b[1].Y))
	}
	if share := min(m.s.TruckKg/truckKg, 1); share > 0 {
		y := b[0].Y + share*(b[1].Y-b[0].Y)
		m.line(heavy, GrainTone, pt(b[0].X, y), pt(b[3].X, y))
	}
}

// truckKg is what the bed of the drawn truck holds, kg.
const truckKg = 12000
