package render

import (
	"math"

	"riddle/sim/stage/section"
)

// belt is an endless chain around two shafts, which it runs anticlockwise: out
// on its right strand from a to b and back on its left one.
type belt struct {
	a, b       section.Circle
	dir        float64 // of the way from a to b, rad
	half       float64 // angle between that way and the spots where the strands leave, rad
	run        float64 // length of a strand, m
	arcB, arcA float64 // length around the shafts, m
}

func newBelt(a, b section.Circle) belt {
	dx, dy := b.Centre.X-a.Centre.X, b.Centre.Y-a.Centre.Y
	d := math.Hypot(dx, dy)
	half := math.Acos((a.R - b.R) / d)
	return belt{a: a, b: b, dir: math.Atan2(dy, dx), half: half, run: d * math.Sin(half),
		arcB: 2 * half * b.R, arcA: 2 * (math.Pi - half) * a.R}
}

// length returns the length of the whole belt, m.
func (k *belt) length() float64 { return 2*k.run + k.arcA + k.arcB }

// at returns the place s metres along the belt and the direction that points
// away from the belt there.
func (k *belt) at(s float64) (p section.Point, nx, ny float64) {
	s = wrap(s, k.length())
	right, left := k.dir-k.half, k.dir+k.half
	switch {
	case s < k.run:
		return k.strand(k.a, right, s, k.dir)
	case s < k.run+k.arcB:
		return k.strand(k.b, right+(s-k.run)/k.b.R, 0, 0)
	case s < 2*k.run+k.arcB:
		return k.strand(k.b, left, s-k.run-k.arcB, k.dir+math.Pi)
	}
	return k.strand(k.a, left+(s-2*k.run-k.arcB)/k.a.R, 0, 0)
}

// strand returns the place that lies s metres in direction dir from the spot
// of a shaft at angle n, and the direction n.
func (k *belt) strand(c section.Circle, n, s, dir float64) (p section.Point, nx, ny float64) {
	ny, nx = math.Sincos(n)
	dy, dx := 0.0, 0.0
	if s > 0 {
		// The strand is straight but, between unequal shafts, not parallel to
		// the way between their centres: it is at right angles to n.
		dx, dy = -ny, nx
		if math.Cos(dir)*dx+math.Sin(dir)*dy < 0 {
			dx, dy = -dx, -dy
		}
	}
	return pt(c.Centre.X+c.R*nx+s*dx, c.Centre.Y+c.R*ny+s*dy), nx, ny
}

// belt strokes the belt.
func (p *pen) belt(w weight, t Tone, k *belt) {
	from := p.begin()
	right, left := (k.dir-k.half)*180/math.Pi, (k.dir+k.half)*180/math.Pi
	p.arc(k.b, right, left)
	p.arc(k.a, left, right+360)
	p.end(from, Shape{Tone: t, Width: p.width[w], Closed: true})
}

// slats strokes the slats of a belt that has moved by travel: one every pitch
// metres, from low to high metres off the belt.
func (p *pen) slats(w weight, t Tone, k *belt, travel, pitch, low, high float64) {
	n := max(math.Round(k.length()/pitch), 1)
	for i := range int(n) {
		q, nx, ny := k.at(travel + float64(i)*k.length()/n)
		p.line(w, t, pt(q.X+low*nx, q.Y+low*ny), pt(q.X+high*nx, q.Y+high*ny))
	}
}
