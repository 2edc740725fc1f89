package render

import (
	"math"

	"riddle/sim/stage/section"
)

func sqrt(x float32) float32  { return float32(math.Sqrt(float64(x))) }
func root4(x float32) float32 { return sqrt(sqrt(x)) }
func abs(x float64) float64   { return math.Abs(x) }
func abs32(x float32) float32 { return max(x, -x) }
func rad(deg float64) float64 { return deg * math.Pi / 180 }

// polar returns the point of a circle at deg degrees, anticlockwise from the
// rear.
func polar(c section.Circle, deg float64) section.Point {
	s, k := math.Sincos(rad(deg))
	return section.Point{X: c.Centre.X + c.R*k, Y: c.Centre.Y + c.R*s}
}

// along returns the point s metres from A along the line.
func along(l section.Line, s float64) section.Point { return between(l, s/l.Length()) }

// between returns the point at share t of the line.
func between(l section.Line, t float64) section.Point {
	return section.Point{X: l.A.X + t*(l.B.X-l.A.X), Y: l.A.Y + t*(l.B.Y-l.A.Y)}
}

// unit returns the direction of the line.
func unit(l section.Line) (ux, uy float64) {
	n := l.Length()
	return (l.B.X - l.A.X) / n, (l.B.Y - l.A.Y) / n
}

// slope returns the angle of the line, degrees.
func slope(l section.Line) float64 { return math.Atan2(l.B.Y-l.A.Y, l.B.X-l.A.X) * 180 / math.Pi }

// aside returns the line moved d metres to its left.
func aside(l section.Line, d float64) section.Line {
	ux, uy := unit(l)
	return shift(l, -uy*d, ux*d)
}

// shift returns the line moved by dx, dy.
func shift(l section.Line, dx, dy float64) section.Line {
	return section.Line{A: section.Point{X: l.A.X + dx, Y: l.A.Y + dy}, B: section.Point{X: l.B.X + dx, Y: l.B.Y + dy}}
}

func pt(x, y float64) section.Point { return section.Point{X: x, Y: y} }

func disc(x, y, r float64) section.Circle { return section.Circle{Centre: pt(x, y), R: r} }

// wrap returns x within [0, n).
func wrap(x, n float64) float64 { return x - n*math.Floor(x/n) }
