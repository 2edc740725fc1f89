package render

import (
	"slices"

	"riddle/sim"
	"riddle/sim/stage/section"
)

// way is an arrow beside the flow, in the tone of what goes there; what is
// mixed goes in ink.
type way struct {
	tone Tone
	path []section.Point
}

// ways are arrows for a still: a picture that does not move has to say which
// way things go.
var ways = []way{
	{Ink, []section.Point{{X: -1.85, Y: 0.80}, {X: -1.25, Y: 1.20}}},                                       // up the feeder house
	{StrawTone, []section.Point{{X: 5.28, Y: 1.42}, {X: 5.75, Y: 1.12}}},                                   // straw out
	{GrainTone, []section.Point{{X: 3.05, Y: 1.60}, {X: 2.35, Y: 1.49}}},                                   // on the walker pan, forward
	{GrainTone, []section.Point{{X: -0.15, Y: 1.13}, {X: 0.50, Y: 1.11}}},                                  // on the conveyors
	{GrainTone, []section.Point{{X: 2.42, Y: 0.90}, {X: 2.43, Y: 0.74}}},                                   // through the upper sieve
	{GrainTone, []section.Point{{X: 2.52, Y: 0.60}, {X: 2.53, Y: 0.44}}},                                   // and the lower
	{Ink, []section.Point{between(section.GrainElevator, 0.74), between(section.GrainElevator, 0.90)}},     // up to the tank
	{ChaffTone, []section.Point{{X: 2.66, Y: 1.24}, {X: 3.16, Y: 1.29}}},                                   // chaff over the upper sieve
	{ChaffTone, []section.Point{{X: 4.05, Y: 0.72}, {X: 4.10, Y: 0.30}}},                                   // and to the ground
	{Ink, []section.Point{between(section.ReturnsElevator, 0.08), between(section.ReturnsElevator, 0.24)}}, // returns up
	{Ink, []section.Point{between(section.ReturnsElevator, 0.33), between(section.ReturnsElevator, 0.48)}}, // and on
	{Ink, []section.Point{{X: 0.02, Y: 2.17}, {X: -0.30, Y: 2.10}, {X: -0.40, Y: 1.86}}},                   // into the cylinder again
	{AirTone, []section.Point{{X: 0.98, Y: 0.74}, {X: 1.16, Y: 0.94}}},                                     // air from the fan, through what falls
	{AirTone, []section.Point{{X: 1.10, Y: 0.57}, {X: 1.72, Y: 0.60}}},                                     // and under the lower sieve
	{AirTone, []section.Point{{X: 3.52, Y: 1.36}, {X: 4.05, Y: 1.30}, {X: 4.47, Y: 1.04}}},                 // and out
}

// ways draws the arrows.
func (p *pen) ways(snap *sim.Snapshot) {
	for _, w := range ways {
		p.way(w.tone, w.path...)
	}
	p.way(StrawTone, overStraw(snap, 2.45), overStraw(snap, 3.25))
	if snap.Setup.Settings.PreSieve > 0 { // through it, and down its pan
		p.way(GrainTone, pt(1.36, 1.00), pt(1.40, 0.88), pt(1.76, 0.81))
	}
}

// overStraw returns the place at x between the straw on the walkers and the
// roof of the hood.
func overStraw(snap *sim.Snapshot, x float64) section.Point {
	top := section.WalkerHeight(x)
	if len(snap.WalkerMat) > 0 {
		top += thickAt(snap.WalkerMat, x)
	}
	return pt(x, min(top+0.12, section.HoodAt(x)-0.06))
}

// way draws an arrow along a path.
func (p *pen) way(tone Tone, path ...section.Point) {
	if slices.ContainsFunc(path, func(q section.Point) bool { return !p.view.shows(q) }) {
		return // half an arrow says nothing
	}
	n := len(path)
	last, before := path[n-1], path[n-2]
	ux, uy := unit(section.Line{A: before, B: last})
	h := 9 * p.view.Scale / p.view.K // m, of the head
	back := pt(last.X-ux*h, last.Y-uy*h)
	head := [...]section.Point{last, pt(back.X-uy*h*0.45, back.Y+ux*h*0.45), pt(back.X+uy*h*0.45, back.Y-ux*h*0.45)}
	from := p.begin()
	p.through(path)
	p.end(from, Shape{Tone: Inside, Width: 4.8 * p.width[plain], Alpha: 220})
	p.ring(heavy, Inside, head[:]...)
	p.line(heavy, tone, append(append([]section.Point{}, path[:n-1]...), back)...)
	p.fill(tone, head[:]...)
}
