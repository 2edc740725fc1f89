package engine

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// Governors give way by 4 to 10 % over their range (common practice); usual
// load costs no speed.
func TestGovernorHoldsAndDroops(t *testing.T) {
	at := func(kw float64) float64 {
		x, ok := Settle(func(float64) float64 { return kw })
		require.True(t, ok, kw)
		return x
	}
	require.Equal(t, 1.0, at(0))
	require.Equal(t, 1.0, at(0.6*Limit))
	last := 1.0
	for kw := 0.7 * Limit; kw < Limit; kw += 5 {
		now := at(kw)
		require.Less(t, now, last)
		last = now
	}
	fall := 1 - at(Limit)
	require.Greater(t, fall, 0.04)
	require.Less(t, fall, 0.10)
}

// An engine at full load gives no more power the slower it gets, whatever its
// torque: parts that ask for a tenth more than it has, at every speed, kill it.
func TestNoPowerBeyondTheLimit(t *testing.T) {
	for x := 0.0; x <= 1; x += 0.001 {
		require.LessOrEqual(t, Gives(x), Limit*(1+1e-12), x)
	}
	x, ok := Settle(func(float64) float64 { return 1.1 * Limit })
	require.False(t, ok)
	require.Equal(t, lug, x)
	e := New()
	for n := 0; !e.Stalled(); n++ {
		require.Less(t, n, 60*120, "within a minute")
		e.Turn(1.1*Limit, 1.0/120)
	}
}

// What turns ends where it would settle, for parts that ask for less as they
// slow down.
func TestTurnEndsWhereItSettles(t *testing.T) {
	for _, full := range []float64{100, 140, 170, 188} {
		asks := func(x float64) float64 { return full * (0.3 + 0.7*x) }
		want, ok := Settle(asks)
		require.True(t, ok, full)
		e := New()
		for range 60 * 120 {
			e.Turn(asks(e.X), 1.0/120)
		}
		require.InDelta(t, want, e.X, 1e-4, full)
	}
}
