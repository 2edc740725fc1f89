package facts

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/integrate/quad"
	"gonum.org/v1/gonum/stat"
	"gonum.org/v1/gonum/stat/distuv"

	"riddle/sim/num"
	"riddle/sim/stage/flow"
	"riddle/sim/stage/thresh"
)

// The measure of these tests is Gonum, a library of numerics that others wrote
// and test.

func TestNormalAgainstGonum(t *testing.T) {
	for z := -6.0; z <= 6; z += 0.013 {
		require.InDelta(t, distuv.UnitNormal.CDF(z), num.Phi(z), 7.5e-8, "Phi(%v)", z)
		require.InDelta(t, distuv.UnitNormal.Prob(z), num.NormalPDF(z), 1e-15, "density at %v", z)
	}
}

// The separated share is the integral of its density, and with equal rates the
// distribution of two waits in a row.
func TestSeparationAgainstGonum(t *testing.T) {
	for _, rate := range [][2]float64{{7.871, 3.919}, {3, 9}, {12, 0.4}} {
		l, b := rate[0], rate[1]
		density := func(x float64) float64 { return l * b / (l - b) * (math.Exp(-b*x) - math.Exp(-l*x)) }
		for _, x := range []float64{0.1, 0.3, 0.65, 1.5} {
			require.InDelta(t, quad.Fixed(density, 0, x, 60, nil, 0), thresh.Separated(l, b, x), 1e-12)
		}
	}
	for x := 0.0; x < 3; x += 0.01 {
		require.InDelta(t, distuv.Gamma{Alpha: 2, Beta: 4}.CDF(x), thresh.Separated(4, 4, x), 1e-12)
	}
}

// distance is the Kolmogorov–Smirnov distance of a sample to a distribution,
// whose own sample is drawn at its quantiles.
func distance(sample []float64, quantile func(p float64) float64) float64 {
	slices.Sort(sample)
	exact := make([]float64, len(sample))
	for i := range exact {
		exact[i] = quantile((float64(i) + 0.5) / float64(len(exact)))
	}
	return stat.KolmogorovSmirnov(sample, nil, exact, nil)
}

// The machine's draws have the distributions that they are called by: the
// distance of 50,000 draws stays below the value that chance passes once in a
// thousand times, 1.95/√n (A. Kolmogorov 1933).
func TestDrawsAgainstGonum(t *testing.T) {
	const n = 50000
	most := 1.95 / math.Sqrt(n)
	rng := flow.NewStream(11, 1)
	draw := func(f func() float64) []float64 {
		list := make([]float64, n)
		for i := range list {
			list[i] = f()
		}
		return list
	}
	even := distuv.Uniform{Min: 2, Max: 5}
	require.Less(t, distance(draw(func() float64 { return float64(rng.Between(2, 5)) }), even.Quantile), most)
	wait := distuv.Exponential{Rate: 3.2}
	require.Less(t, distance(draw(func() float64 { return rng.Wait(3.2) }), wait.Quantile), most)
	bell := distuv.Normal{Mu: 8, Sigma: 0.8}
	lo, hi := bell.CDF(8-2.4), bell.CDF(8+2.4) // cut at three standard deviations
	require.Less(t, distance(draw(func() float64 { return float64(rng.Normal(8, 0.8)) }),
		func(p float64) float64 { return bell.Quantile(lo + p*(hi-lo)) }), most)
}
