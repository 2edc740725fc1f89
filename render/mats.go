package render

import (
	"riddle/sim"
	"riddle/sim/section"
)

// mats tints the layers of crop: what is meant is how thick they are.
func (m *moving) mats() {
	m.mat(m.s.FeederMat, 0, section.FeederFloor.B.X, feederFace)
	m.mat(m.s.WalkerMat, 0, section.RearEdgeWalkers, section.WalkerHeight)
	m.mat(m.s.UpperMat, m.shake*0.5, section.RearEdgeShoe, section.UpperSieve.At)
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

// mat tints a row of cells that lies on a face up to an end, lifted by metres.
func (m *moving) mat(cells []sim.Cell, by, end float64, face func(x float64) float64) {
	for i := range cells {
		c := &cells[i]
		if !(c.Thick > 0) {
			continue
		}
		from, to := span(cells, i)
		to = min(to, end)
		a, b := face(from+1e-6)+by, face(to-1e-6)+by
		low := section.Line{A: pt(from, a), B: pt(to, b)}
		top := aside(low, float64(c.Thick))
		m.fill(Mat, low.A, low.B, top.B, top.A)
	}
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
