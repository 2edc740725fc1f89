package flow

import (
	"testing"

	"github.com/stretchr/testify/require"

	"riddle/sim/num"
)

// TestBelow: over the classes of a kind the shares below a size sum to the
// normal distribution cut at three deviations, whatever the size.
func TestBelow(t *testing.T) {
	bins := AppendBins(nil, Sound, 8, 0.8, 3, 5, 0.5, 5)
	whole := 2*num.Phi(3) - 1
	for _, mm := range []float64{1, 3.4, 3.6, 4.2, 4.9, 5, 5.01, 5.8, 6.4, 9} {
		sum := 0.0
		for i := range bins {
			sum += bins[i].Share * bins[i].Below(mm)
		}
		want := (num.Phi(num.Clamp((mm-5)/0.5, -3, 3)) - num.Phi(-3)) / whole
		require.InDelta(t, want, sum, 1e-6, "%g mm", mm)
	}
	one := Bin{Size: 2}
	require.Equal(t, 1.0, one.Below(2))
	require.Zero(t, one.Below(1.9))
}
