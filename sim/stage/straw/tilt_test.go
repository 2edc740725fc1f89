package straw

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"riddle/sim/stage/fault"
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

// The pan under the walkers brings its load forward: uphill it has to climb, and
// goes slower, downhill faster.
func TestThePanCarriesSlowerUphill(t *testing.T) {
	forward := func(degrees float64) float64 {
		var id uint32
		s := New(fit("wheat"), flow.NewStream(1, 1), &id)
		s.pull = flow.PullOn(degrees)
		x := float32(section.WalkerPan.A.X+section.WalkerPan.B.X) / 2
		s.Pan.Add(flow.Dot{X: x, Kind: flow.Sound, Ride: flow.Carried})
		conveyor := flow.NewSwarm(4)
		s.shake(0.01, &conveyor)
		return float64(x - s.Pan.Dots[0].X)
	}
	require.InEpsilon(t, panSpeed*0.01, forward(0), 1e-3)
	require.Less(t, forward(8), 0.9*forward(0))
	require.Greater(t, forward(-8), 1.1*forward(0))
}

// Walkers off their speed, by the same slow way: the throw is shorter, and there
// is none where the cranks pull less than gravity does.
func TestStrawFliesByTheWalkersOwnSpeed(t *testing.T) {
	require.InDelta(t, thrown, flight(0), 0.001)
	for _, own := range []fault.Extra{-0.3, -0.15, 0.05} {
		w := own.Times() * section.CrankRPM * 2 * math.Pi / 60
		a := math.Asin(flow.Gravity / (w * w * section.CrankThrow))
		y, v := section.CrankThrow*math.Sin(a), section.CrankThrow*w*math.Cos(a)
		const dt = 1e-5
		flown := dt
		for ; y+v*flown-flow.Gravity/2*flown*flown > section.CrankThrow*math.Sin(a+w*flown); flown += dt {
		}
		require.InDelta(t, flown, flight(own), 0.001, own)
	}
	require.Zero(t, flight(-0.5))
	require.Equal(t, WalkSpeed(flow.PullOn(5)), ownSpeed(flow.PullOn(5), 0))
	require.InEpsilon(t, matSpeed/2, ownSpeed(flow.PullOn(8), -0.5), 1e-9, "what is not thrown does not drift")
	require.InEpsilon(t, 0.85*matSpeed, ownSpeed(flow.PullOn(0), -0.15), 1e-9)
}
