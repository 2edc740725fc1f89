package facts

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"riddle/sim/read/readout"
	"riddle/sim/setup"
	"riddle/testdata/published"
)

// threshing is the rows of threshing and walkers that speak of the whole
// machine.
func (m *machines) threshing() map[string]law {
	start := func(get reading) law { return func(c *published.Check) float64 { return val(get(m.of(of(c).Name))) } }
	steady := []float64{0.25, 0.5, 0.75, 1, 1.25, 1.5}
	return map[string]law{
		"TH-T10a": start(func(r *readout.Report) *float64 { return r.Concave.Separated }),
		"TH-T10b": func(c *published.Check) float64 {
			r := m.of(of(c).Name)
			return 100 - val(r.Concave.Separated) - val(r.Concave.Unthreshed)
		},
		"TH-T15a": func(c *published.Check) float64 {
			return trend(m.series(of(c).Name, walkerLoss, feedTimes, append(steady, 1.75, 2)...))
		},
		"TH-T15b": func(c *published.Check) float64 { return bends(m.series(of(c).Name, walkerLoss, feedTimes, steady...)) },
		"TH-T15d": func(c *published.Check) float64 { return bends(m.series(of(c).Name, processing, feedTimes, steady...)) },
		"TH-T19a": func(c *published.Check) float64 { return m.changed(c, broken, feedTimes(0.5)) },
		"TH-T19b": func(c *published.Check) float64 { return m.changed(c, processing, feedTimes(0.5)) },
		"TH-T27a": func(c *published.Check) float64 { // what leaves over what is fed
			r := m.of(of(c).Name)
			out := val(r.Tank.Kg) * (1 - val(r.Tank.Foreign)/100) / (1 - val(r.Loss.Processing)/100)
			return out / (val(r.Feed.GrainKgS) * r.WindowS)
		},
		"TH-T32b": m.extremes,
	}
}

// extremes asks machines that are set as far out as can be, and counts the
// losses that are no share.
func (m *machines) extremes(*published.Check) (bad float64) {
	for _, e := range []edit{
		func(s *setup.Setup) { s.Conditions.Yield, s.Settings.GroundSpeed = 0.3, 0.5 },
		func(s *setup.Setup) { s.Settings.CylinderSpeed, s.Settings.Clearance = 150, 60 },
		func(s *setup.Setup) { s.Settings.CylinderSpeed, s.Settings.Clearance = 1400, 2 },
		func(s *setup.Setup) { s.Settings.Fan = 200 },
		func(s *setup.Setup) { s.Settings.Fan = 1800 },
		func(s *setup.Setup) { s.Settings.Upper, s.Settings.Lower = 2, 1 },
		func(s *setup.Setup) { s.Conditions.Yield, s.Settings.GroundSpeed = 25, 14 },
	} {
		r := m.of("wheat", e)
		for _, p := range []*float64{r.Loss.Header, r.Loss.Unthreshed, r.Loss.Walker, r.Loss.Shoe, r.Loss.Processing, r.Loss.Total, r.Tank.Broken} {
			if p != nil && !(*p >= 0 && *p <= 100) {
				bad++
			}
		}
	}
	return bad
}

// cleaning is the rows of the shoe that speak of the whole machine.
func (m *machines) cleaning() map[string]law {
	return map[string]law{
		"CL-B7a": func(c *published.Check) float64 { _, loss := m.fans(c); return minima(loss) },
		"CL-B7b": func(c *published.Check) float64 { at, loss := m.fans(c); return at[least(loss)] },
		"CL-B7c": func(c *published.Check) float64 { _, loss := m.fans(c); return within(c, loss[0]/loss[least(loss)]) },
		"CL-B7d": func(c *published.Check) float64 {
			_, loss := m.fans(c)
			return within(c, loss[len(loss)-1]/loss[least(loss)])
		},
		"CL-B8a": func(c *published.Check) float64 { return trend(m.series(of(c).Name, shoeLoss, feedTimes, 0.5, 1, 1.5)) },
		"CL-B8b": func(c *published.Check) float64 { return bends(m.series(of(c).Name, shoeLoss, feedTimes, 0.5, 1, 1.5)) },
		"CL-B8c": func(c *published.Check) float64 {
			at := []float64{0.75, 1, 1.25, 1.5}
			return exponent(m.series(of(c).Name, mogFeed, feedTimes, at...), m.series(of(c).Name, shoeLoss, feedTimes, at...))
		},
		"CL-B9a": func(c *published.Check) float64 { return m.ratio(c, shoeLoss, ratioTimes(1.6)) },
		"CL-B9b": func(c *published.Check) float64 { return m.changed(c, foreignMatter, ratioTimes(1.6)) },
		"CL-C7a": func(c *published.Check) float64 {
			return trend(m.series(of(c).Name, shoeLoss, upperTimes, openings...))
		},
		"CL-C7b": func(c *published.Check) float64 {
			return trend(m.series(of(c).Name, foreignMatter, upperTimes, openings...))
		},
		"CL-C8a": func(c *published.Check) float64 {
			return trend(m.series(of(c).Name, tailings, lowerTimes, openings...))
		},
		"CL-C8b": func(c *published.Check) float64 {
			return trend(m.series(of(c).Name, foreignMatter, lowerTimes, openings...))
		},
	}
}

// openings at which a sieve is tried, over the start. Chosen.
var openings = []float64{0.75, 0.9, 1, 1.1, 1.25}

// fans tries the fan of a check's crop and returns the shoe loss by speed over
// the start.
func (m *machines) fans(c *published.Check) (at, loss []float64) {
	at = []float64{0.7, 0.8, 0.85, 0.9, 0.95, 1, 1.05, 1.1, 1.15, 1.2, 1.4}
	return at, m.series(of(c).Name, shoeLoss, fanTimes, at...)
}

func least(list []float64) (at int) {
	for i, v := range list {
		if v < list[at] {
			at = i
		}
	}
	return at
}

// minima counts the inner values that lie under both neighbours.
func minima(list []float64) (n float64) {
	for i := 1; i+1 < len(list); i++ {
		if list[i] < list[i-1] && list[i] <= list[i+1] {
			n++
		}
	}
	return n
}

// whole is how the machine behaves and what it loses, as bulletins tell it.
func (m *machines) whole() map[string]law {
	does := func(get reading, e edit) law {
		return func(c *published.Check) float64 { return m.changed(c, get, e) }
	}
	return map[string]law{
		"CR-B2c": func(c *published.Check) float64 { // a tenth of either on damage
			return sign(m.ratio(c, broken, cylinderTimes(1.1)) - m.ratio(c, broken, gapTimes(0.9)))
		},
		"CR-B3b": does(headerLoss, drier(3, 5)),
		"CR-B6a": func(c *published.Check) float64 {
			at := []float64{0.75, 1, 1.25, 1.5}
			return truth(exponent(m.series(of(c).Name, mogFeed, feedTimes, at...), m.series(of(c).Name, walkerLoss, feedTimes, at...)) > 1)
		},
		"CR-B7": does(walkerLoss, ratioTimes(1.6)),
		"CR-B8": func(c *published.Check) float64 {
			s, _ := setup.Default(of(c).Name)
			return sign(val(shoeLoss(m.ask(s, 0.95))) - val(shoeLoss(m.ask(s, 1))))
		},
		"CR-B10": func(c *published.Check) float64 {
			r := m.of(of(c).Name)
			return 100 * val(r.LossKgHa.Header) / val(r.LossKgHa.Total)
		},
		"CR-B11a": func(c *published.Check) float64 { return val(processing(m.of(of(c).Name))) },
		"CR-B11b": func(c *published.Check) float64 { return val(processing(m.of(of(c).Name, feedTimes(2)))) },
		"CR-B12": func(c *published.Check) float64 {
			r := m.of(of(c).Name, fanTimes(1.2))
			return truth(val(testWeight(r)) >= val(testWeight(m.of(of(c).Name))))
		},
		"CR-3.4-total":      func(c *published.Check) float64 { return within(c, val(totalLoss(m.of(of(c).Name)))) },
		"CR-3.4-processing": func(c *published.Check) float64 { return val(processing(m.of(of(c).Name))) },
		"CR-3.4-bushels": func(c *published.Check) float64 {
			return val(m.of(of(c).Name).LossBuAc.Total) - val(m.of(of(c).Name).LossBuAc.Header)
		},
	}
}

// signs is the trade's two tables of what rises and what falls.
func (m *machines) signs() map[string]law {
	return map[string]law{
		"TH-T24": m.rule, "CL-E2": m.rule,
	}
}

// sentence gives words a capital and a stop.
func sentence(text string) string {
	r, n := utf8.DecodeRuneInString(text)
	return string(unicode.ToUpper(r)) + strings.TrimSuffix(text[n:], ".") + "."
}
