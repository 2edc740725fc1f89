package facts

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"riddle/sim/check/rules"
	"riddle/sim/setup"
	"riddle/sim/trade/crop"
	"riddle/testdata/published"
)

// Every value from outside has a computation and every computation a value; it
// holds, or it is said why it does not.
func TestEveryFactHoldsOrSaysWhy(t *testing.T) {
	bench, used := NewBench(), map[string]bool{}
	disagree, printed := 0, 0
	for _, c := range published.All() {
		key, f := bench.find(c.ID)
		if f == nil {
			t.Errorf("%s has no computation", c.ID)
			continue
		}
		used[key] = true
		switch got := bench.Find(c); {
		case math.IsNaN(got.Got) && c.Subject == "trials":
			t.Errorf("%s %s: the machine gives nothing to read", c.ID, c.What)
		case !got.Holds && got.Why == "":
			t.Errorf("%s %s: got %.6g %s, expected %.6g ± %.3g (%s)", c.ID, c.What, got.Got, c.Unit, c.Expected, c.Tolerance, c.Source)
		case got.Holds && c.Why != "":
			t.Errorf("%s %s holds with %.6g, yet it is said why it does not", c.ID, c.What, got.Got)
		case !got.Holds:
			disagree++
			if c.Printed() || strings.HasPrefix(c.ID, "WM-at-survey") {
				printed++
			}
			t.Logf("%s does not hold: got %.6g %s, expected %.6g ± %.3g: %s", c.ID, got.Got, c.Unit, c.Expected, c.Tolerance, got.Why)
		}
	}
	for key := range bench.laws {
		if !used[key] {
			t.Errorf("the computation %s has no value", key)
		}
	}
	t.Logf("%d checks, %d do not hold, %d of those numbers printed of whole machines", len(published.All()), disagree, printed)
	require.LessOrEqual(t, (disagree-printed)*12, len(published.All()), "printed numbers of whole machines apart, at most one in twelve may disagree")
}

// Every rule of the trade's two tables that a machine can be asked stands among
// the values from outside, with the sign that the rule itself has.
func TestEveryRuleIsListed(t *testing.T) {
	held := map[string]float64{}
	for _, c := range published.All() {
		held[c.ID] = c.Expected
	}
	for _, r := range rules.All() {
		if can, _ := r.Asked(); !can {
			continue
		}
		want, ok := held[r.ID]
		require.True(t, ok, r.ID)
		require.Equal(t, float64(r.Want), want, r.ID)
	}
}

// Not a few figures from few works: at least 150 from at least 30.
func TestBreadth(t *testing.T) {
	works := map[string]bool{}
	for _, c := range published.All() {
		works[c.Source.Key] = true
	}
	require.GreaterOrEqual(t, len(published.All()), 150)
	require.GreaterOrEqual(t, len(works), 30)
}

// Enough of them come out of the machine and can fail: at least 120, and among
// these at least 60 numbers that works with a name and a year print of whole
// machines or whole stages.
func TestEnoughCanFail(t *testing.T) {
	emergent, printed := 0, 0
	for _, c := range published.All() {
		if c.Class == "emergent" {
			emergent++
		}
		if c.Printed() && c.Source.Year != 0 {
			printed++
		}
	}
	t.Logf("%d emergent, %d printed", emergent, printed)
	require.GreaterOrEqual(t, emergent, 120)
	require.GreaterOrEqual(t, printed, 60)
}

// A trial names only settings, conditions and readings that there are.
func TestTrialsAreUnderstood(t *testing.T) {
	factors := map[string]bool{}
	for _, name := range crop.Names() {
		for key := range newMachines().of(name).Tank.GradeFactors {
			factors[key] = true
		}
	}
	for _, c := range published.All() {
		if c.Subject != "trials" {
			continue
		}
		require.True(t, known(&c), "%s: %v", c.ID, c.Input)
		require.True(t, c.Of == "" || asked[c.Of] != nil || factors[c.Of], "%s: %s", c.ID, c.Of)
		require.NotNil(t, crop.Find(c.Crop), c.ID)
	}
}

// known reports whether a check's input names only fields, limits and what its
// computation takes.
func known(c *published.Check) bool {
	for key := range c.Input {
		name := strings.TrimPrefix(strings.TrimPrefix(key, "to "), "from ")
		if setup.Find(name) == nil && key != "per_kwh" && key != "loss" && key != "times" {
			return false
		}
	}
	return true
}
