package facts

import (
	"riddle/sim/read/measure"
	"riddle/sim/stage/thresh"
	"riddle/testdata/published"
)

// speed is rates of work, reels and what speed costs.
var speed = map[string]law{
	"CR-S1": func(c *published.Check) float64 {
		return thresh.BarSpeed(c.Input["rpm"], inches(c.Input["diameter_in"])) * 60 / feet(1)
	},
	"CR-S8":  acresAnHour,
	"CR-S8c": lossCost,
	"CR-S9":  acresAnHour,
	"CR-S9c": func(c *published.Check) float64 {
		return measure.LossCost(c.Input["acres"], c.Input["loss"], c.Input["price"])
	},
	"CR-S9d": func(c *published.Check) float64 { // with the hours that are printed
		f := faster(c.Input)
		return f.Net() + (f.HoursSaved()-c.Input["hours"])*f.Hour
	},
	"CR-S9e":      func(c *published.Check) float64 { return faster(c.Input).HoursSaved() },
	"CR-X2":       acresAnHour,
	"CR-X2c":      lossCost,
	"CR-5.4-rule": func(*published.Check) float64 { return 1 / measure.AcresAnHour(1, 1, 1) },
}

func acresAnHour(c *published.Check) float64 {
	return measure.AcresAnHour(c.Input["mph"], c.Input["ft"], c.Input["efficiency"])
}

func lossCost(c *published.Check) float64 {
	return measure.LossCost(acresAnHour(c), c.Input["bu"], c.Input["price"])
}

func faster(in map[string]float64) measure.Faster {
	return measure.Faster{
		Acres: in["acres"], Slow: measure.AcresAnHour(in["slow"], in["ft"], 1), Fast: measure.AcresAnHour(in["fast"], in["ft"], 1),
		SlowLoss: in["slow_loss"], FastLoss: in["fast_loss"], Price: in["price"], Hour: in["hour"],
	}
}
