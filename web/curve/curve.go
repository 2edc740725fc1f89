// Package curve computes what each loss would come to across the range of the
// setting in hand, a slice at a time, by the forecast.
package curve

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
	"riddle/web/controls"
	"riddle/web/reading"
	"riddle/web/speak"
)

// Curve is what each loss and broken grain would come to across the range of
// one setting, all else as it is: the mean of long runs, by the forecast.
type Curve struct {
	Field  string           `json:"field"`
	Unit   string           `json:"unit"`
	Digits int              `json:"digits"`
	Parts  int              `json:"parts"`
	From   float64          `json:"from"`
	To     float64          `json:"to"`
	Here   float64          `json:"here"`
	Usual  []controls.Band  `json:"usual"`
	Points []Point          `json:"points"` // those that are computed, by value
	Best   *Best            `json:"best"`   // null where none worked
	Text   []*speak.Message `json:"text"`   // which value is the best, once all is worked out
	Done   bool             `json:"done"`
}

// Best is the best value among the points: that of least cost, or of the
// least of all losses.
type Best struct {
	At      float64  `json:"at"`
	From    float64  `json:"from"`    // the values as good lie from here
	To      float64  `json:"to"`      // to there
	Loss    *float64 `json:"loss"`    // all losses there, %
	PerLand *float64 `json:"perLand"` // its cost, null where it was not by cost
	Land    string   `json:"land"`    // for how much land

	best study.Best // in base units
}

// Point is the forecast at one value of the setting, %.
type Point struct {
	At      float64                    `json:"at"`
	Loss    [reading.RowCount]*float64 `json:"loss"` // in the order of the table of losses
	Broken  *float64                   `json:"broken"`
	Plugged bool                       `json:"plugged"`

	Report readout.Report `json:"-"`
}

// job is a curve in the making.
type job struct {
	field    *setup.Field
	base     setup.Setup
	from, to float64
	points   []Point // in base units
	next     func() (struct{}, bool)
	stop     func()
	done     bool
}

// Points of a curve; chosen for what a page can work out in a moment.
const (
	Steps    = 12 // of the range
	CloseUps = 3  // times that the steps beside the best point are halved
)

// Machine is what a curve is of: a machine as it is set now, and from where it
// was started.
type Machine struct {
	Now, Start setup.Setup
	// Near returns Now with what the field along the way has moved by less than a
	// step as it was in base: so little does not make another machine.
	Near   func(base setup.Setup) setup.Setup
	Reader reading.Reader // its units and price
}

// Hand holds the curve of the setting in hand.
type Hand struct{ curve *job }

// Curve returns the curve of a setting as far as it is computed, and has it
// computed if it is not the one in hand.
func (h *Hand) Curve(name string, of *Machine) *Curve {
	f, c := setup.Find(name), crop.Find(of.Now.Crop)
	if f == nil || f.Switch() || !f.On(c) {
		return nil
	}
	if h.curve == nil || h.curve.field != f || !sameBut(f, h.curve.base, of.Near(h.curve.base)) {
		h.start(f, c, of.Now)
	}
	r := h.curve
	scale, k := of.Reader.System.Scale(f.Unit, c.Name), controls.Of(f, &r.base, &of.Start, of.Reader.System)
	out := &Curve{
		Field: f.Name, Unit: k.Unit, Digits: k.Digits, Parts: k.Parts, From: scale.Shown(r.from), To: scale.Shown(r.to), Here: scale.Shown(f.Get(&of.Now)),
		Usual: k.Usual, Done: r.done, Points: append([]Point{}, r.points...),
	}
	out.Best = bestOf(of.Reader, out.Points, f, scale)
	if r.done {
		out.Text = out.Best.words(of.Reader.Units, f, f.Get(&of.Now))
	}
	for i := range out.Points {
		out.Points[i].At = scale.Shown(out.Points[i].At)
	}
	return out
}

// bestOf finds the best of the points, in base units, at the page's price.
func bestOf(rd reading.Reader, points []Point, f *setup.Field, scale quantity.Scale) *Best {
	c := curveOf(points)
	for i := range c.Points {
		rd.PriceAnew(&c.Points[i].Report)
	}
	best, ok := c.Best(f)
	if !ok {
		return nil
	}
	land, hectares := rd.System.Land()
	out := &Best{
		At: scale.Shown(best.At), From: scale.Shown(best.From), To: scale.Shown(best.To), Loss: c.Points[best.Point].Report.Loss.Total, Land: land,
	}
	out.best = best
	if best.ByCost {
		cost := best.Value * hectares
		out.PerLand = &cost
	}
	return out
}

// words say which value is the best one, by cost or by all losses, where the
// setting stands, and which values are as good.
func (b *Best) words(u speak.Units, f *setup.Field, here float64) []*speak.Message {
	if b == nil {
		return []*speak.Message{speak.Say("curve.none")}
	}
	with := speak.With{"share": speak.Q{V: b.Loss, D: 1}, "at": u.Value(f, b.best.At), "here": u.Value(f, here)}
	least := speak.Say("curve.least", with)
	if b.PerLand != nil {
		with["cost"] = speak.Sum{Money: *b.PerLand, Per: b.Land}
		least = speak.Say("curve.cheapest", with)
	}
	text := []*speak.Message{least}
	if b.From < b.To {
		text = append(text, speak.Say("curve.alike", speak.With{"from": u.Value(f, b.best.From), "to": u.Value(f, b.best.To)}))
	}
	return text
}

func curveOf(points []Point) (c study.Curve) {
	for i := range points {
		c.Points = append(c.Points, study.Point{Value: points[i].At, Report: points[i].Report})
	}
	return c
}

// sameBut reports whether two setups differ in nothing but a field and the seed.
func sameBut(f *setup.Field, a, b setup.Setup) bool {
	if a.Crop != b.Crop || f.Set(&a, f.Get(&b)) != nil {
		return false
	}
	a.Seed = b.Seed
	return a == b
}

func (h *Hand) start(f *setup.Field, c *crop.Crop, now setup.Setup) {
	if h.curve != nil {
		h.curve.stop()
	}
	r := &job{field: f, base: now}
	r.from, r.to = shownRange(f, c, f.Get(&r.base))
	r.next, r.stop = iter.Pull(r.all)
	h.curve = r
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

// all computes the points, from few to many so that the whole shape is there
// soon. It yields between the forecast's rounds.
func (r *job) all(yield func(struct{}) bool) {
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
		report, err := forecast.Report(set, forecast.WithPause(goOn))
		if err == nil && !gone {
			r.put(at, &report)
		}
		return !gone
	}
	for _, k := range coarseFirst(Steps) {
		if !ask(r.from + (r.to-r.from)*float64(k)/Steps) {
			return
		}
	}
	for range CloseUps {
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
func (r *job) beside() (list []float64) {
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

func (r *job) put(at float64, report *readout.Report) {
	p := Point{At: at, Broken: report.Tank.Broken, Plugged: report.PluggedIn != nil, Report: *report}
	for i := range reading.Rows {
		p.Loss[i] = reading.Rows[i].Percent(report)
	}
	i, _ := slices.BinarySearchFunc(r.points, at, func(q Point, at float64) int {
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

// Work goes on with the curve until the time is spent; at least one slice.
func (h *Hand) Work(spent func() bool) {
	for h.curve != nil && !h.curve.done {
		if _, more := h.curve.next(); !more {
			h.curve.done = true
		}
		if spent() {
			return
		}
	}
}

// Making reports whether a curve is in the making.
func (h *Hand) Making() bool { return h.curve != nil && !h.curve.done }
