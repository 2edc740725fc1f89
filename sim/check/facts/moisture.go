package facts

import (
	"math"

	"riddle/sim/num"
	"riddle/sim/trade/crop"
	"riddle/sim/trade/weather"
	"riddle/testdata/published"
)

// moisture is the moisture of grain in the air of a day.
var moisture = map[string]law{
	"CR-S4":           equilibrium,
	"CR-S5":           equilibrium,
	"CR-S6":           equilibrium,
	"CR-S7":           equilibrium,
	"CR-4.4-worked":   equilibrium,
	"CR-4.4-cromarty": equilibrium,
	"CR-4.4-coleman":  equilibrium,
	"CR-4.4-rule": func(c *published.Check) float64 {
		warm := *c
		warm.Input = map[string]float64{"c": c.Input["c"] + 10, "rh": c.Input["rh"]}
		return equilibrium(c) - equilibrium(&warm)
	},
	"CR-S11a": steadiness,
	"CR-S11b": roundTrip,
	"CR-S12": func(c *published.Check) float64 {
		i := weather.Isotherm{Form: weather.Henderson, A: c.Input["k"], B: c.Input["n"], C: c.Input["c0"], Most: 0.9}
		return weather.WetBasis(i.Moisture(c.Input["c"], c.Input["rh"]))
	},
	"CR-S13c": func(c *published.Check) float64 {
		a, b := otherForm(c.Input)
		i := weather.Isotherm{Form: weather.ChungPfost, A: a, B: b, C: c.Input["c0"], Most: 0.95}
		worst := 0.0
		for rh := 0.1; rh < 0.95; rh += 0.05 {
			for t := 0.0; t <= 40; t += 5 {
				m := 100 * (c.Input["e"] - float64(c.Input["f0"]*num.Log(-(t+c.Input["c0"])*num.Log(rh))))
				worst = max(worst, math.Abs(i.Moisture(t, rh)-m))
			}
		}
		return worst
	},
}

// celsius is the temperature of a check, given in °C or in °F.
func celsius(c *published.Check) float64 {
	if f, ok := c.Input["f"]; ok {
		return (f - 32) / 1.8
	}
	return c.Input["c"]
}

// equilibrium is the moisture that the air of a check brings the crop's grain
// to, % wet basis.
func equilibrium(c *published.Check) float64 {
	h := weather.HabitOf(c.Crop)
	if h == nil {
		return math.NaN()
	}
	return weather.WetBasis(h.Grain.Moisture(celsius(c), c.Input["rh"]))
}

// isotherms calls f for every crop that has one, over temperatures and
// humidities inside its range.
func isotherms(f func(i *weather.Isotherm, t, rh float64)) {
	for _, name := range crop.Names() {
		h := weather.HabitOf(name)
		if h == nil {
			continue
		}
		for t := 0.0; t <= 35; t += 5 {
			for rh := 0.1; rh+0.05 <= h.Grain.Most; rh += 0.05 {
				f(&h.Grain, t, rh)
			}
		}
	}
}

// steadiness counts where moisture fails to rise with humidity or rises with
// temperature.
func steadiness(*published.Check) (wrong float64) {
	isotherms(func(i *weather.Isotherm, t, rh float64) {
		if !(i.Moisture(t, rh+0.05) > i.Moisture(t, rh)) || i.Moisture(t+5, rh) > i.Moisture(t, rh) {
			wrong++
		}
	})
	return wrong
}

// roundTrip returns the largest difference of a humidity and that of its own
// moisture.
func roundTrip(*published.Check) (worst float64) {
	isotherms(func(i *weather.Isotherm, t, rh float64) {
		worst = max(worst, math.Abs(i.Humidity(t, i.Moisture(t, rh))-rh))
	})
	return worst
}

// otherForm turns the coefficients of M = E − F ln(−(T+C) ln R) into those of
// R = e^(−A/(T+C) e^(−B M)), M in %.
func otherForm(in map[string]float64) (a, b float64) {
	return num.Exp(in["e"] / in["f0"]), 1 / (100 * in["f0"])
}
