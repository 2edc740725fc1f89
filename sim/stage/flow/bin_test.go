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

// The nodes have mean 0 and the variance of the normal distribution cut at
// three deviations, 1 − 2·3·φ(3)/(2Φ(3) − 1) = 0.97334 (closed form of the
// truncated normal distribution).
func TestNodesVaryAsTheWhole(t *testing.T) {
	for _, n := range []int{2, 4, 5, 8, 11} {
		sum, mean, square := 0.0, 0.0, 0.0
		for _, node := range Nodes(n) {
			sum += node.Share
			mean += node.Share * node.Z
			square += node.Share * node.Z * node.Z
		}
		require.InDelta(t, 1, sum, 1e-6)
		require.InDelta(t, 0, mean, 1e-6)
		require.InDelta(t, 0.97334, square, 1e-4)
	}
}
