package facts

import (
	"math"

	"riddle/sim/num"
	"riddle/sim/read/readout"
	"riddle/sim/setup"
	"riddle/sim/stage/section"
	"riddle/testdata/published"
)

// trials is what trials, surveys and grain samples found in whole machines,
// asked at the settings and conditions that they name.
func (m *machines) trials() map[string]law {
	return map[string]law{
		"WM-at":     m.at,
		"WM-ratio":  func(c *published.Check) float64 { return m.toFrom(c) },
		"WM-saving": func(c *published.Check) float64 { return 100 * (1 - m.toFrom(c)) },
		"WM-fuel":   func(c *published.Check) float64 { return c.Input["per_kwh"] * m.at(c) },

		"WM-chopper": m.chopper,

		"WM-moisture": func(c *published.Check) float64 { return m.least(c, "grain-moisture", broken, 14, 26, 1) },
		"WM-speed": func(c *published.Check) float64 {
			return barSpeed(m.least(c, "cylinder-speed", spoiled, 400, 1200, 40))
		},
		"WM-gap": func(c *published.Check) float64 { return m.least(c, "concave-clearance", spoiled, 4, 28, 1) },

		"WM-faster": m.faster,
		"WM-air":    func(c *published.Check) float64 { return empty(c).V[1] },
		"WM-front":  func(c *published.Check) float64 { return empty(c).V[0] },
		"WM-flow":   func(c *published.Check) float64 { return empty(c).Flow * section.InnerWidth },
	}
}

// asked names what a check can ask of a report; what is not here is a grade
// factor under its own key.
var asked = map[string]reading{
	"header": headerLoss, "unthreshed": unthreshedLoss, "walker": walkerLoss, "shoe": shoeLoss, "processing": processing, "total": totalLoss,
	"broken": broken, "foreign": foreignMatter, "mog": mogFeed,
	"header_bu":     func(r *readout.Report) *float64 { return r.LossBuAc.Header },
	"processing_bu": func(r *readout.Report) *float64 { return r.LossBuAc.Processing },
	"header_share":  func(r *readout.Report) *float64 { return over(r.LossKgHa.Header, r.LossKgHa.Total, 100) },
	"kwh_t":         func(r *readout.Report) *float64 { return r.Power.PerTonne },
	"kwh_ha":        func(r *readout.Report) *float64 { return over(r.Power.Total, r.Feed.AreaHaH, 1) },
}

func over(a, b *float64, times float64) *float64 {
	v := times * val(a) / val(b)
	return &v
}

// spoiled is what a cylinder that is set badly costs: grain broken and grain
// lost, %.
func spoiled(r *readout.Report) *float64 {
	v := val(r.Tank.Broken) + val(r.Loss.Processing)
	return &v
}

func barSpeed(rpm float64) float64 { return rpm * math.Pi * section.CylinderD / 60 }

// with sets the fields that a check's input names after a word in front, such
// as "to " or none.
func with(c *published.Check, word string) edit {
	return func(s *setup.Setup) {
		for i := range setup.Fields {
			f := &setup.Fields[i]
			if v, ok := c.Input[word+f.Name]; ok {
				if f.Set(s, v) != nil {
					s.Crop = "" // no machine: the check cannot be asked
				}
			}
		}
	}
}

// ofCheck takes what a check asks out of a report.
func (m *machines) ofCheck(c *published.Check, edits ...edit) float64 {
	get := asked[c.Of]
	if get == nil {
		get = func(r *readout.Report) *float64 { return r.Tank.GradeFactors[c.Of] }
	}
	return val(get(m.of(of(c).Name, edits...)))
}

func (m *machines) at(c *published.Check) float64 { return m.ofCheck(c, with(c, "")) }

// toFrom is what a check asks at its second setting over that at its first.
func (m *machines) toFrom(c *published.Check) float64 {
	return m.ofCheck(c, with(c, ""), with(c, "to ")) / m.ofCheck(c, with(c, ""), with(c, "from "))
}

// chopper is what a check asks with the chopper on less that with it off, in the
// fuel of its input, a tonne of grain and straw together.
func (m *machines) chopper(c *published.Check) float64 {
	feed := m.of(of(c).Name).Feed
	share := val(feed.GrainKgS) / (val(feed.GrainKgS) + val(feed.MOGKgS))
	return c.Input["per_kwh"] * share * (m.ofCheck(c, with(c, "from ")) - m.ofCheck(c, with(c, "to ")))
}

// flatness is the share over its least up to which a reading counts as least: where
// the bottom of a curve is flat, its place is known no better. Chosen.
const flatness = 0.01

// least returns where between two ends a reading is least, stepping through: the
// middle of where it lies within flatness of its least.
func (m *machines) least(c *published.Check, field string, get reading, from, to, step float64) float64 {
	f := setup.Find(field)
	at, list, best := []float64{}, []float64{}, math.Inf(1)
	for i := 0.0; from+float64(i*step) <= to; i++ {
		x := from + float64(i*step)
		v := val(get(m.of(of(c).Name, with(c, ""), func(s *setup.Setup) { _ = f.Set(s, x) })))
		at, list, best = append(at, x), append(list, v), min(best, v)
	}
	low, high := math.NaN(), math.NaN()
	for i, v := range list {
		if v > best*(1+flatness) {
			continue
		}
		if math.IsNaN(low) {
			low = at[i]
		}
		high = at[i]
	}
	return (low + high) / 2
}

// faster looks for the ground speed at which a check's reading is that of its
// input, and returns the reading at that speed times another.
func (m *machines) faster(c *published.Check) float64 {
	read := func(times float64) float64 { return m.ofCheck(c, with(c, ""), feedTimes(times)) }
	lo, hi := 0.2, 3.0
	for range 30 {
		if mid := (lo + hi) / 2; read(mid) < c.Input["loss"] {
			lo = mid
		} else {
			hi = mid
		}
	}
	return read(num.Clamp(lo*c.Input["times"], 0, 5))
}

// within holds a value against the limit of a check's input.
func within(c *published.Check, v float64) float64 {
	if most, ok := c.Input["most"]; ok {
		return truth(v <= most)
	}
	return truth(v >= c.Input["least"])
}
