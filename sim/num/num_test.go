package num

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// The outside measure of this package is the standard library's package math.
func TestAgreesWithStandardLibrary(t *testing.T) {
	for i := -4000; i <= 4000; i++ {
		x := float64(i) * 0.0137
		require.InEpsilon(t, math.Exp(x), Exp(x), 2e-15, "Exp(%v)", x)
		require.InDelta(t, math.Sin(x), Sin(x), 1e-11, "Sin(%v)", x)
		require.InDelta(t, math.Cos(x), Cos(x), 1e-11, "Cos(%v)", x)
		require.InDelta(t, 0.5*math.Erfc(-x/math.Sqrt2), Phi(x), 8e-8, "Phi(%v)", x)
		require.InDelta(t, -math.Expm1(-math.Abs(x)), Chance(math.Abs(x)), 1e-13, "Chance(%v)", x)
	}
	for x := 1e-9; x < 1e9; x *= 1.37 {
		require.InDelta(t, math.Log(x), Log(x), 1e-14*math.Max(1, math.Abs(math.Log(x))), "Log(%v)", x)
		require.InEpsilon(t, math.Pow(x, 0.7), Pow(x, 0.7), 1e-13, "Pow(%v)", x)
		require.InEpsilon(t, math.Pow(x, -1.3), Pow(x, -1.3), 1e-13, "Pow(%v)", x)
	}
}

func TestEdges(t *testing.T) {
	require.Zero(t, Pow(0, 0.7))
	require.Zero(t, Pow(-1, 2))
	require.Zero(t, Chance(-1))
	require.Zero(t, Chance(0))
	require.Equal(t, 1.0, Clamp(math.NaN(), 1, 2))
	require.False(t, math.IsInf(Exp(1e9), 0))
	require.Equal(t, 0.5, SmoothStep(0.5))
}
