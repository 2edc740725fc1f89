package controls

import (
	"testing"

	"github.com/stretchr/testify/require"

	"riddle/sim/setup"
	"riddle/sim/trade/quantity"
)

// A value stands in its field with as many digits as it needs: those of a step,
// one more where it lies between two, and as a fraction where the trade says it
// so. By hand.
func TestValuesAsAFieldTakesThem(t *testing.T) {
	start, err := setup.Default("wheat")
	require.NoError(t, err)
	for _, c := range []struct {
		name  string
		value float64
		units quantity.System
		text  string
	}{
		{"fan-speed", 910, quantity.Metric, "910"}, {"fan-speed", 912.5, quantity.Metric, "912.5"},
		{"ground-speed", 5.3, quantity.Metric, "5.3"}, {"ground-speed", 5, quantity.Metric, "5"}, {"ground-speed", 5.25, quantity.Metric, "5.25"},
		{"reel-index", 1.2, quantity.Metric, "1.2"}, {"fore-slope", -3, quantity.Metric, "-3"}, {"side-slope", 0, quantity.Metric, "0"},
		{"upper-sieve", 15.875, quantity.Customary, "5/8"}, {"concave-clearance", 31.75, quantity.Customary, "1 1/4"},
		{"upper-sieve", 15.24, quantity.Customary, "0.6"}, {"upper-sieve", 25.4 * 21 / 64, quantity.Customary, "21/64"}, {"upper-sieve", 16, quantity.Customary, "5/8"},
		{"concave-clearance", 25.4, quantity.Customary, "1"}, {"cutting-height", 16.51, quantity.Customary, "6 1/2"},
	} {
		set := start
		f := setup.Find(c.name)
		require.NoError(t, f.Set(&set, c.value))
		require.Equal(t, c.text, Of(f, &set, &start, c.units).Text, "%s %v", c.name, c.value)
	}
}

// What stands elsewhere than at the start has moved, however little.
func TestMovedIsElsewhereThanTheStart(t *testing.T) {
	start, err := setup.Default("wheat")
	require.NoError(t, err)
	set := start
	f := setup.Find("fan-speed")
	require.False(t, Of(f, &set, &start, quantity.Metric).Moved)
	require.NoError(t, f.Set(&set, 911))
	k := Of(f, &set, &start, quantity.Metric)
	require.True(t, k.Moved)
	require.Equal(t, "910 rpm", k.StartHeld)
}
