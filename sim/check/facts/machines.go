package facts

import (
	"math"

	"riddle/sim/ask/forecast"
	"riddle/sim/check/rules"
	"riddle/sim/num"
	"riddle/sim/read/readout"
	"riddle/sim/setup"
	"riddle/sim/trade/crop"
	"riddle/testdata/published"
)

// machines is the whole machine, as checks ask it: by the forecast, and for a
// few by a short run. What was asked once is remembered.
type machines struct {
	asked   map[question]*readout.Report
	rules   []rules.Rule
	results map[ruling]rules.Result
	short   *short
}

type question struct {
	set    setup.Setup
	engine float64 // share of its set speed
}

// ruling is a rule asked in a crop.
type ruling struct{ crop, rule string }

func newMachines() *machines {
	return &machines{asked: map[question]*readout.Report{}, rules: rules.All(), results: map[ruling]rules.Result{}}
}

// ask returns the forecast of a machine; one that cannot be made is empty.
func (m *machines) ask(s setup.Setup, engine float64) *readout.Report {
	q := question{s, engine}
	if r := m.asked[q]; r != nil {
		return r
	}
	var options []forecast.Option
	if engine != 1 {
		options = append(options, forecast.WithEngine(engine))
	}
	r, err := forecast.Report(s, options...)
	if err != nil {
		r = readout.Report{}
	}
	m.asked[q] = &r
	return &r
}

// edit changes a machine.
type edit func(*setup.Setup)

// of returns the forecast of a crop's starting machine, changed.
func (m *machines) of(name string, edits ...edit) *readout.Report {
	s, err := setup.Default(name)
	if err != nil {
		return &readout.Report{}
	}
	for _, e := range edits {
		e(&s)
	}
	return m.ask(s, 1)
}

func feedTimes(x float64) edit {
	return func(s *setup.Setup) { s.Settings.GroundSpeed = num.Clamp(s.Settings.GroundSpeed*x, 0.5, 14) }
}
func fanTimes(x float64) edit      { return func(s *setup.Setup) { s.Settings.Fan *= x } }
func upperTimes(x float64) edit    { return func(s *setup.Setup) { s.Settings.Upper *= x } }
func lowerTimes(x float64) edit    { return func(s *setup.Setup) { s.Settings.Lower *= x } }
func cylinderTimes(x float64) edit { return func(s *setup.Setup) { s.Settings.CylinderSpeed *= x } }
func gapTimes(x float64) edit      { return func(s *setup.Setup) { s.Settings.Clearance *= x } }
func ratioTimes(x float64) edit    { return func(s *setup.Setup) { s.Conditions.MOGRatio *= x } }

// drier takes moisture out of grain and straw, as far as can be set.
func drier(grain, straw float64) edit {
	return func(s *setup.Setup) {
		s.Conditions.GrainMoisture = max(s.Conditions.GrainMoisture-grain, 4)
		s.Conditions.StrawMoisture = max(s.Conditions.StrawMoisture-straw, 4)
	}
}

// reading takes one value out of a report.
type reading func(*readout.Report) *float64

func unthreshedLoss(r *readout.Report) *float64 { return r.Loss.Unthreshed }
func walkerLoss(r *readout.Report) *float64     { return r.Loss.Walker }
func shoeLoss(r *readout.Report) *float64       { return r.Loss.Shoe }
func processing(r *readout.Report) *float64     { return r.Loss.Processing }
func headerLoss(r *readout.Report) *float64     { return r.Loss.Header }
func totalLoss(r *readout.Report) *float64      { return r.Loss.Total }
func broken(r *readout.Report) *float64         { return r.Tank.Broken }
func foreignMatter(r *readout.Report) *float64  { return r.Tank.Foreign }
func tailings(r *readout.Report) *float64       { return r.Returns.OfGrain }
func mogFeed(r *readout.Report) *float64        { return r.Feed.MOGKgS }
func testWeight(r *readout.Report) *float64     { return r.Tank.TestWeight }

// val is a value, or NaN where there is none.
func val(p *float64) float64 {
	if p == nil {
		return math.NaN()
	}
	return *p
}

// series reads a crop's machine at several changes.
func (m *machines) series(name string, get reading, change func(x float64) edit, at ...float64) []float64 {
	list := make([]float64, len(at))
	for i, x := range at {
		list[i] = val(get(m.of(name, change(x))))
	}
	return list
}

// trend is 1 for a series that rises all the way, −1 for one that falls, else
// 0.
func trend(list []float64) float64 {
	up, down := true, true
	for i := 1; i < len(list); i++ {
		up = up && list[i] > list[i-1]
		down = down && list[i] < list[i-1]
	}
	return truth(up) - truth(down)
}

// bends counts the second differences of evenly spaced values that are not
// above zero.
func bends(list []float64) (n float64) {
	for i := 1; i+1 < len(list); i++ {
		if !(list[i+1]-2*list[i]+list[i-1] > 0) {
			n++
		}
	}
	return n
}

// exponent fits y = a x^b by least squares of the logarithms and returns b.
func exponent(x, y []float64) float64 {
	n, sx, sy, sxx, sxy := float64(len(x)), 0.0, 0.0, 0.0, 0.0
	for i := range x {
		u, v := num.Log(x[i]), num.Log(y[i])
		sx, sy, sxx, sxy = sx+u, sy+v, sxx+float64(u*u), sxy+float64(u*v)
	}
	return (n*sxy - sx*sy) / (n*sxx - sx*sx)
}

// changed is the sign of what a change does to a reading of a check's crop.
func (m *machines) changed(c *published.Check, get reading, e edit) float64 {
	return sign(val(get(m.of(of(c).Name, e))) - val(get(m.of(of(c).Name))))
}

// ratio is a reading after a change over that before.
func (m *machines) ratio(c *published.Check, get reading, e edit) float64 {
	return val(get(m.of(of(c).Name, e))) / val(get(m.of(of(c).Name)))
}

// rule returns what the machine answers a rule of the trade, in each crop that
// it is asked in: the sign where all agree, else that of the crop that does
// not.
func (m *machines) rule(c *published.Check) float64 {
	got := math.NaN()
	crops := ruleCrops
	if c.Crop != "" {
		crops = []string{c.Crop}
	}
	for _, name := range crops {
		r, ok := m.answer(name, c.ID)
		if !ok {
			continue
		}
		got = float64(r.Got)
		if got != c.Expected {
			break
		}
	}
	return got
}

// ruleCrops are the crops in which this list asks the rules: one with straw,
// one with pods, one with ears. The rules' own test asks them in all eight.
var ruleCrops = []string{"wheat", "soybeans", "corn"}

// answer holds one rule against the machine in a crop.
func (m *machines) answer(name, id string) (rules.Result, bool) {
	key := ruling{name, id}
	if r, ok := m.results[key]; ok {
		return r, r.Rule != nil
	}
	var found rules.Result
	for i := range m.rules {
		r := &m.rules[i]
		if asked, _ := r.Asked(); r.ID != id || !asked || !r.Applies(crop.Find(name)) {
			continue
		}
		if result, err := r.Check(m.read, name); err == nil {
			found = result
		}
	}
	m.results[key] = found
	return found, found.Rule != nil
}

func (m *machines) read(s setup.Setup, engine float64) (readout.Report, error) {
	return *m.ask(s, engine), nil
}

// why says why a rule does not hold, where the rules know it.
func (m *machines) why(id string) string {
	for _, name := range ruleCrops {
		if r, ok := m.results[ruling{name, id}]; ok && r.Rule != nil && !r.Holds && r.Why != "" {
			return "In " + name + ": " + r.Why + "."
		}
	}
	for i := range m.rules {
		r := &m.rules[i]
		if ok, why := r.Asked(); r.ID == id && !ok {
			return sentence(why)
		}
	}
	return ""
}
