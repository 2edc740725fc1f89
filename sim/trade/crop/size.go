package crop

import "riddle/sim/num"

// What light and broken kernels measure, as shares of the limiting dimension
// of a sound one.
const (
	LightSize  = 0.85 // mean of light kernels; calibrated
	BrokenSize = 0.75 // mean of half kernels; calibrated
)

// PartSize returns what a part of a kernel measures over a sound one: parts keep
// the shape of a half, so that their size goes with the third root of their mass
// (geometry).
func PartSize(share float64) float64 { return BrokenSize * num.Exp(num.Log(share*2)/3) }

// PartShape is what a part measures over a kernel that was shrunk to its mass:
// computed, BrokenSize times the third root of 2.
const PartShape = BrokenSize * 1.2599210498948732
