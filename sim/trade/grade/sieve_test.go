package grade

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"riddle/sim/stage/flow"
	"riddle/sim/trade/crop"
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
			require.False(t, s.Through(flow.Sound, flow.Kernel, float32(c.Size*(1+0.08*z))), "%s at %g", name, z)
		}
		require.False(t, s.Through(flow.Broken, flow.Kernel, float32(c.Size*crop.BrokenSize)), "a cracked whole kernel of %s", name)
		require.False(t, s.Through(flow.Piece, flow.Kernel, 0.1), "a piece of %s is not loose", name)
	}
}

// TestTriangle: an ellipse touches all three sides of an equilateral triangle of
// the inscribed circle that across gives, by walking round the ellipse; and a
// round grain needs its own diameter.
func TestTriangle(t *testing.T) {
	s := Sieve{Hole: Triangle}
	require.InDelta(t, 2, s.across(2, 2), 1e-12)
	for _, e := range []struct{ w, t float64 }{{4, 2.6}, {3, 1}, {2.5, 2.4}} {
		r := s.across(e.w, e.t) / 2 // the triangle stands on y = 0 and is 3r high
		reach := 0.0                // furthest out of the side whose normal is (√3/2, 1/2)
		for i := range 36000 {
			a := 2 * math.Pi * float64(i) / 36000
			x, y := e.w/2*math.Cos(a), e.t/2+e.t/2*math.Sin(a)
			reach = max(reach, x*math.Sqrt(3)/2+(y-r)/2)
		}
		require.InDelta(t, r, reach, 1e-6)
		require.Less(t, 2*r, e.w, "a flat grain passes a smaller triangle than its width")
	}
}

// TestPartsFallByTheirSize: by hand. Wheat is 2.7 mm thick, the slot 1.6256 mm: an
// eighth of mean size is 2.7·⅛^⅓ = 1.35 mm thick and falls through; 21 % larger
// it is 1.634 mm and stays. A half of mean size is 2.143 mm and stays; at 0.75 of
// it 1.607 mm, and falls. A light kernel is 0.6·2.7 = 1.62 mm and just falls.
// Soybeans are 6.6 mm wide, the hole 3.175 mm: a sixteenth is 2.62 mm and foreign
// material, an eighth 3.3 mm and not.
func TestPartsFallByTheirSize(t *testing.T) {
	c := crop.Find("wheat")
	s := SievingOf(c)
	part := func(grain uint16, of float64) float32 {
		return float32(of * crop.PartSize(float64(grain)/flow.Kernel) * c.Size)
	}
	require.True(t, s.Through(flow.Broken, 8, part(8, 1)))
	require.False(t, s.Through(flow.Broken, 8, part(8, 1.21)))
	require.False(t, s.Through(flow.Broken, 32, part(32, 0.77)))
	require.True(t, s.Through(flow.Broken, 32, part(32, 0.75)))
	light := func(of float64) float32 { return float32(of * crop.LightSize * c.Size) }
	require.True(t, s.Through(flow.Light, flow.Kernel, light(1)))
	require.False(t, s.Through(flow.Light, flow.Kernel, light(1.01)))
	c = crop.Find("soybeans")
	s = SievingOf(c)
	require.True(t, s.Through(flow.Broken, 4, part(4, 1)))
	require.False(t, s.Through(flow.Broken, 8, part(8, 1)))
}

// sizeCV of parts as the machine draws them.
const sizeCV = 0.16

// falls returns the shares of broken parts of so much of a kernel that fall
// through the two sieves of a crop, over the spread of their sizes, as a
// forecast works them out.
func falls(c *crop.Crop, grain uint16) (through, fine float64) {
	coarse, second := SievingOf(c).Limits(flow.Broken, grain)
	mean := crop.PartSize(float64(grain)/flow.Kernel) * c.Size
	for _, b := range flow.AppendBins(nil, flow.Broken, 1, 0, 1, mean, sizeCV*mean, 5) {
		through += b.Share * b.Below(coarse)
		fine += b.Share * b.Below(min(coarse, second))
	}
	return through, fine
}

// TestSharesAreMeansOverSizes: the shares that a forecast works out against
// counting 200,000 drawn sizes, within four standard errors.
func TestSharesAreMeansOverSizes(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 2))
	const n = 200000
	for _, name := range []string{"wheat", "corn", "barley", "sorghum", "soybeans"} {
		c := crop.Find(name)
		s := SievingOf(c)
		for _, g := range []uint16{1, 8, 16, 32, 64} {
			through, fine := 0, 0
			for drawn := 0; drawn < n; {
				z := random.NormFloat64()
				if z < -3 || z > 3 { // as the machine draws
					continue
				}
				drawn++
				size := float32(crop.PartSize(float64(g)/flow.Kernel) * (1 + sizeCV*z) * c.Size)
				if s.Through(flow.Broken, g, size) {
					through++
				}
				if s.Fine(flow.Broken, g, size) {
					fine++
				}
			}
			p, f := falls(c, g)
			require.InDelta(t, p, float64(through)/n, 0.0045, "%s %d/64", name, g)
			require.InDelta(t, f, float64(fine)/n, 0.0045, "%s %d/64", name, g)
			require.GreaterOrEqual(t, p, f, "what falls through the fine sieve fell through the coarse one")
		}
	}
}

// TestSmallerPartsFallMore: the share through rises as the part gets smaller;
// the smallest all fall, a whole kernel that is only cracked never does.
func TestSmallerPartsFallMore(t *testing.T) {
	for _, name := range crop.Names() {
		c := crop.Find(name)
		if len(SievesOf(name)) == 0 {
			continue
		}
		last := 1.0
		for g := uint16(1); g <= flow.Kernel; g++ {
			p, _ := falls(c, g)
			require.LessOrEqual(t, p, last+1e-12, "%s %d/64", name, g)
			if g == 1 {
				require.Greater(t, p, 0.99, name)
			}
			last = p
		}
		require.Zero(t, last)
	}
}

// TestIsPart: more than a quarter gone, and a chip less than a quarter left.
func TestIsPart(t *testing.T) {
	require.True(t, IsPart(1) && IsPart(32) && IsPart(47))
	require.False(t, IsPart(48) || IsPart(64))
	require.True(t, IsChip(15) && !IsChip(16))
}
