package facts

import (
	"riddle/sim/setup"
	"riddle/sim/stage/flow"
	"riddle/sim/stage/returns"
	"riddle/sim/stage/section"
	"riddle/testdata/published"
)

// loop is the returns.
var loop = map[string]law{
	"CL-D2": circulating,
}

// circulating feeds the machine's own returns at a steady rate, sends a fixed
// share of what they deliver back into them, and returns what they deliver in
// the last quarter of the time over what is fed: 1/(1 − r) when it has settled.
func circulating(c *published.Check) float64 {
	const hz, seconds = flow.TickHz, 80
	k := fit("wheat")
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
