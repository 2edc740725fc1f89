package straw

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"riddle/sim/stage/flow"
	"riddle/sim/stage/section"
)

// The time of a throw, step by step: straw leaves the crank where gravity can no
// longer hold it down, flies freely, and meets the crank that goes on turning.
func TestStrawFliesForThatLong(t *testing.T) {
	w := section.CrankRPM * 2 * math.Pi / 60
	a := math.Asin(flow.Gravity / (w * w * section.CrankThrow))
	y, v := section.CrankThrow*math.Sin(a), section.CrankThrow*w*math.Cos(a)
	const dt = 1e-5
	flown := dt
	for ; y+v*flown-flow.Gravity/2*flown*flown > section.CrankThrow*math.Sin(a+w*flown); flown += dt {
	}
	require.InDelta(t, thrown, flown, 0.001)
}

// Uphill the straw drifts to the rear in every throw, downhill to the front.
func TestWalkersCarryFasterUphill(t *testing.T) {
	require.Equal(t, matSpeed, WalkSpeed(flow.PullOn(0)))
	drift := flow.Gravity * math.Sin(8*math.Pi/180) / 2 * thrown * thrown * section.CrankRPM / 60
	require.InEpsilon(t, matSpeed+drift, WalkSpeed(flow.PullOn(8)), 1e-6)
	require.InEpsilon(t, matSpeed-drift, WalkSpeed(flow.PullOn(-8)), 1e-6)
}
