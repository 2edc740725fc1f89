package study_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"riddle/sim/ask/forecast"
	"riddle/sim/ask/study"
	"riddle/sim/read/readout"
	"riddle/sim/setup"
	"riddle/sim/trade/crop"
)

func foretell(s setup.Setup) (readout.Report, error) { return forecast.Report(s) }

// TestTuneAgainstGrid: on the machine itself, with the cleaning settings free,
// the search finds nothing worse than the best of a grid over their whole
// usual ranges, and asks fewer setups.
func TestTuneAgainstGrid(t *testing.T) {
	if testing.Short() {
		t.Skip("a grid takes seconds")
	}
	for name, deep := range map[string]int{"canola": 5} {
		base, err := setup.Default(name)
		require.NoError(t, err)
		c := crop.Find(name)
		hold, free := []string{}, []*setup.Field{}
		for _, f := range study.Tunable(c) {
			switch f.Name {
			case "fan-speed", "upper-sieve", "lower-sieve":
				free = append(free, f)
			default:
				hold = append(hold, f.Name)
			}
		}
		require.Len(t, free, 3)
		got, err := study.Tune(study.Question{Base: base, Hold: hold, Ask: study.OneByOne(foretell)})
		require.NoError(t, err)
		asked, best := grid(t, base, c, free, deep)
		require.LessOrEqual(t, got.Cost.After.Total, best)
		require.Less(t, got.Evaluations, asked)
		require.True(t, study.Allowed(&got.After))
		for _, f := range study.Tunable(c) {
			b, _ := f.Usual(c)
			require.GreaterOrEqual(t, f.Get(&got.Found), b.From, f.Name)
			require.LessOrEqual(t, f.Get(&got.Found), b.To, f.Name)
		}
		t.Logf("%s: %.3f by %d setups, grid %.3f by %d", name, got.Cost.After.Total, got.Evaluations, best, asked)
	}
}

// grid asks deep values of each field, ends included, and returns the least
// cost of those that are allowed.
func grid(t *testing.T, base setup.Setup, c *crop.Crop, free []*setup.Field, deep int) (asked int, best float64) {
	best = 1e9
	steps := make([]int, len(free))
	for {
		s := base
		for i, f := range free {
			b, _ := f.Usual(c)
			require.NoError(t, f.Set(&s, b.From+(b.To-b.From)*float64(steps[i])/float64(deep-1)))
		}
		r, err := foretell(s)
		require.NoError(t, err)
		asked++
		if cost, ok := study.CostOf(&r); ok && study.Allowed(&r) {
			best = min(best, cost.Total)
		}
		at := 0
		for ; at < len(steps); at++ {
			if steps[at]++; steps[at] < deep {
				break
			}
			steps[at] = 0
		}
		if at == len(steps) {
			return asked, best
		}
	}
}
