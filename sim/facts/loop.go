package facts

import (
	"math"

	"riddle/sim/crop"
	"riddle/sim/flow"
	"riddle/sim/num"
	"riddle/sim/returns"
	"riddle/sim/section"
	"riddle/sim/setup"
	"riddle/testdata/published"
)

// loop is the returns.
var loop = map[string]law{
	"CL-D1a": func(c *published.Check) float64 { return passes(c.Input).pieces },
	"CL-D1b": func(c *published.Check) float64 { return passes(c.Input).grain },
	"CL-D1c": func(c *published.Check) float64 { return 100 * passes(c.Input).lost },
	"CL-D1d": func(c *published.Check) float64 { return 100 * passes(c.Input).tank },
	"CL-D1e": func(c *published.Check) float64 { p := passes(c.Input); return p.lost + p.tank },
	"CL-D2":  circulating,
	"CL-D3":  func(c *published.Check) float64 { g, _ := crowded(c.Input["single"], 1e6); return g },
	"CL-D4a": func(c *published.Check) float64 { g, _ := crowded(c.Input["single"], 1e6); return g },
	"CL-D4b": func(c *published.Check) float64 {
		_, settles := crowded(c.Input["single"], 1e6)
		return truth(!settles)
	},
	"CL-D5": func(c *published.Check) float64 { return 100 * cracked(c.Input) },
	"CL-4a": func(c *published.Check) float64 { return linear(c.Input["r0"], c.Input["k"]) },
}

type passed struct{ pieces, grain, lost, tank float64 }

// passes follows one kilogram of crop around the loop pass by pass until
// nothing is left of it, and returns what went over the shoe in all.
func passes(in map[string]float64) passed {
	var p passed
	free, headed := in["free"], in["headed"]
	for free+headed > 1e-15 {
		p.grain += free
		p.pieces += headed
		p.lost += float64(in["lost"]*free) + float64((1-in["caught"])*headed)
		p.tank += float64((1 - in["lost"] - in["returned"]) * free)
		back := float64(in["caught"] * headed)
		free, headed = float64(in["returned"]*free)+float64(in["opened"]*back), float64((1-in["opened"])*back)
	}
	return p
}

// crowded lets grain come to a lower sieve that it crowds, pass by pass, where
// a share e^(−B/G) comes back of the load G, and returns the load at which it
// settles; it does not settle where it passes most.
func crowded(single, most float64) (load float64, settles bool) {
	b := -num.Log(single)
	g := 1.0
	for range 2000000 {
		next := 1 + float64(g*num.Exp(-b/g))
		if next > most {
			return next, false
		}
		if math.Abs(next-g) < 1e-10 {
			return next, true
		}
		g = next
	}
	return g, false
}

// linear is the same for a share r0 + kG.
func linear(r0, k float64) float64 {
	g := 1.0
	for range 100000 {
		g = 1 + float64(g*(r0+float64(k*g)))
	}
	return g
}

// cracked returns the share of cracked grain in the tank where each pass
// through the cylinder cracks a share, summed over the passes.
func cracked(in map[string]float64) float64 {
	sound, share, sum := 1-in["first"], 1.0, 0.0
	for share > 1e-14 {
		sum += float64(share * (1 - in["returned"]) * (1 - sound))
		share *= in["returned"]
		sound *= 1 - in["pass"]
	}
	return sum
}

// circulating feeds the machine's own returns at a steady rate, sends a fixed
// share of what they deliver back into them, and returns what they deliver in
// the last quarter of the time over what is fed: 1/(1 − r) when it has settled.
func circulating(c *published.Check) float64 {
	const hz, seconds = 120, 80
	k := crop.Find("wheat")
	stage, set := returns.New(k), setup.Setup{}
	rng := flow.NewStream(1, 7)
	auger := float32(section.ReturnsAuger.Centre.X)
	fresh := flow.Dot{Kind: flow.Sound, Grain: flow.Kernel, X: auger, Vt: float32(k.Vt), Size: float32(k.Size)}
	fed, delivered := 0, 0
	var t flow.Tally
	for i := range hz * seconds {
		late := i >= hz*seconds*3/4
		if i%3 == 0 {
			stage.Trough.Add(fresh)
			if late {
				fed++
			}
		}
		stage.Step(&set, 1.0/hz, &t, func(d flow.Dot) {
			if late {
				delivered++
			}
			if rng.Happens(float32(c.Input["returned"])) {
				d.X = auger
				stage.Trough.Add(d)
			}
		})
	}
	return float64(delivered) / float64(fed)
}
