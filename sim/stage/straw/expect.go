package straw

import (
	"riddle/sim/num"
	"riddle/sim/setup"
	"riddle/sim/stage/design"
	"riddle/sim/stage/fault"
	"riddle/sim/stage/flow"
	"riddle/sim/stage/section"
	"riddle/sim/trade/crop"
)

// Load is what comes on the walkers, kg/s over the full width.
type Load struct {
	Chaff, Short float64 // that sift through
	Rest         float64 // long straw and weeds, which do not
	Husk         float64 // on unthreshed pieces
}

// Expected is what the walkers come to in the mean: shares of what came on
// them that fall through, and the mat, m.
type Expected struct {
	Grain, Pieces, MOG float64
	Thick              [cellCount]float32
	Full               bool // the mat fills the hood
}

// Expect returns the steady state of the walkers when the concave let the
// share phi of the MOG through, the engine turns at a share of its speed, and the
// walkers by an extra faster than that.
func Expect(c *design.Fit, set *setup.Setup, cond *crop.Condition, phi, engine float64, own fault.Extra, in Load) Expected {
	froude := Froude(engine * own.Times() * section.CrankRPM)
	if set.Stopped.Has(setup.WalkerPart) {
		return Expected{Full: true}
	}
	cell := c.Plan.WalkerRun / cellCount
	sift := SiftRate(c) / c.StrawRate
	speed := ownSpeed(flow.PullOn(set.Conditions.ForeSlope), own)
	grain, pieces, mog := 1.0, 1.0, 1.0
	e := Expected{}
	s := Stage{crop: c}
	for i := range e.Thick {
		var load, rate float64
		after := mog
		for range 4 { // the mat thins as it is sifted within the cell
			mean := (mog + after) / 2
			load = (in.Rest + float64((in.Chaff+in.Short)*mean) + float64(in.Husk*pieces)) / (section.InnerWidth * speed)
			rate = SinkRate(c, load, speed, froude, cond.Tough, phi, set.Conditions.SideSlope)
			after = mog * num.Exp(-rate*sift*cell)
		}
		grain *= num.Exp(-rate * cell)
		pieces *= num.Exp(-rate * pieceShare * cell)
		mog = after
		e.Thick[i] = float32(load / matDensity)
		s.Rows.Load = append(s.Rows.Load, float32(load))
	}
	e.Grain, e.Pieces, e.MOG = 1-grain, 1-pieces, 1-mog
	e.Full, _ = s.Full()
	return e
}
