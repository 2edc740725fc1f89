package facts

import (
	"math"

	"riddle/sim/num"
	"riddle/sim/setup"
	"riddle/sim/stage/design"
	"riddle/sim/stage/section"
	"riddle/sim/stage/thresh"
	"riddle/sim/trade/crop"
	"riddle/testdata/published"
)

// threshing is cylinder and concave.
var threshing = map[string]law{
	"TH-T1":  sumsToOne,
	"TH-T2":  closedAgainstSteps,
	"TH-T3":  separated,
	"TH-T4":  separated,
	"TH-T4a": unthreshed,
	"TH-T4c": free,
	"TH-T5a": func(c *published.Check) float64 { return sign(unthreshedAt(c, 0.5) - unthreshedAt(c, 0.25)) },
	"TH-T5b": func(c *published.Check) float64 { return sign(separatedAt(c, 0.5) - separatedAt(c, 0.25)) },
	"TH-T5c": func(c *published.Check) float64 { return densest(c.Input["lambda"], c.Input["beta"]) },
	"TH-T6a": func(c *published.Check) float64 {
		return thresh.BarSpeed(c.Input["rpm"], inches(c.Input["diameter_in"])) * 60 / feet(1)
	},
	"TH-T6b": func(c *published.Check) float64 {
		return thresh.BarSpeed(c.Input["rpm"], inches(c.Input["diameter_in"]))
	},
	"TH-T18": speedOverGap,

	"TH-T21-speed": func(c *published.Check) float64 { return thresh.BarSpeed(of(c).Start.CylinderSpeed, section.CylinderD) },
	"TH-T21-gap":   func(c *published.Check) float64 { return of(c).Start.Clearance },
	"TH-T23a": func(c *published.Check) float64 {
		_, rear := thresh.Gaps(of(c), of(c).Start.Clearance)
		return rear
	},
	"TH-T23b": func(c *published.Check) float64 {
		front, _ := thresh.Gaps(of(c), of(c).Start.Clearance)
		return front
	},
	"TH-T25a": func(c *published.Check) float64 { return ratedPower(of(c), 1) },
	"TH-T25b": func(c *published.Check) float64 {
		return ratedPower(of(c), 1) / (c.Input["idle_kw"] + c.Input["kwh_t"]*of(c).RatedMOG*3.6)
	},
	"TH-T32a": robust,

	"TH-2.2a": func(*published.Check) float64 { return section.CylinderD },
	"TH-2.2b": func(*published.Check) float64 { return section.InnerWidth },
	"TH-2.2c": func(*published.Check) float64 { return section.RaspBars },
	"TH-2.2d": func(*published.Check) float64 { return section.ConcaveTo - section.ConcaveFrom },
	"TH-2.2e": func(*published.Check) float64 { return section.ConcaveLength },
	"TH-2.2f": func(c *published.Check) float64 {
		front, rear := thresh.Gaps(of(c), of(c).Start.Clearance)
		return front / rear
	},
	"TH-2.2g": func(c *published.Check) float64 { return of(c).ChaffOut + of(c).ShortOut },
}

func unthreshed(c *published.Check) float64 {
	return thresh.Unthreshed(c.Input["lambda"], c.Input["x"])
}
func free(c *published.Check) float64 {
	return thresh.Free(c.Input["lambda"], c.Input["beta"], c.Input["x"])
}
func separated(c *published.Check) float64 { return separatedAt(c, c.Input["x"]) }
func separatedAt(c *published.Check, x float64) float64 {
	return thresh.Separated(c.Input["lambda"], c.Input["beta"], x)
}
func unthreshedAt(c *published.Check, x float64) float64 {
	return thresh.Unthreshed(c.Input["lambda"], x)
}

// sumsToOne returns the largest departure from 1 of what is unthreshed, free
// (by its own closed form, not as the rest) and separated, over many rates.
func sumsToOne(*published.Check) float64 {
	worst := 0.0
	for lambda := 0.5; lambda < 20; lambda += 0.7 {
		for beta := 0.3; beta < 20; beta += 0.91 {
			for x := 0.0; x < 1; x += 0.05 {
				f := float64(lambda*(num.Exp(-beta*x)-num.Exp(-lambda*x))) / (lambda - beta)
				sum := thresh.Unthreshed(lambda, x) + f + thresh.Separated(lambda, beta, x)
				worst = max(worst, math.Abs(sum-1))
			}
		}
	}
	return worst
}

// closedAgainstSteps returns the largest difference between the closed form and
// the differential equations, stepped by the classical method of Runge and
// Kutta.
func closedAgainstSteps(*published.Check) float64 {
	worst := 0.0
	for _, rate := range [][2]float64{{7.871, 3.919}, {4, 4}, {3, 9}, {0.4, 12}} {
		worst = max(worst, math.Abs(stepped(rate[0], rate[1], section.ConcaveLength)-
			thresh.Separated(rate[0], rate[1], section.ConcaveLength)))
	}
	return worst
}

// stepped integrates du = −λu, df = λu − βf, ds = βf to x.
func stepped(lambda, beta, x float64) float64 {
	const steps = 2000
	h := x / steps
	slope := func(y [3]float64) [3]float64 {
		freed, out := float64(lambda*y[0]), float64(beta*y[1])
		return [3]float64{-freed, freed - out, out}
	}
	along := func(y, k [3]float64, t float64) [3]float64 {
		for i := range y {
			y[i] += float64(k[i] * t)
		}
		return y
	}
	y := [3]float64{1, 0, 0}
	for range steps {
		a := slope(y)
		b := slope(along(y, a, h/2))
		c := slope(along(y, b, h/2))
		d := slope(along(y, c, h))
		for i := range y {
			y[i] += float64(h / 6 * (a[i] + float64(2*b[i]) + float64(2*c[i]) + d[i]))
		}
	}
	return y[2]
}

// densest returns where along the way most is separated, m: the peak of the
// slope of thresh.Separated, looked for by thirds.
func densest(lambda, beta float64) float64 {
	slope := func(x float64) float64 {
		const h = 1e-4
		return thresh.Separated(lambda, beta, x+h) - thresh.Separated(lambda, beta, x-h)
	}
	lo, hi := 0.0, 2.0
	for hi-lo > 1e-6 {
		a, b := lo+(hi-lo)/3, hi-(hi-lo)/3
		if slope(a) < slope(b) {
			lo = a
		} else {
			hi = b
		}
	}
	return (lo + hi) / 2
}

// factors returns the threshing laws' factors on their starting values under
// the feed, speed and gap of an input, each over the start and 1 if not given.
func factors(c *design.Fit, in map[string]float64) thresh.Rates {
	s, _ := setup.Default(c.Name)
	s.Conditions.BarWear = 0
	get := func(key string) float64 {
		if v, ok := in[key]; ok {
			return v
		}
		return 1
	}
	at := func(l thresh.Load) thresh.Rates { return thresh.RatesOf(c, &s, &crop.Condition{}, l) }
	now, then := at(thresh.Load{Speed: get("speed"), Gap: get("gap"), Feed: get("feed")}), at(thresh.Load{Speed: 1, Gap: 1, Feed: 1})
	return thresh.Rates{Lambda: now.Lambda / then.Lambda, Beta: now.Beta / then.Beta, Damage: now.Damage / then.Damage}
}

// speedOverGap compares what a tenth more bar speed and a tenth less gap do to
// the logarithm of damage.
func speedOverGap(c *published.Check) float64 {
	speed := factors(of(c), map[string]float64{"speed": 1.1}).Damage
	gap := factors(of(c), map[string]float64{"gap": 0.9}).Damage
	return num.Log(speed) / num.Log(gap)
}

// ratedPower returns the cylinder's power at a multiple of rated feed, kW.
func ratedPower(c *design.Fit, feed float64) float64 {
	s, _ := setup.Default(c.Name)
	return thresh.Power(c, &s.Settings, &crop.Condition{}, feed*c.RatedMOG)
}

// robust runs the threshing laws at the ends of what can be set and counts the
// results that are no number or no share.
func robust(*published.Check) float64 {
	bad := 0.0
	for _, name := range crop.Names() {
		c := fit(name)
		for _, rpm := range []float64{0, 150, 1400} {
			for _, gap := range []float64{0, 2, 60} {
				for _, feed := range []float64{0, 1e-9, 100} {
					bad += robustAt(c, rpm, gap, feed)
				}
			}
		}
	}
	return bad
}

func robustAt(c *design.Fit, rpm, gap, feed float64) (bad float64) {
	s, _ := setup.Default(c.Name)
	s.Settings.CylinderSpeed, s.Settings.Clearance = rpm, gap
	for _, moist := range []float64{-16, 0, 27} {
		cond := c.In(c.Start.GrainMoisture+moist, 80, 50, 50)
		r := thresh.RatesOf(c, &s, &cond, thresh.LoadOf(c, &s.Settings, rpm, feed))
		for _, v := range []float64{
			thresh.Unthreshed(r.Lambda, section.ConcaveLength), thresh.Separated(r.Lambda, r.Beta, section.ConcaveLength),
			r.Damage, r.Chaff, r.Short,
		} {
			if !(v >= 0 && v <= 1) {
				bad++
			}
		}
	}
	return bad
}
