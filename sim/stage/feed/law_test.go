package feed

import (
	"testing"

	"github.com/stretchr/testify/require"

	"riddle/sim/setup"
	"riddle/sim/stage/section"
	"riddle/sim/trade/crop"
)

// Header loss is least at a reel index of 1.1 to 1.25 (extension advice) and
// grows with ground speed and with dry crop (common practice).
func TestShatterLoss(t *testing.T) {
	for _, name := range []string{"wheat", "soybeans"} {
		s, err := setup.Default(name)
		require.NoError(t, err)
		c := crop.Find(name)
		loss := func(reel, speed, moist float64) float64 {
			set := s.Settings
			set.ReelIndex, set.GroundSpeed = reel, speed
			return ShatterLoss(c, &set, moist)
		}
		v := s.Settings.GroundSpeed
		best := loss(1.2, v, 0)
		for _, reel := range []float64{0.8, 1.0, 1.4, 1.8} {
			require.Greater(t, loss(reel, v, 0), best, "%s at reel index %v", name, reel)
		}
		require.Greater(t, loss(1.2, 1.5*v, 0), best)
		require.Greater(t, loss(1.2, v, -4), best)
		require.LessOrEqual(t, loss(2.5, 14, -40), float64(worstLoss))
	}
}

// Cutting higher never raises the MOG that comes in, and leaves the grain as
// it is (Kim & Gregory 2015).
func TestCuttingHigherLeavesStraw(t *testing.T) {
	for _, name := range crop.Names() {
		s, err := setup.Default(name)
		require.NoError(t, err)
		c := crop.Find(name)
		last := -1.0
		for cut := 100.0; cut >= 3; cut-- {
			s.Settings.CuttingHeight = cut
			stand := StandOf(c, &s, section.InnerWidth)
			require.GreaterOrEqual(t, stand.Straw, last, name)
			last = stand.Straw
		}
	}
}

// Wheat at 60 bu/ac (4.035 t/ha), 30 ft (9.144 m) and 4 mph (6.437 km/h) is
// 6.598 kg/s of grain, and 7.917 kg/s of MOG at 1.2 : 1: arithmetic on the
// definitions of the units.
func TestFeedOfAKnownField(t *testing.T) {
	s, err := setup.Default("wheat")
	require.NoError(t, err)
	s.Conditions.Yield, s.Conditions.HeaderWidth, s.Conditions.MOGRatio = 60*0.0672511, 30*0.3048, 1.2
	c := crop.Find("wheat")
	stand := StandOf(c, &s, section.InnerWidth)
	speed := 4 * 0.44704 // m/s
	scale := section.InnerWidth / (c.Slice / 1000)
	require.InEpsilon(t, 6.598, stand.Kernels*c.KernelKg()*speed*scale, 0.001)
	require.InEpsilon(t, 7.917, (stand.Straw+stand.Husk)*1e-9*speed*scale, 0.001)
}

func TestWeedsAreAShareOfAllMOG(t *testing.T) {
	s, err := setup.Default("soybeans")
	require.NoError(t, err)
	s.Conditions.GreenWeeds = 20
	stand := StandOf(crop.Find("soybeans"), &s, section.InnerWidth)
	require.InEpsilon(t, 0.2, stand.Weed/(stand.Weed+stand.Straw+stand.Husk), 1e-9)
}
