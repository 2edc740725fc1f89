package render

import "riddle/sim/stage/section"

// Pt is a place on the picture, px from its upper left corner.
type Pt struct{ X, Y float32 }

// Shape is a filled polygon or, if its width is above zero, a stroked line
// through its points.
type Shape struct {
	From, To int32   // its points in the list
	Width    float32 // of the stroke, px
	Tone     Tone
	Alpha    uint8 // 255 covers what lies below
	Closed   bool  // a stroke that ends where it begins
}

// List is a sequence of shapes to be painted one over the other.
type List struct {
	Points []Pt
	Shapes []Shape

	spare []Pt // room for a polygon in the making
}

// Reset empties the list and keeps its room.
func (l *List) Reset() { l.Points, l.Shapes = l.Points[:0], l.Shapes[:0] }

// Of returns the points of a shape.
func (l *List) Of(s *Shape) []Pt { return l.Points[s.From:s.To] }

// weight is one of the three weights of line.
type weight uint8

const (
	fine  weight = iota // hidden and outer parts, details
	plain               // working parts
	heavy               // the outline of the section
)

// pen puts shapes into a list. Its figures are in metres, its widths in px.
type pen struct {
	list  *List
	view  View
	width [3]float32 // of each weight, px
	alpha uint8
}

func newPen(l *List, v View, t *Theme) pen {
	z := min(max(root4(float32(v.K/(133*v.Scale))), 0.62), 1.55) * float32(v.Scale) * t.Weight
	return pen{list: l, view: v, width: [3]float32{0.75 * z, 1.15 * z, 1.9 * z}, alpha: 255}
}

// px turns metres into px.
func (p *pen) px(m float64) float32 { return float32(m * p.view.K) }

// fine reports whether details of this size, m, can be told apart.
func (p *pen) shows(m float64) bool { return p.px(m) >= 2.4*float32(p.view.Scale) }

// begin and end frame one shape; end drops it if it lies off the picture.
func (p *pen) begin() int32 { return int32(len(p.list.Points)) }

func (p *pen) end(from int32, s Shape) {
	pts := p.list.Points[from:]
	lo, hi := Bounds(pts)
	m := s.Width
	if len(pts) < 2 || hi.X < -m || hi.Y < -m || lo.X > p.view.W+m || lo.Y > p.view.H+m {
		p.list.Points = p.list.Points[:from]
		return
	}
	s.From, s.To = from, int32(len(p.list.Points))
	if s.Alpha == 0 {
		s.Alpha = p.alpha
	}
	p.list.Shapes = append(p.list.Shapes, s)
}

// Bounds returns the least and the greatest coordinates of points, or nothing of
// none.
func Bounds(pts []Pt) (lo, hi Pt) {
	if len(pts) == 0 {
		return
	}
	lo, hi = pts[0], pts[0]
	for _, q := range pts[1:] {
		// Plain comparisons: min and max of numbers with a point are calls in
		// WebAssembly.
		if q.X < lo.X {
			lo.X = q.X
		} else if q.X > hi.X {
			hi.X = q.X
		}
		if q.Y < lo.Y {
			lo.Y = q.Y
		} else if q.Y > hi.Y {
			hi.Y = q.Y
		}
	}
	return
}

func (p *pen) to(x, y float64) {
	p.list.Points = append(p.list.Points, p.view.Px(section.Point{X: x, Y: y}))
}

func (p *pen) through(pts []section.Point) {
	for _, q := range pts {
		p.to(q.X, q.Y)
	}
}

// fill paints the polygon.
func (p *pen) fill(t Tone, pts ...section.Point) {
	from := p.begin()
	p.through(pts)
	p.end(from, Shape{Tone: t})
}

// line strokes the polyline.
func (p *pen) line(w weight, t Tone, pts ...section.Point) {
	from := p.begin()
	p.through(pts)
	p.end(from, Shape{Tone: t, Width: p.width[w]})
}

// ring strokes the polygon.
func (p *pen) ring(w weight, t Tone, pts ...section.Point) {
	from := p.begin()
	p.through(pts)
	p.end(from, Shape{Tone: t, Width: p.width[w], Closed: true})
}

// circle strokes a circle.
func (p *pen) circle(w weight, t Tone, c section.Circle) {
	from := p.begin()
	p.arc(c, 0, 360)
	p.end(from, Shape{Tone: t, Width: p.width[w], Closed: true})
}

// disc fills a circle.
func (p *pen) disc(t Tone, c section.Circle) {
	from := p.begin()
	p.arc(c, 0, 360)
	p.end(from, Shape{Tone: t})
}

// bow strokes an arc from a to b degrees.
func (p *pen) bow(w weight, t Tone, c section.Circle, a, b float64) {
	from := p.begin()
	p.arc(c, a, b)
	p.end(from, Shape{Tone: t, Width: p.width[w]})
}

// arc puts points of a circle from a to b degrees, close enough to look round.
func (p *pen) arc(c section.Circle, a, b float64) {
	n := int(min(max(4*sqrt(p.px(c.R)), 10), 120) * float32(abs(b-a)) / 360)
	n = max(n, 2)
	for i := range n + 1 {
		q := polar(c, a+(b-a)*float64(i)/float64(n))
		p.to(q.X, q.Y)
	}
}
