package engine

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// ASAE D497 (from memory): a small-grain combine turns with 20 kW and 3.6 kWh
// a tonne of MOG; wheat at 3.9 kg/s is 14.04 t/h.
func TestStartingPowerIsThatOfASmallGrainCombine(t *testing.T) {
	require.InDelta(t, 20+3.6*14.04, Start, 0.05*Start)
}

func TestSpeedHoldsAtTheStartAndDroopsAbove(t *testing.T) {
	require.Equal(t, 1.0, Speed(0))
	require.Equal(t, 1.0, Speed(Start))
	last := 1.0
	for load := 1.1; load < 6; load += 0.1 {
		now := Speed(load * Start)
		require.LessOrEqual(t, now, last)
		require.GreaterOrEqual(t, now, worst)
		last = now
	}
	require.InDelta(t, 0.97, Speed(1.5*Start), 1e-12) // governors give way by 4 to 10 % over their range (common practice)
}

func TestEngineSettlesWhereGovernorAndLoadMeet(t *testing.T) {
	e := New()
	for range 1200 {
		e.Turn(80, 6, 1.0/120)
	}
	require.InDelta(t, Speed(80+Rest(e.X, 74)), e.X, 1e-6)
	require.Less(t, e.X, 1.0)
}
