package thresh

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"riddle/sim/stage/flow"
)

// TestKernelsBreakAsTheForecastSays: 20,000 kernels broken one by one lie in
// parts of each size, by mass, as PartShares says, and fall, fly and measure in
// the mean as the bins of their class; within four and a half standard errors of
// the draws. Each kernel's parts sum to it. At a gentle strike, at that of the
// start, and at the hardest.
func TestKernelsBreakAsTheForecastSays(t *testing.T) {
	for _, name := range []string{"wheat", "corn", "soybeans"} {
		c := fit(name)
		cond := c.In(c.Start.GrainMoisture, c.Start.StrawMoisture, 0, 1)
		bins := brokenBins(nil, c, &cond)
		for i, fines := range []float64{0.02, chips0, shedMost} {
			id := uint32(0)
			s := New(c, flow.NewStream(uint64(i), 7), &id)
			s.cond, s.shed = &cond, ShedOf(fines)
			want := PartShares(c, &s.shed)
			const n = 20000
			var sum, square [flow.Kernel + 1]float64 // mass in parts of a size, by kernel
			var vt, size, mass [Classes]float64
			tally := flow.Tally{}
			for range n {
				k := flow.Dot{ID: s.number(), Kind: flow.Sound, Grain: flow.Kernel}
				bits := append([]flow.Dot{}, s.breakKernel(&k, &tally)...)
				var of [flow.Kernel + 1]float64
				whole := 0
				for _, d := range append(bits, k) {
					require.Equal(t, flow.Broken, d.Kind)
					require.Positive(t, d.Grain)
					whole += int(d.Grain)
					g := float64(d.Grain) / flow.Kernel
					of[d.Grain] += g
					cl := classOf(d.Grain)
					vt[cl] += g * float64(d.Vt)
					size[cl] += g * float64(d.Size)
					mass[cl] += g
				}
				require.Equal(t, flow.Kernel, whole, "mass is kept")
				for g, v := range of {
					sum[g] += v
					square[g] += v * v
				}
			}
			require.Equal(t, int64(n*flow.Kernel), tally.Cylinder.Broken)
			all := 0.0
			for g := range sum {
				mean := sum[g] / n
				miss := math.Sqrt(max(square[g]/n-mean*mean, want[g]*float64(g)/flow.Kernel, 1e-12) / n) // of rare ones by the expected count
				require.InDelta(t, want[g], mean, 4.5*miss, "%s, f %g, parts of %d/64", name, fines, g)
				all += want[g]
			}
			require.InDelta(t, 1, all, 1e-6, "all of the kernel")
			for cl := range classes {
				if mass[cl] < n/50 {
					continue
				}
				meanVt, meanSize := 0.0, 0.0
				for _, b := range bins {
					if int(b.Class) == cl {
						meanVt += b.Share * float64(b.Vt)
						meanSize += b.Share * float64(b.Size)
					}
				}
				require.InEpsilon(t, meanVt, vt[cl]/mass[cl], 0.04, "%s, class %d", name, cl)
				require.InEpsilon(t, meanSize, size[cl]/mass[cl], 0.06, "%s, class %d", name, cl)
			}
		}
	}
}

func classOf(grain uint16) int {
	for i, c := range classes {
		if grain <= c.to {
			return i
		}
	}
	panic("more than a kernel")
}

// TestChipsByHand: at f = 0.13 chips are 1 − e^−0.13 = 12.19 % of what breaks,
// and of a 64th of a kernel 1 − e^(−0.13/√15) = 3.30 %: the size's exponent of
// 1.5 is a half of the mass.
func TestChipsByHand(t *testing.T) {
	shed := ShedOf(0.13)
	parts := PartShares(fit("soybeans"), &shed) // halves are no chips
	chips := 0.0
	for _, share := range parts[:quarter] {
		chips += share
	}
	require.InDelta(t, 0.1219, chips, 0.0005)
	require.InDelta(t, 0.0330, parts[1], 0.0002)
}

// TestHarderStrikesShedMoreAndFiner: faster, drier, tighter: more chips, and
// more of them dust. Twice the speed is four times the energy.
func TestHarderStrikesShedMoreAndFiner(t *testing.T) {
	c := fit("soybeans") // halves are no chips
	at := func(moisture, speed, gap float64) (f, dust float64) {
		cond := c.In(moisture, 15, 0, 1)
		f = Fines(c, &cond, Load{Speed: speed, Gap: gap, Feed: 1})
		shed := ShedOf(f)
		p := PartShares(c, &shed)
		chips := 0.0
		for _, share := range p[:quarter] {
			chips += share
		}
		return f, p[1] / chips
	}
	f, dust := at(13, 1, 1)
	for what, now := range map[string][3]float64{"speed": {13, 1.5, 1}, "dry": {9, 1, 1}, "gap": {13, 1, 0.5}} {
		more, finer := at(now[0], now[1], now[2])
		require.Greater(t, more, f, what)
		require.Greater(t, finer, dust, what)
	}
	twice, _ := at(13, 2, 1)
	require.InEpsilon(t, 4, twice/f, 1e-9)
}

// TestPartsFallByTheirMass: an eighth of a kernel against a half, in the range of
// Newton's drag: Vt goes with the sixth root of the mass, 4^−1/6 = 0.794; the
// size with the third, 4^−1/3 = 0.630.
func TestPartsFallByTheirMass(t *testing.T) {
	require.InDelta(t, 0.794, partVt[8]/partVt[32], 0.001)
	require.InDelta(t, 0.630, partSize[8]/partSize[32], 0.001)
	require.InDelta(t, brokenVt, partVt[32], 1e-12)
}
