// Package straw takes the straw off the cylinder: the beater throws it onto the
// walkers, the walkers toss it to the rear while grain sinks through
// and falls, and the chopper chops and spreads what leaves, or leaves it in a windrow.
package straw

import (
	"math"

	"riddle/sim/num"
	"riddle/sim/stage/design"
	"riddle/sim/stage/flow"
	"riddle/sim/stage/section"
)

const (
	// matSpeed at which the walkers carry the straw, m/s: 0.35 to 0.45, from
	// memory.
	matSpeed = 0.40
	// matDensity of straw on the walkers, kg/m³: derived from a permissible load
	// of 2.08 kg/(s m) at a mat of 0.43 m (published, Steponavičius, Špokas &
	// Petkevičius 2008, Agronomy Research 6:377–385, abstract) and matSpeed.
	matDensity = 12.0
	// bestFroude is the throw at which walkers separate best (published, the same
	// work of 2008: 215 rpm on 0.05 m); froudeWidth makes 21.5 rad/s 15 % worse
	// (published, Journal of Vibroengineering, article 10482, abstract).
	bestFroude, froudeWidth = 2.58, 0.60
	toughRate               = 0.03  // fall a point of straw moisture, calibrated
	phiPower                = 0.5   // finer straw packs, calibrated
	slopeShare              = 160.0 // degrees of slope at which nothing would fall, calibrated
	// pieceShare is the rate at which unthreshed pieces sink over that of free
	// grain: 60 % of those on the walkers fall to the shoe (half, 0.3 to 0.7,
	// from memory). Calibrated.
	pieceShare = 0.276
	// slowest is the speed below which the straw does not get, m/s: what comes
	// after pushes. Calibrated.
	slowest = matSpeed / 4
	// leastThrough is the share of MOG through the concave, and siftable the chaff
	// in the straw over that which is sifted, below which the laws take these for
	// it. Chosen, as limits.
	leastThrough, siftable = 0.01, 1.05
	// thinMat is the load below which grain falls as through no mat, as a share
	// of the rated load. Chosen, as a limit.
	thinMat = 0.03
)

// thrown is the time in which the straw flies after each throw of the cranks,
// s: from the moment at which ω²r sin a exceeds g to the next touch of a crank
// that goes on turning, without air. Computed from crank throw and speed.
const thrown = 0.243

// WalkSpeed returns the speed at which the walkers carry the straw, m/s. On a
// slope it drifts by ½ gₓ t² in every throw, mechanics; in the rest of the turn
// the walkers hold it. Slower than a quarter of its speed it does not get:
// what comes after pushes. Calibrated.
func WalkSpeed(pull flow.Pull) float64 {
	drift := float64(pull.X) / 2 * thrown * thrown * section.CrankRPM / flow.Minute
	return max(slowest, matSpeed+drift)
}

// RatedLoad returns the load of the walkers at rated feed, kg/m².
func RatedLoad(c *design.Fit) float64 {
	return c.RatedMOG * (1 - c.ChaffOut - c.ShortOut) / (section.InnerWidth * matSpeed)
}

// Froude returns the throw index of the walkers' cranks at rpm: ω² r / g.
func Froude(rpm float64) float64 {
	w := rpm * (2 * math.Pi / flow.Minute)
	return w * w * section.CrankThrow / flow.Gravity
}

// SinkRate returns the rate at which free grain sinks through the mat and
// falls, 1/m:
//
//	λw = λw0 (W0/W) (v0/v) e^−((Fr−2.58)/0.6)² e^(−0.03 (ΔMs)+) (φ0/φ)^0.5 (1 − slope/160)
//
// W the mat where the grain is, kg/m², v its speed, since what sinks with time
// sinks less a metre in a mat that goes faster, φ the share of MOG that the
// concave let through. The exponential form is published (Reed, Zoerb & Bigsby 1974,
// Trans. ASAE 17(3):452–460, from memory); the factors are calibrated.
func SinkRate(c *design.Fit, load, speed, froude, tough, phi, slope float64) float64 {
	rated := RatedLoad(c)
	off := (froude - bestFroude) / froudeWidth
	return c.StrawRate * rated / max(load, thinMat*rated) * (matSpeed / speed) * num.Exp(-off*off) * num.Exp(-toughRate*num.Positive(tough)) *
		num.Pow((c.ChaffOut+c.ShortOut)/max(phi, leastThrough), phiPower) * (1 - math.Abs(slope)/slopeShare)
}

// SiftRate returns the rate at which chaff is sifted out of the straw at the
// rated load, 1/m, so that the crop's sifted share is reached over the walkers.
func SiftRate(c *design.Fit) float64 {
	left := max(c.Husk-c.ChaffOut, c.Sifted*siftable)
	return -num.Log(1-c.Sifted/left) / c.Plan.WalkerFace
}
