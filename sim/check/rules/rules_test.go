package rules

import (
	"sync"
	"testing"

	"github.com/stretchr/testify/require"

	"riddle/sim/ask/forecast"
	"riddle/sim/read/readout"
	"riddle/sim/run/trial"
	"riddle/sim/setup"
	"riddle/sim/trade/crop"
)

func foretell(s setup.Setup, engine float64) (readout.Report, error) {
	if engine != 1 {
		return forecast.Report(s, forecast.WithEngine(engine))
	}
	return forecast.Report(s)
}

// TestRules holds every cell of the trade's two tables against the forecast of
// the whole machine, in every crop. What is listed as unmet must indeed fail
// somewhere, so that the list stays honest.
func TestRules(t *testing.T) {
	cells, unmetCells, used := 0, map[string]bool{}, map[string]bool{}
	var lock sync.Mutex
	t.Run("crops", func(t *testing.T) { // returns when all of them have
		for _, name := range crop.Names() {
			t.Run(name, func(t *testing.T) {
				t.Parallel()
				list, err := CheckCrop(foretell, name)
				require.NoError(t, err)
				require.Greater(t, len(list), 120)
				lock.Lock()
				defer lock.Unlock()
				for _, r := range list {
					cells++
					if r.Holds {
						continue
					}
					unmetCells[r.Rule.ID], used[r.Rule.ID+name] = true, true
					if unmet(r.Rule.ID, name) == "" {
						t.Errorf("%s: %s, but %.4f becomes %.4f", r.Rule.ID, r.Rule.What(), r.Before, r.After)
					}
				}
			})
		}
	})
	for _, e := range exceptions {
		for _, name := range e.crops {
			if !used[e.rule+name] && e.rule[:3] != "SH-" {
				t.Logf("%s holds in %s by now", e.rule, name)
			}
		}
		if !unmetCells[e.rule] && e.rule[:3] != "SH-" {
			t.Errorf("%s holds in every crop: take it off the list", e.rule)
		}
	}
	for _, r := range All() {
		if unmetCells[r.ID] {
			fails := []string{}
			for _, name := range crop.Names() {
				if used[r.ID+name] {
					fails = append(fails, name)
				}
			}
			t.Logf("%s is not met in %v", r.ID, fails)
		}
	}
	t.Logf("%d cells held in all crops together; %d rules of %d are not met in some crop", cells, len(unmetCells), len(All()))
}

// TestRows sums the crops up: a machine of which nothing ever changes keeps
// the rules of little change and no other.
func TestRows(t *testing.T) {
	one, none := 1.0, 0.0
	still := readout.Report{
		State: "running", Loss: readout.Loss{Unthreshed: &one, Walker: &one, Shoe: &one}, ShoeLoss: readout.ShoeLoss{Blown: &one, Ridden: &one},
		Tank: readout.Tank{Broken: &one, Foreign: &one, Unthreshed: &one}, Returns: readout.Returns{OfGrain: &one, MOG: &one, Unthreshed: &one},
		Concave: readout.Concave{MOGThrough: &one}, Feed: readout.Feed{GrainKgS: &one, MOGKgS: &none}, Cylinder: readout.Cylinder{PowerKW: &one},
	}
	rows, err := Rows(func(setup.Setup, float64) (readout.Report, error) { return still, nil })
	require.NoError(t, err)
	require.Len(t, rows, len(All()))
	for _, r := range rows {
		ok, why := r.Rule.Asked()
		switch {
		case !ok:
			require.False(t, r.Holds)
			require.Equal(t, why, r.Why)
		case r.Rule.Want == Little || r.Rule.OrNone:
			require.True(t, r.Holds, r.Rule.ID)
			require.Equal(t, r.Rule.Want, r.Got)
		default:
			require.False(t, r.Holds, r.Rule.ID)
			require.Equal(t, Little, r.Got)
			require.Len(t, r.Fails, r.Crops)
		}
	}
}

// TestTablesAreWhole: each id once; every column of the threshing table in
// every row but where the table itself has no sign, and every change legal.
func TestTablesAreWhole(t *testing.T) {
	seen, rows := map[string]bool{}, map[string]int{}
	for _, r := range All() {
		require.False(t, seen[r.ID], r.ID)
		seen[r.ID] = true
		require.NotEmpty(t, r.Change.Source)
		require.NotEmpty(t, r.Change.Mark)
		require.NotEmpty(t, r.What())
		rows[r.Change.Key]++
		for _, name := range crop.Names() {
			c := crop.Find(name)
			s, err := setup.Default(name)
			require.NoError(t, err)
			if r.Applies(c) {
				r.Change.apply(&s)
				require.NoError(t, s.Validate(), "%s in %s", r.ID, name)
			}
		}
	}
	for key, want := range map[string]int{ // columns of the two tables: six and five
		"drum-up": 7, "drum-down": 6, "gap-tight": 7, "gap-wide": 6, "feed-down": 6, "straw-tough": 6, "walkers-fast": 6, "blocked": 6, "regrind": 6,
		"droop": 5, "fan-up": 5, "fan-down": 5, "upper-open": 5, "upper-closed": 5, "lower-open": 5, "lower-closed": 5, "side-slope": 5, "light": 5, "damp": 5,
	} {
		require.Equal(t, want, rows[key], key)
	}
	for _, e := range exceptions {
		require.NotEmpty(t, e.why)
	}
}

// TestSigns by hand: a tenth of a point or of itself is little, a fifth is
// not; a rise is a rise however small, but not that of a rounding.
func TestSigns(t *testing.T) {
	require.Equal(t, Little, sign(Little, false, 0.30, 0.39))
	require.Equal(t, Rises, sign(Little, false, 0.30, 0.45))
	require.Equal(t, Little, sign(Little, false, 5, 5.4))
	require.Equal(t, Falls, sign(Little, false, 5, 4))
	require.Equal(t, Rises, sign(Rises, false, 1, 1.01))
	require.Equal(t, Little, sign(Rises, false, 1, 1.0001))
	require.Equal(t, Falls, sign(Rises, false, 1, 0.98))
	require.Equal(t, Rises, sign(Rises, true, 1, 0.98), "rises or changes little")
	require.Equal(t, Falls, sign(Rises, true, 1, 0.5))
	require.Equal(t, Little, sign(Falls, false, 0, 0))
}

// sample is a change of each kind with its clearest effect, by particles.
var sample = []struct{ crop, rule string }{
	{"wheat", "TH-T24-worn-unthreshed"},
	{"wheat", "TH-T24-feed-up-walker"},
	{"corn", "CL-E2-upper-closed-ridden"},
	{"canola", "CL-E2-fan-down-ridden"},
	{"barley", "CL-E2-lower-closed-returns"},
}

// TestRulesByParticles runs the sample on the machine itself. A loss must move
// by more than three standard errors of its counts, so that chance does not
// decide the sign.
func TestRulesByParticles(t *testing.T) {
	if testing.Short() {
		t.Skip("particle runs take seconds")
	}
	run := func(s setup.Setup, _ float64) (readout.Report, error) {
		_, r, err := trial.Run(s, trial.Plan{Warmup: 25, Seconds: 24}, nil)
		return r, err
	}
	for _, want := range sample {
		t.Run(want.rule, func(t *testing.T) {
			t.Parallel()
			var rule *Rule
			for _, r := range All() {
				if r.ID == want.rule {
					rule = &r
				}
			}
			require.NotNil(t, rule)
			var errs []readout.Loss
			got, err := rule.Check(func(s setup.Setup, e float64) (readout.Report, error) {
				r, err := run(s, e)
				errs = append(errs, readout.Errors(&r))
				return r, err
			}, want.crop)
			require.NoError(t, err)
			require.True(t, got.Holds, "%.3f to %.3f", got.Before, got.After)
			for _, e := range errs {
				require.NotNil(t, e.Processing)
				require.Greater(t, max(got.After-got.Before, got.Before-got.After), 3**e.Processing)
			}
		})
	}
}
