package render

import (
	"slices"

	"riddle/sim/section"
)

// ways are arrows beside the flow, for a still: a picture that does not move
// has to say which way things go.
var ways = []struct {
	tone Tone
	path []section.Point
}{
	{Ink, []section.Point{{X: -1.85, Y: 0.80}, {X: -1.25, Y: 1.20}}},                     // up the feeder house
	{Ink, []section.Point{{X: 2.45, Y: 2.40}, {X: 3.25, Y: 2.56}}},                       // straw over the walkers
	{Ink, []section.Point{{X: 5.28, Y: 1.42}, {X: 5.75, Y: 1.12}}},                       // straw out
	{Ink, []section.Point{{X: 3.05, Y: 1.60}, {X: 2.35, Y: 1.49}}},                       // grain on the return pan, forward
	{Ink, []section.Point{{X: -0.15, Y: 1.13}, {X: 0.50, Y: 1.11}}},                      // grain on the conveyors
	{Ink, []section.Point{{X: 2.72, Y: 1.22}, {X: 3.22, Y: 1.27}}},                       // chaff over the upper sieve
	{Ink, []section.Point{{X: 3.90, Y: 0.80}, {X: 3.93, Y: 0.35}}},                       // chaff to the ground
	{Ink, []section.Point{{X: 2.42, Y: 0.90}, {X: 2.43, Y: 0.74}}},                       // grain through the upper sieve
	{Ink, []section.Point{{X: 2.52, Y: 0.60}, {X: 2.53, Y: 0.44}}},                       // and the lower
	{Ink, beyond(section.GrainElevator, -0.17, 0.48, 0.66)},                              // clean grain up to the tank
	{Ink, beyond(section.ReturnsElevator, -0.18, 0.30, 0.50)},                            // returns up to the cylinder
	{Ink, []section.Point{{X: 0.02, Y: 2.17}, {X: -0.30, Y: 2.10}, {X: -0.40, Y: 1.86}}}, // and into it again
	{AirTone, []section.Point{{X: 1.00, Y: 0.66}, {X: 1.42, Y: 0.86}}},                   // air from the fan
}

// beyond returns a stretch beside a line, from share a to share b of it.
func beyond(l section.Line, off, a, b float64) []section.Point {
	l = aside(l, off)
	return []section.Point{between(l, a), between(l, b)}
}

// ways draws the arrows.
func (p *pen) ways() {
	for _, w := range ways {
		if slices.ContainsFunc(w.path, func(q section.Point) bool { return !p.view.shows(q) }) {
			continue // half an arrow says nothing
		}
		n := len(w.path)
		last, before := w.path[n-1], w.path[n-2]
		ux, uy := unit(section.Line{A: before, B: last})
		h := 8 * p.view.Scale / p.view.K // m, of the head
		back := pt(last.X-ux*h, last.Y-uy*h)
		head := [...]section.Point{last, pt(back.X-uy*h*0.42, back.Y+ux*h*0.42), pt(back.X+uy*h*0.42, back.Y-ux*h*0.42)}
		from := p.begin()
		p.through(w.path)
		p.end(from, Shape{Tone: Inside, Width: 4.4 * p.width[plain], Alpha: 200})
		p.ring(heavy, Inside, head[:]...)
		p.line(heavy, w.tone, append(append([]section.Point{}, w.path[:n-1]...), back)...)
		p.fill(w.tone, head[:]...)
	}
}
