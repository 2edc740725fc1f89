package flow

import "riddle/sim/stage/section"

// Path is a line of straight stretches along which dots are carried.
type Path struct {
	legs   []leg
	Length float32 // m
}

// leg is one stretch of a path: its start, direction, and distance at its start.
type leg struct{ x, y, dx, dy, from float32 }

// NewPath returns the path through the given points.
func NewPath(points ...section.Point) *Path {
	p := &Path{}
	total := 0.0
	for i := 1; i < len(points); i++ {
		a, b := points[i-1], points[i]
		l := section.Line{A: a, B: b}.Length()
		p.legs = append(p.legs, leg{float32(a.X), float32(a.Y), float32((b.X - a.X) / l), float32((b.Y - a.Y) / l), float32(total)})
		total += l
	}
	p.Length = float32(total)
	return p
}

// Place puts a dot at its distance Along along the path, lifted by up metres at
// right angles to it.
func (p *Path) Place(d *Dot, up float32) {
	i := len(p.legs) - 1
	for i > 0 && d.Along < p.legs[i].from {
		i--
	}
	l := &p.legs[i]
	s := d.Along - l.from
	d.X = l.x + float32(l.dx*s) - float32(l.dy*up)
	d.Y = l.y + float32(l.dy*s) + float32(l.dx*up)
}

// Nearest returns the distance along the path of its point at the given x, for
// a path that runs one way in x.
func (p *Path) Nearest(x float32) float32 {
	for i := len(p.legs) - 1; i >= 0; i-- {
		if l := &p.legs[i]; l.dx != 0 {
			if s := (x - l.x) / l.dx; s >= 0 || i == 0 {
				return min(max(l.from+s, 0), p.Length)
			}
		}
	}
	return 0
}

// Surface is a face that dots lie on, as a height over x, which goes on beyond
// its ends.
type Surface struct {
	From, To float32 // x of its ends, m

	y, slope float32
}

// NewSurface returns the face along a line.
func NewSurface(l section.Line) Surface {
	return Surface{From: float32(l.A.X), To: float32(l.B.X), y: float32(l.A.Y), slope: float32((l.B.Y - l.A.Y) / (l.B.X - l.A.X))}
}

// At returns the height at x, m.
func (s Surface) At(x float32) float32 { return s.y + float32((x-s.From)*s.slope) }

// Bowl is a trough as a height over x, of straight stretches that run rearward.
type Bowl struct {
	sides []Surface
	ends  []float32
}

// NewBowl returns the trough through the given points.
func NewBowl(points []section.Point) Bowl {
	b := Bowl{}
	for i := 1; i < len(points); i++ {
		b.sides = append(b.sides, NewSurface(section.Line{A: points[i-1], B: points[i]}))
		b.ends = append(b.ends, float32(points[i].X))
	}
	return b
}

// At returns the height at x, m.
func (b Bowl) At(x float32) float32 {
	for i, end := range b.ends {
		if x < end {
			return b.sides[i].At(x)
		}
	}
	return b.sides[len(b.sides)-1].At(x)
}
