package facts

import (
	"testing"

	"github.com/stretchr/testify/require"

	"riddle/sim/rules"
	"riddle/testdata/published"
)

// Every value from outside has a computation and every computation a value; it
// holds, or it is said why it does not.
func TestEveryFactHoldsOrSaysWhy(t *testing.T) {
	bench, used := NewBench(), map[string]bool{}
	disagree := 0
	for _, c := range published.All() {
		key, f := bench.find(c.ID)
		if f == nil {
			t.Errorf("%s has no computation", c.ID)
			continue
		}
		used[key] = true
		switch got := bench.Find(c); {
		case !got.Holds && got.Why == "":
			t.Errorf("%s %s: got %.6g %s, expected %.6g ± %.3g (%s)", c.ID, c.What, got.Got, c.Unit, c.Expected, c.Tolerance, c.Source)
		case got.Holds && c.Why != "":
			t.Errorf("%s %s holds with %.6g, yet it is said why it does not", c.ID, c.What, got.Got)
		case !got.Holds:
			disagree++
			t.Logf("%s does not hold: got %.6g %s, expected %.6g ± %.3g: %s", c.ID, got.Got, c.Unit, c.Expected, c.Tolerance, got.Why)
		}
	}
	for key := range bench.laws {
		if !used[key] {
			t.Errorf("the computation %s has no value", key)
		}
	}
	all := len(published.All())
	t.Logf("%d checks, %d do not hold", all, disagree)
	require.LessOrEqual(t, disagree*12, all, "at most one in twelve may disagree")
}

// Every rule of the trade's two tables stands among the values from outside,
// with the sign that the rule itself has.
func TestEveryRuleIsListed(t *testing.T) {
	held := map[string]float64{}
	for _, c := range published.All() {
		held[c.ID] = c.Expected
	}
	for _, r := range rules.All() {
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
