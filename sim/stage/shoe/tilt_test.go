package shoe

import (
	"testing"

	"github.com/stretchr/testify/require"

	"riddle/sim/setup"
	"riddle/sim/stage/flow"
	"riddle/sim/stage/section"
)

// The conveyors bring grain to the rear, uphill a tenth faster for every five
// degrees, as their augers fall (2 % a degree), and downhill as much slower. So do
// sieves carry what lies on them.
func TestConveyorsAndSievesCarryFasterUphill(t *testing.T) {
	c := fit("wheat")
	carried := func(degrees float64) (conveyor, sieve float64) {
		set, err := setup.Default(c.Name)
		require.NoError(t, err)
		set.Conditions.ForeSlope = degrees
		cond := c.In(set.Conditions.GrainMoisture, set.Conditions.StrawMoisture, 0, 0)
		s := New(c, flow.NewStream(1, 1))
		s.drive(&set, 1)
		x := float32(section.ConveyorFloor.A.X)
		s.Conveyor.Add(flow.Dot{X: x, Kind: flow.Sound, Grain: flow.Kernel, Ride: flow.Carried})
		var tally flow.Tally
		s.convey(&set, &cond, 0.1, &tally)
		return float64(s.Conveyor.Dots[0].X - x), float64(s.carry)
	}
	level, onSieve := carried(0)
	require.InEpsilon(t, conveyorSpeed*0.1, level, 1e-4)
	up, sieveUp := carried(5)
	require.InEpsilon(t, 1.1, up/level, 0.005)
	require.Greater(t, sieveUp, onSieve)
	down, sieveDown := carried(-5)
	require.InEpsilon(t, 0.9, down/level, 0.005)
	require.Less(t, sieveDown, onSieve)
}
