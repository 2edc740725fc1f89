package render

import (
	"math"

	"riddle/sim"
	"riddle/sim/stage/section"
)

// mats tints the layers of crop: what is meant is how thick they are.
func (m *moving) mats() {
	m.mat(m.s.FeederMat, 0, section.FeederFloor.B.X, feederFace, feederTop)
	m.mat(m.s.WalkerMat, 0, section.RearEdgeWalkers, section.WalkerHeight, section.HoodAt)
	m.mat(m.s.UpperMat, m.shake*0.5, section.RearEdgeShoe, section.UpperSieve.At, section.WalkerPan.At)
}

// feederTop is the roof of the feeder house; the platform has none.
func feederTop(x float64) float64 {
	if x < section.FeederRoof.A.X {
		return math.Inf(1)
	}
	return section.FeederRoof.At(x)
}

// feederFace returns the height of the feed path's floor at x.
func feederFace(x float64) float64 {
	p := section.FeedPath
	for i := 1; i < len(p)-1; i++ {
		if x <= p[i].X {
			return section.Line{A: p[i-1], B: p[i]}.At(x)
		}
	}
	return section.Line{A: p[len(p)-2], B: p[len(p)-1]}.At(x)
}

// mat tints a row of cells that lies on a face up to an end, lifted by metres,
// under a roof. Its top runs from the middle of one cell to the middle of the
// next.
func (m *moving) mat(cells []sim.Cell, by, end float64, face, roof func(x float64) float64) {
	if len(cells) == 0 {
		return
	}
	from, _ := span(cells, 0)
	_, to := span(cells, len(cells)-1)
	to = min(to, end)
	at := m.begin()
	const steps = 48 // of the face, which may have steps of its own
	for i := range steps + 1 {
		x := from + (to-from)*float64(i)/steps
		m.to(x, face(x)+by)
	}
	for i := steps; i >= 0; i-- {
		x := from + (to-from)*float64(i)/steps
		const half = 0.125 // m over which the slope is taken, so that a drop between steps shows as little
		nx, ny := face(x-half)-face(x+half), 2*half
		t, y := thickAt(cells, x)/math.Hypot(nx, ny), face(x)+by
		x += nx * t
		m.to(x, min(y+ny*t, roof(x)))
	}
	m.end(at, Shape{Tone: Mat})
}

// thickAt returns the thickness of a mat at x, evened out between the middles
// of its cells, m.
func thickAt(cells []sim.Cell, x float64) float64 {
	for i := 1; i < len(cells); i++ {
		a, b := &cells[i-1], &cells[i]
		if x <= float64(b.X) {
			t := min(max((x-float64(a.X))/(float64(b.X)-float64(a.X)), 0), 1)
			return float64(a.Thick) + t*float64(b.Thick-a.Thick)
		}
	}
	return float64(cells[len(cells)-1].Thick)
}

// span returns the stretch that cell i covers: half-way to its neighbours.
func span(cells []sim.Cell, i int) (from, to float64) {
	x := float64(cells[i].X)
	left, right := 0.0, 0.0
	if i > 0 {
		left = (x - float64(cells[i-1].X)) / 2
	}
	if i+1 < len(cells) {
		right = (float64(cells[i+1].X) - x) / 2
	}
	if i == 0 {
		left = right
	}
	if i+1 == len(cells) {
		right = left
	}
	return x - left, x + right
}
