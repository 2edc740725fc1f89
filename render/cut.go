package render

import (
	"slices"

	"riddle/sim/stage/section"
)

// broken strokes the polyline as a broken line: the sign of what is hidden or
// stands outside.
func (p *pen) broken(w weight, t Tone, pts ...section.Point) {
	from := p.begin()
	p.through(pts)
	p.dash(from, w, t)
}

// brokenCircle strokes a circle as a broken line.
func (p *pen) brokenCircle(w weight, t Tone, c section.Circle) {
	from := p.begin()
	p.arc(c, 0, 360)
	p.dash(from, w, t)
}

// dash turns the points from an index on into dashes.
func (p *pen) dash(from int32, w weight, t Tone) {
	path := p.take(from)
	z := p.width[w]
	on, off := max(6*z, 3), max(3.6*z, 2.2)
	phase := float32(0) // how far into on+off
	for i := 1; i < len(path); i++ {
		a, b := path[i-1], path[i]
		if n := sqrt((b.X-a.X)*(b.X-a.X) + (b.Y-a.Y)*(b.Y-a.Y)); n > 0 {
			p.dashes(a, b, n, phase, on, off, Shape{Tone: t, Width: z})
			phase += n
			phase -= (on + off) * float32(int(phase/(on+off)))
		}
	}
}

// dashes puts the dashes of one straight stretch of n px, begun at phase.
func (p *pen) dashes(a, b Pt, n, phase, on, off float32, s Shape) {
	ux, uy := (b.X-a.X)/n, (b.Y-a.Y)/n
	for at := -phase; at < n; at += on + off {
		f, t := max(at, 0), min(at+on, n)
		if t <= f {
			continue
		}
		from := p.begin()
		p.list.Points = append(p.list.Points, Pt{a.X + f*ux, a.Y + f*uy}, Pt{a.X + t*ux, a.Y + t*uy})
		p.end(from, s)
	}
}

// cut paints a face that the section cuts: paper, hatching and an outline. A
// face too thin for that is filled with ink.
func (p *pen) cut(w weight, thick float64, pts ...section.Point) {
	if p.px(abs(thick)) < 3.2*p.width[fine] {
		p.fill(Ink, pts...)
		return
	}
	p.fill(Paper, pts...)
	p.hatch(5.2*p.width[plain], pts...)
	p.ring(w, Ink, pts...)
}

// hatch rules the polygon with lines that rise at 45 degrees, gap px apart.
func (p *pen) hatch(gap float32, pts ...section.Point) {
	from := p.begin()
	p.through(pts)
	p.hatchFrom(from, gap)
}

// take moves the points from an index on out of the list.
func (p *pen) take(from int32) []Pt {
	l := p.list
	l.spare = append(l.spare[:0], l.Points[from:]...)
	l.Points = l.Points[:from]
	return l.spare
}

// hatchFrom rules the polygon of the points from an index on.
func (p *pen) hatchFrom(from int32, gap float32) {
	poly := p.take(from)
	lo, hi := Bounds(poly)
	lo.X, lo.Y = max(lo.X, 0), max(lo.Y, 0)
	hi.X, hi.Y = min(hi.X, p.view.W), min(hi.Y, p.view.H)
	step := gap * 1.4142
	first := float32(int((lo.X+lo.Y)/step)) * step
	for c := first; c < hi.X+hi.Y; c += step {
		p.rule(poly, c)
	}
}

// rule strokes those stretches of the line x + y = c that lie in the polygon.
func (p *pen) rule(poly []Pt, c float32) {
	var buf [16]float32
	xs := buf[:0]
	a := poly[len(poly)-1]
	for _, b := range poly {
		da, db := a.X+a.Y-c, b.X+b.Y-c
		if (da < 0) != (db < 0) && len(xs) < cap(xs) {
			xs = append(xs, a.X+(b.X-a.X)*da/(da-db))
		}
		a = b
	}
	slices.Sort(xs)
	for i := 0; i+1 < len(xs); i += 2 {
		from := p.begin()
		p.list.Points = append(p.list.Points, Pt{xs[i], c - xs[i]}, Pt{xs[i+1], c - xs[i+1]})
		p.end(from, Shape{Tone: Line, Width: p.width[fine]})
	}
}

// shaft draws a shaft, cut.
func (p *pen) shaft(at section.Point, r float64) {
	c := section.Circle{Centre: at, R: r}
	if p.px(r) < 7*p.width[fine] {
		p.disc(Ink, c)
		return
	}
	p.disc(Paper, c)
	from := p.begin()
	p.arc(c, 0, 360)
	p.hatchFrom(from, 5.2*p.width[plain])
	p.circle(plain, Ink, c)
}

// sheet draws a sheet of metal that the section cuts. Its face is the given
// polyline; the metal lies to the right of it, seen along the line, and is
// thick metres thick. Far off it is one heavy line.
func (p *pen) sheet(thick float64, pts ...section.Point) {
	if p.px(abs(thick)) < 1.8*p.width[heavy] {
		p.line(heavy, Ink, pts...)
		return
	}
	var buf [24]section.Point
	all := append(buf[:0], pts...)
	for i := len(pts) - 1; i >= 0; i-- {
		all = append(all, offset(pts, i, thick))
	}
	p.cut(plain, thick, all...)
}

// offset returns point i of the polyline moved d metres to its right, so that
// both edges at it move by d.
func offset(pts []section.Point, i int, d float64) section.Point {
	a, b := max(i-1, 0), min(i+1, len(pts)-1)
	var nx, ny float64
	var u [2][2]float64
	n := 0
	for _, l := range [2]section.Line{{A: pts[a], B: pts[i]}, {A: pts[i], B: pts[b]}} {
		if l.A != l.B {
			ux, uy := unit(l)
			u[n] = [2]float64{uy, -ux}
			nx, ny = nx+uy, ny-ux
			n++
		}
	}
	if n == 0 {
		return pts[i]
	}
	k := d / max(nx*u[0][0]+ny*u[0][1], 0.3)
	return pt(pts[i].X+nx*k, pts[i].Y+ny*k)
}
