package facts

import (
	"riddle/sim/num"
	"riddle/sim/stage/flow"
	"riddle/sim/stage/section"
	"riddle/sim/stage/shoe"
	"riddle/testdata/published"
)

// air is fan, sieves and mat as the air meets them.
var air = map[string]law{
	"CL-B1a": func(c *published.Check) float64 { return blast(c, c.Input["to"]).Flow / blast(c, c.Input["from"]).Flow },
	"CL-B1b": func(c *published.Check) float64 {
		return blast(c, c.Input["to"]).Pressure / blast(c, c.Input["from"]).Pressure
	},
	"CL-B1c": func(c *published.Check) float64 { // power of the air
		a, b := blast(c, c.Input["from"]), blast(c, c.Input["to"])
		return b.Flow * b.Pressure / (a.Flow * a.Pressure)
	},
	"CL-B2a": func(c *published.Check) float64 {
		open, shut := upperAt(c, c.Input["open"]), upperAt(c, c.Input["shut"])
		return sign(shut.Flow - open.Flow)
	},
	"CL-B2b": func(c *published.Check) float64 {
		open, shut := upperAt(c, c.Input["open"]), upperAt(c, c.Input["shut"])
		return sign(jet(shut, c.Input["shut"]) - jet(open, c.Input["open"]))
	},
	"CL-B4a": func(c *published.Check) float64 { b := empty(c); return sign(b.V[1] - b.V[0]) },
	"CL-B4b": func(c *published.Check) float64 { b := empty(c); return sign(b.V[2] - b.V[1]) },
	"CL-B4c": func(c *published.Check) float64 { return empty(c).V[1] },
	"CL-B4d": func(c *published.Check) float64 { return empty(c).V[2] },
	"CL-B5": func(c *published.Check) float64 {
		load, vmf := c.Input["load"], c.Input["vmf"]
		return shoe.MatResistance(load, vmf) * airDensity * vmf * vmf / 2
	},
	"CL-B6": phases,
	"CL-C6": func(*published.Check) float64 {
		const w = 2 * 3.141592653589793 * section.ShakeHz
		return section.ShakeAmplitude * w * w / flow.Gravity
	},
	"CL-3a": func(*published.Check) float64 { return section.ShakeHz },
	"CL-3b": func(*published.Check) float64 { return section.ShakeAmplitude * 1000 },
	"CL-3c": func(*published.Check) float64 { return section.ShakeAngle },
	"CL-3d": func(*published.Check) float64 { return section.UpperLength },
	"CL-3e": func(*published.Check) float64 { return section.BlastAngle },
}

func blast(c *published.Check, rpm float64) shoe.Blast {
	return shoe.BlastOf(section.UpperLength, rpm, c.Input["upper"], c.Input["lower"], [3]float64{}, [3]float64{})
}

func upperAt(c *published.Check, upper float64) shoe.Blast {
	return shoe.BlastOf(section.UpperLength, c.Input["rpm"], upper, c.Input["lower"], [3]float64{}, [3]float64{})
}

// jet is the air's speed in the gaps of the middle of the upper sieve, m/s.
func jet(b shoe.Blast, upper float64) float64 { return b.Vn[1] * section.UpperPitch / upper }

// empty is the blast through a crop's bare shoe at its starting settings.
func empty(c *published.Check) shoe.Blast {
	s := of(c).Start
	return shoe.BlastOf(section.UpperLength, s.Fan, s.Upper, s.Lower, [3]float64{}, [3]float64{})
}

// phases raises the air under a mat and reports whether it lies, opens and
// flies in this order without a step back.
func phases(c *published.Check) float64 {
	last := shoe.Opened(0, c.Input["vt"])
	if last != 0 {
		return 0
	}
	for v := 0.0; v < 2*c.Input["vt"]; v += 0.01 {
		now := shoe.Opened(v, c.Input["vt"])
		if now < last {
			return 0
		}
		last = now
	}
	return truth(last == 1)
}

// sieves is passage along the sieves.
var sieves = map[string]law{
	"CL-C2": func(c *published.Check) float64 { // the largest chance of anything that does not fit
		worst := 0.0
		for o := 1.0; o <= 24; o++ {
			for d := o; d < 30; d += 0.5 {
				worst = max(worst, shoe.PassUpper(o, d, 0, 8, 0), shoe.PassLower(o, d, 0, 8, 1, 1))
			}
		}
		return worst
	},
	"CL-C4-loss": func(c *published.Check) float64 {
		return 1 - separatedAt(c, c.Input["length"])
	},
	"CL-C4-peak": func(c *published.Check) float64 { return densest(c.Input["lambda"], c.Input["beta"]) },
	"CL-C4-gamma": func(c *published.Check) float64 { // equal rates: the gamma distribution of order 2
		x := c.Input["rate"] * c.Input["length"]
		same := *c
		same.Input = map[string]float64{"lambda": c.Input["rate"], "beta": c.Input["rate"]}
		return separatedAt(&same, c.Input["length"]) - (1 - num.Exp(-x)*(1+x))
	},
}
