package feed

import (
	"riddle/sim/num"
	"riddle/sim/setup"
	"riddle/sim/stage/flow"
	"riddle/sim/stage/section"
	"riddle/sim/trade/crop"
)

const (
	// vtNodes and sizeNodes are the classes by speed and size that the twin parts
	// pieces into. Chosen.
	vtNodes, sizeNodes = 4, 5
	// cutSD is where the spread of heads ends, in standard deviations: where
	// flow.Stream.Normal cuts it, by definition.
	cutSD = 3.0
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
	scale := section.InnerWidth / (c.Slice / flow.MM) * set.Settings.GroundSpeed / flow.KMH
	missed, kernel := shares(c, set, cond)
	met := stand.Kernels * c.KernelKg() * scale
	return Stream{
		Met: met, Lost: met * (missed + float64((1-missed)*kernel)),
		Husk: stand.Husk * flow.Microgram * scale * (1 - missed), Straw: stand.Straw * flow.Microgram * scale, Weed: stand.Weed * flow.Microgram * scale,
	}
}

// shares returns the share of pieces that the header misses, and of kernels
// that it sheds from the others.
func shares(c *crop.Crop, set *setup.Setup, cond *crop.Condition) (missed, kernel float64) {
	loss := ShatterLoss(c, &set.Settings, cond.Moist) / flow.Percent
	if c.Header.Snaps {
		return loss * droppedShare, loss * (1 - droppedShare)
	}
	z := num.Clamp((set.Settings.CuttingHeight-c.Header.HeadHeight)/c.Header.HeadSD, -cutSD, cutSD)
	if set.Settings.CuttingHeight <= lowestHead*flow.CM {
		z = -cutSD
	}
	lo := num.Phi(-cutSD)
	return (num.Phi(z) - lo) / (1 - 2*lo), loss
}

// Bins returns the classes of unthreshed pieces.
func Bins(c *crop.Crop, cond *crop.Condition) []flow.Bin {
	return flow.AppendBins(nil, flow.Piece, c.PieceVt*cond.Grain, pieceVtCV*c.PieceVt, vtNodes, c.PieceSize, c.PieceSD, sizeNodes)
}
