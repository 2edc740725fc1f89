package setup

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"riddle/sim/trade/crop"
)

func TestDefaultsAreLegalAndUsual(t *testing.T) {
	for _, name := range crop.Names() {
		s, err := Default(name)
		require.NoError(t, err, name)
		require.NoError(t, s.Validate(), name)
		c := crop.Find(name)
		for i := range Fields {
			f := &Fields[i]
			if u, ok := f.Usual(c); ok {
				v := f.Get(&s)
				require.True(t, u.From <= v && v <= u.To, "%s: %s starts at %v, usual %v", name, f.Name, v, u)
				require.True(t, f.From <= u.From && u.To <= f.To, "%s: usual %s is legal", name, f.Name)
			}
		}
	}
}

// Each field takes both ends of its legal range and nothing beyond, and what
// it refuses leaves the setup as it was.
func TestLegalRanges(t *testing.T) {
	for i := range Fields {
		f := &Fields[i]
		s, err := Default("wheat")
		require.NoError(t, err)
		for _, v := range []float64{f.From, f.To} {
			require.NoError(t, f.Set(&s, v), f.Name)
			require.Equal(t, v, f.Get(&s), f.Name)
			require.NoError(t, s.Validate(), f.Name)
		}
		before := s
		for _, v := range []float64{f.From - 0.01, f.To + 0.01, math.NaN(), math.Inf(1), math.Inf(-1)} {
			err := f.Set(&s, v)
			require.ErrorContains(t, err, f.Name)
			require.NotContains(t, err.Error(), "\n")
			require.Equal(t, before, s, f.Name)
		}
	}
}

func TestReadTakesUnits(t *testing.T) {
	s, err := Default("wheat")
	require.NoError(t, err)
	require.NoError(t, Find("upper-sieve").Read(&s, "1/2in"))
	require.InDelta(t, 12.7, s.Settings.Upper, 1e-9)
	require.NoError(t, Find("yield").Read(&s, "60bu/ac")) // 60 × 0.067251 t/ha
	require.InDelta(t, 4.035, s.Conditions.Yield, 0.001)
	require.NoError(t, Find("chopper").Read(&s, "off"))
	require.False(t, s.Settings.Chopper)
	for _, bad := range []string{"12rpm", "wide", "", "1e999", "-1"} {
		err := Find("upper-sieve").Read(&s, bad)
		require.ErrorContains(t, err, "2 to 24 mm", bad)
	}
}

// A corn header has no reel and no cutter bar.
func TestCornHasNoReel(t *testing.T) {
	s, err := Default("corn")
	require.NoError(t, err)
	for _, name := range []string{"reel-index", "cutting-height"} {
		require.ErrorContains(t, Find(name).Set(&s, 50), name)
		_, ok := Find(name).Usual(crop.Find("corn"))
		require.False(t, ok)
	}
}

func TestUnknownCropIsNamed(t *testing.T) {
	_, err := Default("rye")
	require.ErrorContains(t, err, "rye")
	require.ErrorContains(t, err, "wheat, barley")
}

// Common practice: soybeans run the cylinder at 450 to 480 rpm and the fan at
// about 1,000; corn wants a wider clearance than soybeans, wheat a tighter one;
// the pre-sieve is closed for soybeans and open for corn.
func TestStartsFollowPractice(t *testing.T) {
	wheat, _ := Default("wheat")
	soy, _ := Default("soybeans")
	corn, _ := Default("corn")
	require.True(t, soy.Settings.CylinderSpeed >= 450 && soy.Settings.CylinderSpeed <= 480)
	require.InDelta(t, 1000, soy.Settings.Fan, 50)
	require.Greater(t, corn.Settings.Clearance, soy.Settings.Clearance)
	require.Less(t, wheat.Settings.Clearance, soy.Settings.Clearance)
	require.Zero(t, soy.Settings.PreSieve)
	require.Positive(t, corn.Settings.PreSieve)
}
