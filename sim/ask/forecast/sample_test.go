package forecast

import (
	"testing"

	"github.com/stretchr/testify/require"

	"riddle/sim/read/readout"
	"riddle/sim/setup"
)

// TestTheSampleAnswers: the signs that the trade teaches for grade factors and
// test weight (extension advice; common practice), in the crops that have the
// factor. Up is a change of the setting or condition to a factor of its start.
func TestTheSampleAnswers(t *testing.T) {
	tank := func(name string, change func(*setup.Setup)) readout.Tank {
		s, err := setup.Default(name)
		require.NoError(t, err)
		s.Conditions.LightGrain = 3
		change(&s)
		r, err := Report(s)
		require.NoError(t, err)
		require.Equal(t, "running", r.State, name)
		return r.Tank
	}
	rules := []struct {
		what   string
		change func(*setup.Setup)
		sign   int
		keys   []string // of grade factors; empty is the test weight in kg/hL
	}{
		{"a stronger fan", func(s *setup.Setup) { s.Settings.Fan *= 1.1 }, 1, []string{""}},
		{"a stronger fan", func(s *setup.Setup) { s.Settings.Fan *= 1.1 }, -1, []string{"dockage_pct", "foreign_material_pct", "thin_pct", "shrunken_and_broken_pct"}},
		{"a faster cylinder", func(s *setup.Setup) { s.Settings.CylinderSpeed *= 1.1 }, 1,
			[]string{"splits_pct", "broken_pct", "broken_corn_pct", "broken_kernels_pct", "skinned_and_broken_pct", "broken_and_foreign_pct", "shrunken_and_broken_pct"}},
		{"a wider concave", func(s *setup.Setup) { s.Settings.Clearance *= 1.2 }, -1,
			[]string{"splits_pct", "broken_pct", "broken_corn_pct", "broken_kernels_pct", "skinned_and_broken_pct"}},
		{"a wider lower sieve", func(s *setup.Setup) { s.Settings.Lower *= 1.2 }, 1, []string{"dockage_pct", "conspicuous_admixture_pct"}},
		{"light grain", func(s *setup.Setup) { s.Conditions.LightGrain = 8 }, 1, []string{"thin_pct", "shrunken_and_broken_pct", "total_defects_pct"}},
		{"light grain", func(s *setup.Setup) { s.Conditions.LightGrain = 8 }, -1, []string{""}},
		{"wetter grain", func(s *setup.Setup) { s.Conditions.GrainMoisture += 2 }, -1, []string{""}},
		{"green weeds", func(s *setup.Setup) { s.Conditions.GreenWeeds = 8 }, 1, []string{"dockage_pct", "conspicuous_admixture_pct"}},
	}
	for _, name := range []string{"wheat", "barley", "soybeans", "corn", "canola", "sorghum"} {
		before := tank(name, func(*setup.Setup) {})
		for _, r := range rules {
			after := tank(name, r.change)
			for _, key := range r.keys {
				a, b := before.GradeFactors[key], after.GradeFactors[key]
				if key == "" {
					a, b = before.TestWeight, after.TestWeight
				}
				if a == nil { // not a factor of this crop
					continue
				}
				require.Positive(t, float64(r.sign)*(*b-*a), "%s: %s moves %q from %g to %g", name, r.what, key, *a, *b)
			}
		}
	}
}
