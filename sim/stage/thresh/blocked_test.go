package thresh

import (
	"testing"

	"github.com/stretchr/testify/require"

	"riddle/sim/num"
	"riddle/sim/stage/fault"
	"riddle/sim/stage/section"
	"riddle/sim/trade/crop"
)

// What lies in the gap, followed step by step, is that of the closed forms: over
// a grate that is open the husk that has not yet separated and the straw that is
// not yet cut short, over one that is closed all of it and every freed kernel.
func TestWhatTheGapHolds(t *testing.T) {
	const l, steps = section.ConcaveLength, 2000
	for _, name := range crop.Names() {
		c := fit(name)
		chaff := ChaffRate(c.Lambda, c.ChaffOut/c.Husk, l)
		mog, grain, freed := 0.0, 0.0, 0.0
		for i := range steps {
			x := (float64(i) + 0.5) * l / steps
			mog += (1 - c.Husk*Separated(c.Lambda, chaff, x) - c.ShortOut*x/l) / steps
			grain += Free(c.Lambda, c.Beta, x) / steps
			freed += (1 - num.Exp(-c.Lambda*x)) / steps
		}
		load, alone := inGap(c, [fault.Halves]float64{})
		require.InEpsilon(t, mog, alone, 0.005, name)
		require.InEpsilon(t, mog+returnedStraw*grain, load, 0.005, name)
		full, all := inGap(c, [fault.Halves]float64{1, 1})
		require.InEpsilon(t, 1, all, 1e-9, name)
		require.InEpsilon(t, 1+returnedStraw*freed, full, 0.005, name)
		require.InEpsilon(t, (1+returnedStraw*freed-mog-returnedStraw*grain)/mog, float64(Held(c, &fault.Grate{{1, 1}, {1, 1}, {1, 1}, {1, 1}})), 0.02, name)
	}
}

// A gap that is blocked more holds more; lanes count by their number.
func TestHeldByDegreeAndPlace(t *testing.T) {
	c := fit("wheat")
	held := func(degree float64, w fault.Where) float64 {
		s := fault.Of(fault.Fault{Kind: fault.ConcaveBlocked, Degree: degree, Where: w})
		g := s.State().Grate
		return float64(Held(c, &g))
	}
	require.Zero(t, held(0, fault.Whole))
	require.Less(t, held(0.3, fault.Whole), held(0.6, fault.Whole))
	require.InEpsilon(t, held(0.6, fault.Whole)/2, held(0.6, fault.Left), 1e-9)
	require.InEpsilon(t, held(0.6, fault.Whole)/4, held(0.6, fault.Lane4), 1e-9)
	require.Greater(t, held(1, fault.Front), held(1, fault.Rear), "what is held from the front on is held for longer")
}
