package render

import (
	"riddle/sim"
	"riddle/sim/read/story"
	"riddle/sim/stage/flow"
	"riddle/sim/stage/section"
)

// How far the tallest bar of a profile reaches from its part, m.
const (
	passConcave = 0.11
	passWalkers = 0.26
	passSieve   = 0.11
)

// passes draws where grain passes the concave, the walkers and the sieves: a
// bar for each stretch, on the side to which the grain falls, and on the other
// side a line that falls from what came onto the part to what is left.
func (p *pen) passes(s *story.Passes) {
	if s == nil {
		return
	}
	c := section.Cylinder
	arc := func(t, off float64) section.Point {
		r := section.Circle{Centre: c.Centre, R: c.R + 0.075 - off}
		return polar(r, section.ConcaveFrom+t*(section.ConcaveTo-section.ConcaveFrom))
	}
	p.profile(&s.Concave, passConcave, arc)
	walkers := section.Line{A: section.WalkerStart, B: pt(section.RearEdgeWalkers, section.WalkerHeight(section.RearEdgeWalkers))}
	p.profile(&s.Walkers, passWalkers, beside(shift(walkers, 0, -0.16)))
	p.profile(&s.Upper, passSieve, beside(shift(section.UpperSieve, 0, -0.035)))
	p.profile(&s.Lower, passSieve, beside(shift(section.LowerSieve, 0, -0.03)))
}

// beside returns the points along a line at an offset to its upper side.
func beside(l section.Line) func(t, off float64) section.Point {
	ux, uy := unit(l)
	n := l.Length()
	return func(t, off float64) section.Point {
		q := along(l, t*n)
		return pt(q.X-uy*off, q.Y+ux*off)
	}
}

// profile draws one part. Bars are scaled to their tallest, the line to all
// that comes onto the part.
func (p *pen) profile(s *story.Pass, reach float64, at func(t, off float64) section.Point) {
	total, most := s.Total(), 0.0
	for _, v := range s.At {
		most = max(most, v)
	}
	if !(total > 0.5) || !(most > 0) {
		return
	}
	const n = story.Bins
	for i, v := range s.At {
		a, b := (float64(i)+0.12)/n, (float64(i)+0.88)/n
		h := -reach * v / most
		bar := [...]section.Point{at(a, 0), at(b, 0), at(b, h), at(a, h)}
		p.alpha = 205
		p.fill(GrainTone, bar[:]...)
		p.alpha = 255
		p.ring(fine, Ink, bar[:]...)
	}
	left := total
	for i, v := range s.At {
		a, b := float64(i)/n, float64(i+1)/n
		y0 := reach * left / total
		left -= v
		y1 := reach * left / total
		p.seamed([]section.Point{at(a, y0), at(b, y1)})
	}
}

// lostRows are the causes of loss from the uppermost row under the ground line
// downwards, in the order of the crop.
var lostRows = [...]flow.Cause{flow.Header, flow.Unthreshed, flow.Walker, flow.Blown, flow.Ridden}

// lost draws the grain that lies on the ground behind as marks below the
// ground line, in a row for each cause.
func (p *pen) lost(snap *sim.Snapshot) {
	v := p.view
	row := max(0.026, 5*v.Scale/v.K) // m
	for i := range snap.Dots[sim.Behind] {
		d := &snap.Dots[sim.Behind][i]
		if d.Ride != flow.AtRest || d.Grain == 0 || d.Cause == flow.NotLost {
			continue
		}
		for j, c := range lostRows {
			if c != d.Cause {
				continue
			}
			y := -row * (float64(j) + 0.9)
			tone := GrainTone
			if d.Kind == flow.Piece {
				tone = PieceTone
			}
			p.line(heavy, tone, pt(float64(d.X), y+row*0.36), pt(float64(d.X), y-row*0.36))
		}
	}
	for j := range lostRows { // rules between the rows
		y := -row * (float64(j) + 1.4)
		p.line(fine, Line, pt(max(v.Rect.X0, section.CutterBar.X), y), pt(v.Rect.X1, y))
	}
}
