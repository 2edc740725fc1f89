package facts

import (
	"math"

	"riddle/sim/num"
	"riddle/sim/stage/flow"
	"riddle/testdata/published"
)

// numbers is the machine's own functions of real numbers, and its draws.
var numbers = map[string]law{
	"NU-phi": func(c *published.Check) float64 { return num.Phi(c.Input["x"]) },
	"NU-pdf": func(c *published.Check) float64 { return num.NormalPDF(c.Input["x"]) },
	"NU-exp": func(c *published.Check) float64 { return num.Exp(c.Input["x"]) },
	"NU-log": func(c *published.Check) float64 { return num.Log(c.Input["x"]) },
	"NU-sin": func(c *published.Check) float64 { return num.Sin(c.Input["degrees"] * math.Pi / 180) },
	"NU-cos": func(c *published.Check) float64 { return num.Cos(c.Input["degrees"] * math.Pi / 180) },
	"NU-pow": func(c *published.Check) float64 { return num.Pow(c.Input["x"], c.Input["y"]) },
	"NU-gravity": func(*published.Check) float64 {
		return flow.Gravity
	},
	"NU-normal-mean": func(c *published.Check) float64 { mean, _ := drawn(c); return mean },
	"NU-normal-sd":   func(c *published.Check) float64 { _, sd := drawn(c); return sd },
	"NU-wait": func(c *published.Check) float64 { // mean distance to the next event
		const draws = 100000
		rng, sum := flow.NewStream(1, 5), 0.0
		for range draws {
			sum += rng.Wait(c.Input["rate"])
		}
		return sum / draws
	},
	"NU-chance": func(c *published.Check) float64 { // share of steps in which a thing happens
		const draws = 200000
		rng, n := flow.NewStream(1, 6), 0.0
		for range draws {
			if rng.HappensAt(float32(c.Input["x"])) {
				n++
			}
		}
		return n / draws
	},
}

// drawn returns mean and standard deviation of many normal draws.
func drawn(c *published.Check) (mean, sd float64) {
	const draws = 100000
	rng := flow.NewStream(1, 4)
	sum, squares := 0.0, 0.0
	for range draws {
		v := float64(rng.Normal(c.Input["mean"], c.Input["sd"]))
		sum += v
		squares += float64(v * v)
	}
	mean = sum / draws
	return mean, math.Sqrt(squares/draws - float64(mean*mean))
}
