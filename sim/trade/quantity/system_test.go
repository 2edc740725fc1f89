package quantity

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// Worked by hand from the definitions of the units (NIST Handbook 44, appendix
// C: 1 mi = 1.609344 km, 1 in = 25.4 mm, 1 ac = 0.40468564 ha, 1 lb =
// 0.45359237 kg) and the legal bushels of 60 lb wheat and 56 lb corn.
func TestCustomaryUnits(t *testing.T) {
	for _, c := range []struct {
		dim   Dimension
		crop  string
		base  float64
		shown float64
		unit  string
	}{
		{Speed, "wheat", 8.04672, 5, "mph"},
		{Opening, "wheat", 12.7, 0.5, "in"},
		{Height, "wheat", 15.24, 6, "in"},
		{Width, "wheat", 9.144, 30, "ft"},
		{Yield, "wheat", 4.035, 60, "bu/ac"}, // 60 bu × 60 lb × 0.45359 kg / 0.40469 ha
		{Yield, "corn", 11.298, 180, "bu/ac"},
		{Lost, "wheat", 67.25, 1, "bu/ac"}, // the rule of thumb: 67 kg/ha is a bushel an acre of wheat
		{Lost, "corn", 62.77, 1, "bu/ac"},
		{Area, "wheat", 0.092903, 1, "ft²"},
		{Temperature, "wheat", 100, 212, "°F"},
		{Temperature, "wheat", -40, -40, "°F"},
		{Density, "wheat", 77.2, 59.98, "lb/bu"}, // 60 lb/bu is 77.2 kg/hL
		{Power, "wheat", 74.57, 100, "hp"},
		{Work, "wheat", 4.0469, 10, "ac/h"},
		{Throughput, "wheat", 10, 39.68, "ton/h"},
		{Rotation, "wheat", 900, 900, "rpm"},
	} {
		s := Customary.Scale(c.dim, c.crop)
		require.Equal(t, c.unit, s.Unit)
		require.InEpsilon(t, c.shown, s.Shown(c.base), 5e-4, "%v %v", c.base, c.dim)
		require.InEpsilon(t, c.base, s.Base(s.Shown(c.base)), 1e-12, "there and back: %v", c.dim)
	}
}

// What the page shows the command line reads.
func TestShownUnitsOfSettingsCanBeParsed(t *testing.T) {
	for _, system := range []System{Metric, Customary} {
		for _, dim := range []Dimension{Speed, Rotation, Opening, Height, Width, Yield, Share, Slope} {
			s := system.Scale(dim, "wheat")
			v, err := Parse("2.5 "+s.Unit, dim, "wheat")
			require.NoError(t, err)
			require.InEpsilon(t, s.Base(2.5), v, 1e-6, "%v", dim)
		}
	}
}

func TestHandySteps(t *testing.T) {
	for _, c := range []struct {
		v, step float64
		digits  int
	}{{0.062, 0.05, 2}, {0.0197, 0.01, 2}, {0.02, 0.02, 2}, {0.39, 0.2, 1}, {1.49, 1, 0}, {10, 10, 0}, {0.1, 0.1, 1}, {73, 50, 0}} {
		step, digits := Handy(c.v)
		require.InDelta(t, c.step, step, 1e-12, "%v", c.v)
		require.Equal(t, c.digits, digits, "%v", c.v)
	}
}

// What a control stops at in the United States: gaps by the sixteenth or, where
// half a millimetre is a step, the thirty-second of an inch; cutting heights by
// the half inch; tenths of a mile an hour; whole feet and bushels. A millimetre
// is 0.0394 in: a sixteenth is the next above it.
func TestNotches(t *testing.T) {
	for _, c := range []struct {
		dim  Dimension
		step float64
		want Notches
	}{
		{Opening, 0.5, Notches{1.0 / 32, 2, 32}}, {Opening, 1, Notches{1.0 / 16, 2, 16}}, {Height, 1, Notches{0.5, 2, 2}},
		{Speed, 0.1, Notches{0.1, 1, 0}}, {Width, 0.1, Notches{1, 0, 0}}, {Yield, 0.1, Notches{1, 0, 0}},
		{Rotation, 10, Notches{10, 0, 0}}, {Share, 0.5, Notches{0.5, 1, 0}}, {Ratio, 0.05, Notches{0.05, 2, 0}}, {Slope, 1, Notches{1, 0, 0}},
	} {
		require.Equal(t, c.want, Customary.Notches(c.dim, "wheat", c.step), "%v", c.dim)
		require.Equal(t, c.step, Metric.Notches(c.dim, "wheat", c.step).Step)
	}
	require.Zero(t, Metric.Parts(Opening))
	require.Equal(t, 32, Customary.Parts(Opening))
}
