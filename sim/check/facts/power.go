package facts

import (
	"math"

	"riddle/sim"
	"riddle/sim/read/readout"
	"riddle/sim/setup"
	"riddle/sim/stage/engine"
	"riddle/sim/stage/fault"
	"riddle/sim/stage/section"
	"riddle/sim/stage/shoe"
	"riddle/sim/stage/thresh"
	"riddle/sim/trade/crop"
	"riddle/testdata/published"
)

// power is the engine and what hangs on it.
func (m *machines) power() map[string]law {
	start := func(c *published.Check) *readout.Report { return m.of(of(c).Name) }
	return map[string]law{
		"EN-start": func(c *published.Check) float64 { return rotary(start(c)) },
		"EN-empty": func(c *published.Check) float64 { return idling(of(c).Name) },
		"EN-energy": func(c *published.Check) float64 { // kWh a tonne of MOG beyond driving it empty
			r := start(c)
			return (rotary(r) - idling(r.Crop)) / (val(r.Feed.MOGKgS) * 3.6)
		},
		"EN-share":   func(c *published.Check) float64 { return val(start(c).Power.Cylinder) / rotary(start(c)) },
		"EN-droop":   func(*published.Check) float64 { return 100 * (1 - settled(engine.Limit)) },
		"EN-driving": func(c *published.Check) float64 { return val(start(c).Power.Driving) / rotary(start(c)) },
		"EN-hill": func(c *published.Check) float64 {
			up := m.of(of(c).Name, func(s *setup.Setup) { s.Conditions.ForeSlope = c.Input["degrees"] })
			return val(up.Power.Driving) / val(start(c).Power.Driving)
		},
		"EN-faster": func(c *published.Check) float64 {
			return val(m.of(of(c).Name, feedTimes(c.Input["fast"])).Power.Total) / val(m.of(of(c).Name, feedTimes(c.Input["slow"])).Power.Total)
		},
	}
}

// rotary is all power but that of driving, of the chopper and of unloading, kW.
func rotary(r *readout.Report) float64 {
	w := &r.Power
	return val(w.Total) - val(w.Driving) - val(w.Chopper) - val(w.Unloading)
}

// idling is the rotary power of a machine at its starting settings that turns
// without crop, kW.
func idling(name string) float64 {
	s, err := setup.Default(name)
	if err != nil {
		return math.NaN()
	}
	s.Settings.Chopper = false
	air := shoe.BlastOf(section.UpperLength, s.Settings.Fan, s.Settings.Upper, s.Settings.Lower, [3]float64{}, [3]float64{})
	p := sim.PowerOf(crop.Find(name), &s, &fault.State{}, 1, thresh.Idle(s.Settings.CylinderSpeed), &air, sim.Flows{}, 0)
	return p.Total() - p.Driving
}

// settled is the speed over its set speed at which the engine gives kW.
func settled(kw float64) float64 {
	x, _ := engine.Settle(func(float64) float64 { return kw })
	return x
}

// saved is what a change takes off the engine's power, %.
func saved(before, after *readout.Report) float64 {
	return 100 * (1 - val(after.Power.Total)/val(before.Power.Total))
}
