package forecast

import (
	"testing"

	"github.com/stretchr/testify/require"

	"riddle/sim/setup"
	"riddle/sim/trade/crop"
)

// Heavy feeding wants more wind than light feeding, since chaff checks the blast
// (Stephenson 1903, Farm Engines and How to Run Them): with the fan set for more
// than there is, the less is fed the more is blown over, in every crop.
func TestAFanForHeavyFeedBlowsMoreOfALightOne(t *testing.T) {
	for _, name := range crop.Names() {
		last := 0.0
		for _, feed := range []float64{1, 1.0 / 2, 1.0 / 4} {
			_, r := told(t, name, func(s *setup.Setup) {
				s.Settings.Fan *= 1.4
				s.Settings.GroundSpeed *= feed
			})
			require.Greater(t, *r.ShoeLoss.Blown, last, "%s, feed × %g", name, feed)
			last = *r.ShoeLoss.Blown
		}
	}
}
