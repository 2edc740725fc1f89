package grade

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"riddle/sim/crop"
	"riddle/sim/flow"
)

// TestSievesAreTheStandards: the openings in mm, by 64ths and thousandths of an
// inch of 25.4 mm (7 CFR 810), and which particle each lets through.
func TestSievesAreTheStandards(t *testing.T) {
	for _, s := range []struct {
		crop  string
		which int
		mm    float64
	}{
		{"wheat", 0, 1.6256}, {"soybeans", 0, 3.175}, {"corn", 0, 4.7625}, {"corn", 1, 2.38125},
		{"sorghum", 0, 1.984375}, {"sorghum", 1, 0.9921875}, {"barley", 0, 1.984375},
	} {
		require.InDelta(t, s.mm, SievesOf(s.crop)[s.which].MM, 1e-9, s.crop)
	}
	corn, soy := SievesOf("corn"), SievesOf("soybeans")
	require.True(t, corn[0].Passes(4.0) && !corn[1].Passes(4.0), "a corn particle of 4.0 mm is broken corn")
	require.True(t, corn[1].Passes(2.0), "one of 2.0 mm is foreign material")
	require.False(t, corn[0].Passes(5.0), "one of 5.0 mm is corn")
	require.True(t, soy[0].Passes(3.0), "a soybean piece of 3.0 mm is foreign material")
	require.Empty(t, SievesOf("canola"))
	require.Empty(t, SievesOf("rice"))
}

// TestSoundGrainStaysOnTheSieve: the sieves are made to keep sound kernels, so
// a kernel within three deviations of the mean (8 % each) must stay on.
func TestSoundGrainStaysOnTheSieve(t *testing.T) {
	for _, name := range crop.Names() {
		c := crop.Find(name)
		s := SievingOf(c)
		for _, z := range []float64{-3, 0, 3} {
			require.False(t, s.Through(flow.Sound, flow.Quarters, float32(c.Size*(1+0.08*z))), "%s at %g", name, z)
		}
		require.False(t, s.Through(flow.Broken, flow.Quarters, float32(c.Size*crop.BrokenSize)), "a cracked whole kernel of %s", name)
		require.False(t, s.Through(flow.Piece, flow.Quarters, 0.1), "a piece of %s is not loose", name)
	}
}

// TestPartsFallByTheirSize: by hand for wheat, 2.7 mm thick, slot 1.6256 mm. A
// quarter of mean size is 2.7·√¼ = 1.35 mm thick and falls through; 21 % larger
// it is 1.634 mm and stays. A half of mean size is 1.909 mm and stays; at 0.85 of
// it 1.623 mm, and falls. A light kernel is 0.6·2.7 = 1.62 mm and just falls.
func TestPartsFallByTheirSize(t *testing.T) {
	c := crop.Find("wheat")
	s := SievingOf(c)
	part := func(of float64) float32 { return float32(of * crop.BrokenSize * c.Size) }
	require.True(t, s.Through(flow.Broken, 1, part(1)))
	require.False(t, s.Through(flow.Broken, 1, part(1.21)))
	require.False(t, s.Through(flow.Broken, 2, part(0.86)))
	require.True(t, s.Through(flow.Broken, 2, part(0.85)))
	light := func(of float64) float32 { return float32(of * crop.LightSize * c.Size) }
	require.True(t, s.Through(flow.Light, 4, light(1)))
	require.False(t, s.Through(flow.Light, 4, light(1.01)))
}

// TestSharesAreMeansOverSizes: the share that the forecast uses against counting
// 200,000 drawn sizes, within four standard errors.
func TestSharesAreMeansOverSizes(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 2))
	const n = 200000
	for _, name := range []string{"wheat", "corn", "barley", "sorghum", "soybeans"} {
		c := crop.Find(name)
		s := SievingOf(c)
		for q := uint16(1); q <= 4; q++ {
			mean, sd := crop.BrokenSize*c.Size, 0.12*c.Size
			through, fine := 0, 0
			for range n {
				size := float32(mean + sd*random.NormFloat64())
				if s.Through(flow.Broken, q, size) {
					through++
				}
				if s.Fine(flow.Broken, q, size) {
					fine++
				}
			}
			p := s.ThroughShare(flow.Broken, q, mean, sd)
			require.InDelta(t, p, float64(through)/n, 0.0045, "%s %d/4", name, q)
			require.InDelta(t, s.FineShare(flow.Broken, q, mean, sd), float64(fine)/n, 0.0045)
			require.GreaterOrEqual(t, p, s.FineShare(flow.Broken, q, mean, sd), "what falls through the fine sieve fell through the coarse one")
		}
	}
	s := SievingOf(crop.Find("wheat"))
	require.Equal(t, 1.0, s.ThroughShare(flow.Light, 4, 1, 0))
	require.Equal(t, 0.0, s.ThroughShare(flow.Light, 4, 9, 0))
}

// TestSmallerPartsFallMore: the share through rises as the part gets smaller,
// and less than half of what is visibly damaged falls through any crop's sieve.
func TestSmallerPartsFallMore(t *testing.T) {
	for _, name := range crop.Names() {
		c := crop.Find(name)
		if len(SievesOf(name)) == 0 {
			continue
		}
		s := SievingOf(c)
		last := 1.0
		for q := uint16(1); q <= 4; q++ {
			p := s.ThroughShare(flow.Broken, q, crop.BrokenSize*c.Size, 0.12*c.Size)
			require.LessOrEqual(t, p, last, "%s %d/4", name, q)
			last = p
		}
		require.Zero(t, last)
	}
}

// TestVisibleDamageAgainstTheSieve: of the visibly broken corn of combines about
// a tenth is broken corn by the sieve, 0.5 to 1 % BCFM where 5 to 15 % is
// damaged (common practice; from memory). Half of the broken kernels part, in
// quarters by chance.
func TestVisibleDamageAgainstTheSieve(t *testing.T) {
	for _, name := range []string{"wheat", "corn"} {
		c := crop.Find(name)
		s := SievingOf(c)
		through := 0.0
		for q, mass := range []float64{1: 1.0 / 12, 2: 1.0 / 6, 3: 1.0 / 4} { // of all that is broken
			if q > 0 {
				through += mass * s.ThroughShare(flow.Broken, uint16(q), crop.BrokenSize*c.Size, 0.12*c.Size)
			}
		}
		require.InDelta(t, 0.1, through, 0.05, name)
	}
}

// TestIsPart: more than a quarter gone.
func TestIsPart(t *testing.T) {
	require.True(t, IsPart(1) && IsPart(2))
	require.False(t, IsPart(3) || IsPart(4))
}
