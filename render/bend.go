package render

import (
	"math"

	"riddle/sim"
	"riddle/sim/flow"
	"riddle/sim/section"
)

// bend draws a straw that lies along a bent way as a bent one: around the
// cylinder, and from the platform into the feeder house. It reports whether it
// did; a straw on a straight way is left to be drawn straight.
func (k *marker) bend(d *flow.Dot, m Mark, length float32) bool {
	switch {
	case k.place == sim.Gap:
		k.around(d, m, length)
		return true
	case k.place == sim.Feeding && d.Ride == flow.InMat && d.Kind == flow.Straw:
		k.alongFeeder(d, m, length)
		return true
	}
	return false
}

// around draws a straw on its arc about the cylinder, as far as the concave
// reaches.
func (k *marker) around(d *flow.Dot, m Mark, length float32) {
	c := section.Cylinder.Centre
	dx, dy := float64(d.X)-c.X, float64(d.Y)-c.Y
	r := math.Hypot(dx, dy)
	mid := math.Atan2(dy, dx)
	if mid < 0 {
		mid += 2 * math.Pi
	}
	half := float64(length) / k.v.K / 2 / max(r, 0.01)
	from, to := max(mid-half, rad(section.ConcaveFrom)), min(mid+half, rad(section.ConcaveTo))
	n := max(int((to-from)*6), 1)
	a := k.v.Px(pt(c.X+r*math.Cos(from), c.Y+r*math.Sin(from)))
	for i := range n {
		t := from + (to-from)*float64(i+1)/float64(n)
		b := k.v.Px(pt(c.X+r*math.Cos(t), c.Y+r*math.Sin(t)))
		k.stroke(m, a, b)
		a = b
	}
}

// alongFeeder draws a straw along platform and feeder floor, at its own height
// over them.
func (k *marker) alongFeeder(d *flow.Dot, m Mark, length float32) {
	up := float64(d.Y) - feederFace(float64(d.X))
	half := float64(length) / k.v.K / 2
	path := section.FeedPath
	s := float64(d.S)
	from, to := max(s-half, 0), s+half
	at, pos := k.v.Px(raised(from, up)), from
	total := 0.0
	for i := 1; i < len(path); i++ {
		total += section.Line{A: path[i-1], B: path[i]}.Length()
		if total <= pos {
			continue
		}
		next := min(total, to)
		b := k.v.Px(raised(next, up))
		k.stroke(m, at, b)
		at, pos = b, next
		if pos >= to {
			return
		}
	}
}

// raised returns the point s metres along the feed path, up metres over it.
func raised(s, up float64) section.Point {
	path := section.FeedPath
	for i := 1; ; i++ {
		l := section.Line{A: path[i-1], B: path[i]}
		if n := l.Length(); s > n && i < len(path)-1 {
			s -= n
			continue
		}
		q := along(l, s)
		return pt(q.X, q.Y+up)
	}
}

// stroke makes a stem from a to b.
func (k *marker) stroke(m Mark, a, b Pt) {
	m.X, m.Y = (a.X+b.X)/2, (a.Y+b.Y)/2
	m.DX, m.DY = (b.X-a.X)/2, (b.Y-a.Y)/2
	if m.Form == Knotty {
		m.Form = Stem
	}
	k.out = append(k.out, m)
}
