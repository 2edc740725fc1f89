package tank

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"riddle/sim/setup"
	"riddle/sim/stage/design"
	"riddle/sim/stage/flow"
	"riddle/sim/trade/crop"
)

// Grain in the tank lies level in the field: uphill, with the rear low, it stands
// higher there in the machine, by tan 8° a metre. The tank is full as soon as the
// low end is, of a section of 3.61 m² and 2.90 m wide short by 2.90²/2 · tan 8°.
func TestGrainLiesLevelInTheField(t *testing.T) {
	tan := math.Tan(8 * math.Pi / 180)
	of := func(degrees float64) (rise, share float64) {
		id := uint32(0)
		c := crop.Find("wheat")
		s := New(design.WithWalkers.In(c), flow.NewStream(1, 1), &id)
		set, tally := setup.Setup{Crop: c.Name}, flow.Tally{}
		set.Conditions.ForeSlope = degrees
		tally.Tank.Grain = 1000 * flow.Kernel
		s.Step(&set, 1.0/120, &tally)
		return float64(s.surface(1.7) - s.surface(0.7)), s.Share(&tally)
	}
	rise, level := of(0)
	require.Zero(t, rise)
	rise, up := of(8)
	require.InDelta(t, tan, rise, 1e-5)
	area := 0.43*(1.75+2.90)/2 + 0.90*2.90
	require.InEpsilon(t, area/(area-2.90*2.90/2*tan), up/level, 1e-5)
	rise, down := of(-8)
	require.InDelta(t, -tan, rise, 1e-5)
	require.InEpsilon(t, up, down, 1e-9)
}
