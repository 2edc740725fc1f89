package study_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"riddle/sim/ask/study"
	"riddle/sim/setup"
	"riddle/sim/trade/crop"
)

// steep is a slope in degrees on which the trade tells the fan to be set anew.
const steep = 8

// onSlope is the curve of the fan on a fore slope, about the speed at which
// practice starts it.
func onSlope(t *testing.T, name string, degrees float64) (study.Curve, *setup.Field, float64) {
	t.Helper()
	s, err := setup.Default(name)
	require.NoError(t, err)
	s.Conditions.ForeSlope = degrees
	fan := setup.Find("fan-speed")
	start := fan.Get(&s)
	w := study.Sweep{Base: s, Field: fan, From: 0.8 * start, To: 1.3 * start, Points: 21}
	c, err := w.Run(foretell)
	require.NoError(t, err)
	return c, fan, start
}

// TestFanOnSlopesAsTheTradeHasIt: uphill the shoe wants less air than on level
// land, downhill more (common practice, no source). It is asked of the curve
// that the page and the command name the best value from. What a tenth more
// air costs must rise from downhill to level to uphill, in each crop; and the
// best value uphill must not lie above all that are as good on level land, nor
// downhill below them.
func TestFanOnSlopesAsTheTradeHasIt(t *testing.T) {
	for _, name := range crop.Names() {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			costs, best := map[float64]float64{}, map[float64]study.Best{}
			for _, degrees := range []float64{steep, 0, -steep} {
				c, fan, start := onSlope(t, name, degrees)
				var ok bool
				best[degrees], ok = c.Best(fan)
				require.True(t, ok)
				require.True(t, best[degrees].ByCost && best[degrees].Inside, "%g°", degrees)
				cost := func(times float64) float64 {
					for i := range c.Points {
						if p := &c.Points[i]; p.Value > (times-0.001)*start && p.Value < (times+0.001)*start {
							return *study.CostPerHa(&p.Report)
						}
					}
					t.Fatalf("no point at %g of the start", times)
					return 0
				}
				costs[degrees] = cost(1.05) - cost(0.95)
			}
			require.Greater(t, costs[steep], costs[0], "more air must cost more uphill")
			require.Less(t, costs[-steep], costs[0], "more air must cost less downhill")
			level := best[0]
			require.LessOrEqual(t, best[steep].At, level.To, "%+v uphill, %+v on level land", best[steep], level)
			require.GreaterOrEqual(t, best[-steep].At, level.From, "%+v downhill, %+v on level land", best[-steep], level)
		})
	}
}

// TestSlopesDoWhatTheFieldSays: the help of the fore slope tells that uphill
// more grain is blown out, and that downhill less is and more trash gets
// through; so does the situation of rolling ground.
func TestSlopesDoWhatTheFieldSays(t *testing.T) {
	for _, name := range crop.Names() {
		at := func(degrees float64) (blown, trash float64) {
			s, err := setup.Default(name)
			require.NoError(t, err)
			s.Conditions.ForeSlope = degrees
			r, err := foretell(s)
			require.NoError(t, err)
			return *r.ShoeLoss.Blown, *r.Tank.Foreign
		}
		for _, degrees := range []float64{steep / 2, steep} {
			level, clean := at(0)
			up, _ := at(degrees)
			down, trash := at(-degrees)
			require.Greater(t, up, level, "%s, %g°", name, degrees)
			require.Less(t, down, level, "%s, −%g°", name, degrees)
			require.Greater(t, trash, clean, "%s, −%g°", name, degrees)
		}
	}
}
