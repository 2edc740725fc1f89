// Package feed brings the crop in: the header cuts and gathers what stands in
// its way, and the drag chain carries it up the feeder house as a mat.
package feed

import (
	"riddle/sim/num"
	"riddle/sim/setup"
	"riddle/sim/stage/flow"
	"riddle/sim/trade/crop"
)

const (
	// slowShare and speedShare part header loss into what does not and what
	// does grow with ground speed. Calibrated.
	slowShare, speedShare = 0.6, 0.4
	// bestReel is the reel index of least loss: 1.1 to 1.25 is common practice,
	// extension advice of several states; reelWidth is how fast loss grows off
	// it, calibrated.
	bestReel, reelWidth = 1.2, 0.35
	// droppedShare is the share of an ear-snapping header's loss that falls as
	// whole ears; the rest is shelled at the butt. Calibrated.
	droppedShare = 0.6
	// dryLeast and dryMost hold the effect of dryness on header loss. Calibrated.
	dryLeast, dryMost = 0.6, 4
	// strawLeast is the straw that the highest cut still brings in, over that of
	// the usual one. Chosen, as a limit.
	strawLeast = 0.05
	// worstLoss is the most that a header can lose, %. Chosen, as a limit.
	worstLoss = 90
)

// ShatterLoss returns the grain that the header shatters or drops, % of what
// it meets, heads below the cutter bar not counted.
//
//	H = H0 [1 + ((r − 1.2)/0.35)²] [0.6 + 0.4 (v/v0)ⁿ] e^(k (M0 − M))
//
// r reel index, v ground speed, M grain moisture; the last factor is held
// between 0.6 and 4. Calibrated to meet the header's usual share of all loss;
// the signs are common practice.
func ShatterLoss(c *crop.Crop, s *setup.Settings, moist float64) float64 {
	reel := 1.0
	if !c.Header.Snaps {
		off := (s.ReelIndex - bestReel) / reelWidth
		reel = 1 + float64(off*off)
	}
	speed := slowShare + float64(speedShare*num.Pow(s.GroundSpeed/c.Start.GroundSpeed, c.Header.SpeedPower))
	dry := num.Clamp(num.Exp(-c.Header.DryRate*moist), dryLeast, dryMost)
	return min(worstLoss, c.Header.Loss*reel*speed*dry)
}

// StrawFactor returns the straw that comes in at a cutting height, as a factor
// on that at the usual height. Higher cutting leaves straw in the field
// (Kim & Gregory 2015, J. Biosystems Eng. 40(4): straw falls with cutting
// height while grain does not until heads are missed); the straight line is a
// simplification, calibrated.
func StrawFactor(c *crop.Crop, cuttingHeight float64) float64 {
	if c.Header.Snaps {
		return 1
	}
	return num.Clamp((c.Header.Plant-cuttingHeight)/(c.Header.Plant-c.Start.CuttingHeight), strawLeast, 2)
}

// Stand is the crop in the strip of field that the slice of the machine takes,
// for each metre of travel.
type Stand struct {
	Kernels float64 // kernels a m
	Husk    float64 // MOG on the heads, µg a m
	Straw   float64 // µg a m
	Weed    float64 // µg a m
}

// StandOf returns the crop that the slice meets. Yield in t/ha over the header
// width in m is yield·width/10 kg a metre of travel, of which the slice takes
// its share of the machine's inner width.
func StandOf(c *crop.Crop, set *setup.Setup, innerWidth float64) Stand {
	cond := &set.Conditions
	grain := cond.Yield * cond.HeaderWidth / flow.TonnesHa * (c.Slice / flow.MM / innerWidth) // kg a m
	mog := float64(grain * cond.MOGRatio * flow.Kilogram)                                     // µg a m at the usual height
	husk := float64(mog * c.Husk)
	dry := float64(mog * (c.Header.Fixed + float64((1-c.Header.Fixed)*StrawFactor(c, set.Settings.CuttingHeight))))
	g := cond.GreenWeeds / flow.Percent
	return Stand{Kernels: grain / c.KernelKg(), Husk: husk, Straw: num.Positive(dry - husk), Weed: dry * g / (1 - g)}
}
