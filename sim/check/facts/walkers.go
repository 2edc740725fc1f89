package facts

import (
	"riddle/sim/num"
	"riddle/sim/stage/design"
	"riddle/sim/stage/flow"
	"riddle/sim/stage/section"
	"riddle/sim/stage/straw"
	"riddle/testdata/published"
)

// walkers is the straw walkers.
var walkers = map[string]law{
	"TH-T7":   func(c *published.Check) float64 { return straw.Froude(c.Input["rpm"]) },
	"TH-T9":   offThrow,
	"TH-T11a": func(c *published.Check) float64 { return strawOnWalkers(of(c)) },
	"TH-T11b": func(c *published.Check) float64 {
		k := of(c)
		return (k.RatedMOG + k.RatedMOG/k.Start.MOGRatio) / (section.RaspBars * section.InnerWidth)
	},
	"TH-2.3a": func(*published.Check) float64 { return section.WalkerLength },
	"TH-2.3b": func(*published.Check) float64 { return section.CrankThrow },
	"TH-2.3c": func(*published.Check) float64 { return section.CrankRPM },
	"TH-2.3d": func(c *published.Check) float64 { // at another crank speed over the best
		best := sinkRate(of(c), 1, straw.Froude(section.CrankRPM))
		return sinkRate(of(c), 1, straw.Froude(rpmOf(c.Input["rad_s"]))) / best
	},
	"TH-2.3e": func(c *published.Check) float64 { return of(c).StrawRate },
	"TH-2.3f": func(c *published.Check) float64 { return 1 - num.Exp(-of(c).StrawRate*section.WalkerLength) },
}

// sinkRate is the walkers' rate in dry straw under a share of the rated load.
func sinkRate(c *design.Fit, load, froude float64) float64 {
	return straw.SinkRate(c, load*straw.RatedLoad(c), straw.WalkSpeed(flow.PullOn(0)), froude, 0, c.ChaffOut+c.ShortOut, 0)
}

// offThrow is the sign of what a throw other than the best does to separation.
func offThrow(c *published.Check) float64 {
	return sign(sinkRate(of(c), 1, c.Input["froude"]) - sinkRate(of(c), 1, c.Input["best"]))
}

// strawOnWalkers returns the straw that comes to the walkers at rated feed,
// kg/s a metre of width.
func strawOnWalkers(c *design.Fit) float64 {
	return c.RatedMOG * (1 - c.ChaffOut - c.ShortOut) / section.InnerWidth
}

func rpmOf(radians float64) float64 { return radians * 60 / (2 * 3.141592653589793) }
