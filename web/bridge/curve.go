package bridge

import (
	"iter"
	"math"
	"slices"

	"riddle/sim/ask/forecast"
	"riddle/sim/ask/study"
	"riddle/sim/read/readout"
	"riddle/sim/setup"
	"riddle/sim/trade/crop"
	"riddle/sim/trade/quantity"
)

// Curve is what each loss and broken grain would come to across the range of
// one setting, all else as it is: the mean of long runs, by the forecast.
type Curve struct {
	Field  string       `json:"field"`
	Unit   string       `json:"unit"`
	Digits int          `json:"digits"`
	Parts  int          `json:"parts"`
	From   float64      `json:"from"`
	To     float64      `json:"to"`
	Here   float64      `json:"here"`
	Usual  []Band       `json:"usual"`
	Points []CurvePoint `json:"points"` // those that are reckoned, by value
	Best   *CurveBest   `json:"best"`   // null where none worked
	Done   bool         `json:"done"`
}

// CurveBest is the best value among the points: that of least cost, or of the
// least of all losses.
type CurveBest struct {
	At      float64  `json:"at"`
	From    float64  `json:"from"`    // the values as good lie from here
	To      float64  `json:"to"`      // to there
	Loss    *float64 `json:"loss"`    // all losses there, %
	PerLand *float64 `json:"perLand"` // its cost, null where it was not by cost
	Land    string   `json:"land"`    // for how much land
}

// CurvePoint is the forecast at one value of the setting, %.
type CurvePoint struct {
	At      float64        `json:"at"`
	Loss    [rows]*float64 `json:"loss"` // in the order of the table of losses
	Broken  *float64       `json:"broken"`
	Plugged bool           `json:"plugged"`

	report readout.Report
}

// reckoning is a curve in the making.
type reckoning struct {
	field    *setup.Field
	base     setup.Setup
	from, to float64
	points   []CurvePoint // in base units
	next     func() (struct{}, bool)
	stop     func()
	done     bool
}

// Points of a curve; chosen for what a page can work out in a moment.
const (
	curveSteps = 12 // of the range
	closeUps   = 3  // times that the steps beside the best point are halved
)

// Curve returns the curve of a setting as far as it is reckoned, and has it
// reckoned if it is not the one in hand.
func (s *Session) Curve(name string) *Curve {
	f, c := setup.Find(name), s.machine.Crop()
	if f == nil || f.Switch() || !f.On(c) {
		return nil
	}
	if s.curve == nil || s.curve.field != f || !sameBut(f, s.curve.base, s.near(s.curve.base)) {
		s.startCurve(f, c)
	}
	scale, k := s.units.Scale(f.Unit, c.Name), control(f, &s.curve.base, &s.start, s.units)
	now := s.machine.Setup()
	out := &Curve{
		Field: f.Name, Unit: k.Unit, Digits: k.Digits, Parts: k.Parts, From: scale.Shown(s.curve.from), To: scale.Shown(s.curve.to), Here: scale.Shown(f.Get(&now)),
		Usual: k.Usual, Done: s.curve.done, Points: append([]CurvePoint{}, s.curve.points...),
	}
	out.Best = s.bestOf(out.Points, f, scale)
	for i := range out.Points {
		out.Points[i].At = scale.Shown(out.Points[i].At)
	}
	return out
}

// bestOf finds the best of the points, in base units, at the page's price.
func (s *Session) bestOf(points []CurvePoint, f *setup.Field, scale quantity.Scale) *CurveBest {
	c := curveOf(points)
	for i := range c.Points {
		s.priceAnew(&c.Points[i].Report)
	}
	best, ok := c.Best(f)
	if !ok {
		return nil
	}
	land, hectares := s.units.Land()
	out := &CurveBest{
		At: scale.Shown(best.At), From: scale.Shown(best.From), To: scale.Shown(best.To), Loss: c.Points[best.Point].Report.Loss.Total, Land: land,
	}
	if best.ByCost {
		cost := best.Value * hectares
		out.PerLand = &cost
	}
	return out
}

func curveOf(points []CurvePoint) (c study.Curve) {
	for i := range points {
		c.Points = append(c.Points, study.Point{Value: points[i].At, Report: points[i].report})
	}
	return c
}

// priceAnew works the money of a report out at the page's price; without a
// price there is none.
func (s *Session) priceAnew(r *readout.Report) {
	r.Money = readout.Money{}
	if s.price > 0 {
		r.Money = readout.MoneyOf(r, *s.prices())
	}
}

// sameBut reports whether two setups differ in nothing but a field and the seed.
func sameBut(f *setup.Field, a, b setup.Setup) bool {
	if a.Crop != b.Crop || f.Set(&a, f.Get(&b)) != nil {
		return false
	}
	a.Seed = b.Seed
	return a == b
}

func (s *Session) startCurve(f *setup.Field, c *crop.Crop) {
	if s.curve != nil {
		s.curve.stop()
	}
	r := &reckoning{field: f, base: s.machine.Setup()}
	r.from, r.to = shownRange(f, c, f.Get(&r.base))
	r.next, r.stop = iter.Pull(r.all)
	s.curve = r
}

// shownRange is over what a curve is drawn: the usual range and once and a half
// as much to both sides, and the present value, within what is legal.
func shownRange(f *setup.Field, c *crop.Crop, now float64) (from, to float64) {
	from, to = f.From, f.To
	if u, ok := f.Usual(c); ok {
		wide := 1.5 * (u.To - u.From)
		from, to = max(from, min(now, u.From-wide)), min(to, max(now, u.To+wide))
	}
	return from, to
}

// all reckons the points, from few to many so that the whole shape is there
// soon. It yields wherever the forecast draws breath.
func (r *reckoning) all(yield func(struct{}) bool) {
	gone := false
	goOn := func() bool {
		gone = gone || !yield(struct{}{})
		return !gone
	}
	ask := func(at float64) bool {
		set := r.base
		if r.field.Set(&set, at) != nil {
			return true
		}
		report, err := forecast.Report(set, forecast.WithBreath(goOn))
		if err == nil && !gone {
			r.put(at, &report)
		}
		return !gone
	}
	for _, k := range coarseFirst(curveSteps) {
		if !ask(r.from + (r.to-r.from)*float64(k)/curveSteps) {
			return
		}
	}
	for range closeUps {
		for _, at := range r.beside() {
			if !ask(at) {
				return
			}
		}
	}
	r.done = true
}

// beside lists the middles between the best point and the points next to it,
// where those lie more than two steps of the setting apart.
func (r *reckoning) beside() (list []float64) {
	best, ok := curveOf(r.points).Best(r.field)
	if !ok {
		return nil
	}
	for _, next := range [...]int{best.Point - 1, best.Point + 1} {
		if next < 0 || next >= len(r.points) {
			continue
		}
		if to := r.points[next].At; math.Abs(to-best.At) > 2*r.field.Step {
			list = append(list, (best.At+to)/2)
		}
	}
	return list
}

func (r *reckoning) put(at float64, report *readout.Report) {
	p := CurvePoint{At: at, Broken: report.Tank.Broken, Plugged: report.PluggedIn != nil, report: *report}
	for i := range lossRows {
		p.Loss[i] = lossRows[i].pct(report)
	}
	i, _ := slices.BinarySearchFunc(r.points, at, func(q CurvePoint, at float64) int {
		if q.At < at {
			return -1
		}
		return 1
	})
	r.points = slices.Insert(r.points, i, p)
}

// coarseFirst lists 0 to n: the ends, then the middles between those listed.
func coarseFirst(n int) (list []int) {
	seen := make([]bool, n+1)
	for step := n; ; step = int(math.Ceil(float64(step) / 2)) {
		for k := 0; k <= n; k += step {
			if !seen[k] {
				seen[k] = true
				list = append(list, k)
			}
		}
		if !seen[n] {
			seen[n] = true
			list = append(list, n)
		}
		if step == 1 {
			return list
		}
	}
}

// Reckon goes on with the curve until the time is spent; at least one breath.
func (s *Session) Reckon(spent func() bool) {
	for s.curve != nil && !s.curve.done {
		if _, more := s.curve.next(); !more {
			s.curve.done = true
		}
		if spent() {
			return
		}
	}
}

// reckons reports whether a curve is in the making.
func (s *Session) reckons() bool { return s.curve != nil && !s.curve.done }
