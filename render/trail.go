package render

import (
	"math"

	"riddle/sim/stage/section"
)

// Trail is the way of one dot, drawn over the machine: solid as far as it has
// gone, broken from there on, and a ring round where it is.
type Trail struct {
	Way  []section.Point // m
	Gone int             // how many of its points lie behind the dot
	At   section.Point
	Ring bool // whether the dot is to be ringed
}

// trail draws a trail, on a seam of paper by which it stands out from what
// lies below.
func (p *pen) trail(t *Trail) {
	if t == nil {
		return
	}
	gone := min(max(t.Gone, 0), len(t.Way))
	behind := t.Way[:gone]
	if t.Ring {
		p.seamed(behind, t.At)
	} else {
		p.seamed(behind)
	}
	if ahead := t.Way[gone:]; len(ahead) > 0 {
		from := p.begin()
		p.to(t.At.X, t.At.Y)
		p.through(ahead)
		p.dash(from, plain, Ink)
	}
	if t.Ring {
		p.ringed(t.At)
	}
}

// seamed strokes a line on a wider one of paper. It ends at the points given
// last, if any.
func (p *pen) seamed(way []section.Point, last ...section.Point) {
	for _, s := range [...]Shape{{Tone: Inside, Width: 3.6 * p.width[plain], Alpha: 190}, {Tone: Ink, Width: 1.2 * p.width[plain]}} {
		from := p.begin()
		p.through(way)
		p.through(last)
		p.end(from, s)
	}
}

// ringRadius is the least radius of the ring, px at scale 1.
const ringRadius = 9

// ringed draws the ring and four marks that point to its middle.
func (p *pen) ringed(at section.Point) {
	r := math.Max(ringRadius*p.view.Scale/p.view.K, 0.006)
	c := section.Circle{Centre: at, R: r}
	from := p.begin()
	p.arc(c, 0, 360)
	p.end(from, Shape{Tone: Inside, Width: 4 * p.width[plain], Closed: true, Alpha: 220})
	p.circle(heavy, Ink, c)
	for deg := 0.0; deg < 360; deg += 90 {
		p.line(heavy, Ink, polar(c, deg), polar(section.Circle{Centre: at, R: r * 1.6}, deg))
	}
}
