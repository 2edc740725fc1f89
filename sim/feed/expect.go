package feed

import (
	"riddle/sim/crop"
	"riddle/sim/flow"
	"riddle/sim/num"
	"riddle/sim/section"
	"riddle/sim/setup"
)

// Stream is what the header meets and takes in, as expected, kg/s over the
// full width of the machine.
type Stream struct {
	Met   float64 // grain that the header meets
	Lost  float64 // of it shattered, dropped or missed
	Husk  float64 // MOG on the pieces that come in
	Straw float64
	Weed  float64
}

// Expect returns what a run of the stage comes to in the mean.
func Expect(c *crop.Crop, set *setup.Setup, cond *crop.Condition) Stream {
	if set.Stopped.Has(setup.HeaderPart) {
		return Stream{}
	}
	stand := StandOf(c, set, section.InnerWidth)
	scale := section.InnerWidth / (c.Slice / 1000) * set.Settings.GroundSpeed / 3.6
	missed, kernel := shares(c, set, cond)
	met := stand.Kernels * c.KernelKg() * scale
	return Stream{
		Met: met, Lost: met * (missed + float64((1-missed)*kernel)),
		Husk: stand.Husk * 1e-9 * scale * (1 - missed), Straw: stand.Straw * 1e-9 * scale, Weed: stand.Weed * 1e-9 * scale,
	}
}

// shares returns the share of pieces that the header misses, and of kernels
// that it sheds from the others.
func shares(c *crop.Crop, set *setup.Setup, cond *crop.Condition) (missed, kernel float64) {
	loss := ShatterLoss(c, &set.Settings, cond.Moist) / 100
	if c.Header.Snaps {
		return loss * droppedShare, loss * (1 - droppedShare)
	}
	z := num.Clamp((set.Settings.CuttingHeight-c.Header.HeadHeight)/c.Header.HeadSD, -3, 3)
	if set.Settings.CuttingHeight <= 2 { // no head hangs lower
		z = -3
	}
	lo := num.Phi(-3)
	return (num.Phi(z) - lo) / (1 - 2*lo), loss
}

// Bins returns the classes of unthreshed pieces.
func Bins(c *crop.Crop, cond *crop.Condition) []flow.Bin {
	return flow.AppendBins(nil, flow.Piece, c.PieceVt*cond.Grain, pieceVtCV*c.PieceVt, 4, c.PieceSize, c.PieceSD, 5)
}
