package facts

import (
	"testing"

	"github.com/stretchr/testify/require"

	"riddle/testdata/published"
)

// Every value from outside has a computation and every computation a value; it
// holds, or it is said why it does not.
func TestEveryFactHoldsOrSaysWhy(t *testing.T) {
	used := map[string]bool{}
	disagree := 0
	for _, c := range published.All() {
		key, f := find(c.ID)
		if f == nil {
			t.Errorf("%s has no computation", c.ID)
			continue
		}
		used[key] = true
		switch got := Find(c); {
		case !got.Holds && c.Why == "":
			t.Errorf("%s %s: got %.6g %s, expected %.6g ± %.3g (%s)", c.ID, c.What, got.Got, c.Unit, c.Expected, c.Tolerance, c.Source)
		case got.Holds && c.Why != "":
			t.Errorf("%s %s holds with %.6g, yet it is said why it does not", c.ID, c.What, got.Got)
		case !got.Holds:
			disagree++
			t.Logf("%s does not hold: got %.6g %s, expected %.6g ± %.3g", c.ID, got.Got, c.Unit, c.Expected, c.Tolerance)
		}
	}
	for key := range laws {
		if !used[key] {
			t.Errorf("the computation %s has no value", key)
		}
	}
	all := len(published.All())
	t.Logf("%d checks, %d do not hold", all, disagree)
	require.LessOrEqual(t, disagree*12, all, "at most one in twelve may disagree")
}
