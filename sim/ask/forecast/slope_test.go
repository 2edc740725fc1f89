package forecast

import (
	"testing"

	"github.com/stretchr/testify/require"

	"riddle/sim/setup"
	"riddle/sim/stage/machines"
	"riddle/sim/trade/crop"
)

// Common practice, no source: uphill the load runs to the rear faster and more is
// lost over the shoe, so that it wants less air; downhill it mats and trash gets
// through, so that it wants more.
func TestSlopesActAsTheTradeHasThem(t *testing.T) {
	for _, name := range crop.Names() {
		at := func(slope, fan float64) *twin {
			s, err := setup.Default(name)
			require.NoError(t, err)
			s.Conditions.ForeSlope = slope
			s.Settings.Fan *= fan
			w := newTwin(machines.Walkers, fit(s.Crop), s)
			require.True(t, w.solve())
			return w
		}
		mat := func(w *twin) (sum float32) {
			for _, load := range w.shoe.Mat() {
				sum += load
			}
			return sum
		}
		level, up, steep := at(0, 1), at(4, 1), at(8, 1)
		shoe := func(w *twin) float64 { r := w.report(); return *r.Loss.Shoe }
		trash := func(w *twin) float64 { r := w.report(); return *r.Tank.Foreign }
		require.Greater(t, shoe(up), shoe(level), "%s, 4° uphill", name)
		require.Greater(t, shoe(steep), shoe(up), "%s, 8° uphill", name)

		down, deep := at(-4, 1), at(-8, 1)
		require.Greater(t, mat(down), mat(level), "%s, mat 4° downhill", name)
		require.Greater(t, mat(deep), mat(down), "%s, mat 8° downhill", name)
		require.Greater(t, trash(down), trash(level), "%s, 4° downhill", name)
		require.Greater(t, trash(deep), trash(down), "%s, 8° downhill", name)
		require.Less(t, trash(at(-8, 1.1)), trash(deep), "%s, more air downhill", name)
	}
}
