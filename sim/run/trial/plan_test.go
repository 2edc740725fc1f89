package trial

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"riddle/sim/setup"
)

func starting(t *testing.T, crop string) setup.Setup {
	t.Helper()
	s, err := setup.Default(crop)
	require.NoError(t, err)
	return s
}

// TestPlanRefuses names the field, the value and the range of each bad plan.
func TestPlanRefuses(t *testing.T) {
	ok := DefaultPlan()
	for name, c := range map[string]struct {
		crop string
		edit func(*Plan)
		want []string
	}{
		"negative seconds":    {"wheat", func(p *Plan) { p.Seconds = -1 }, []string{"seconds", "-1 s", "above 0 to 86400 s"}},
		"no seconds":          {"wheat", func(p *Plan) { p.Seconds = 0 }, []string{"seconds", "0 s"}},
		"NaN seconds":         {"wheat", func(p *Plan) { p.Seconds = math.NaN() }, []string{"seconds", "NaN"}},
		"endless":             {"wheat", func(p *Plan) { p.Seconds = math.Inf(1) }, []string{"seconds", "+Inf"}},
		"long warm-up":        {"wheat", func(p *Plan) { p.Warmup = 3601 }, []string{"warmup", "3601 s", "0 to 3600 s"}},
		"change before start": {"wheat", func(p *Plan) { p.Changes = []Change{{-1, "fan-speed", 900}} }, []string{"change", "-1 s", "0 to 120 s"}},
		"change after end":    {"wheat", func(p *Plan) { p.Changes = []Change{{121, "fan-speed", 900}} }, []string{"change", "121 s"}},
		"unknown field":       {"wheat", func(p *Plan) { p.Changes = []Change{{1, "fan", 900}} }, []string{"change", "fan"}},
		"out of range":        {"wheat", func(p *Plan) { p.Changes = []Change{{1, "fan-speed", 9000}} }, []string{"fan-speed", "9000 rpm", "200 to 1800 rpm"}},
		"no such header part": {"corn", func(p *Plan) { p.Changes = []Change{{1, "reel-index", 1.2}} }, []string{"reel-index", "1.2", "corn"}},
	} {
		p := ok
		c.edit(&p)
		err := p.Validate(starting(t, c.crop))
		require.Error(t, err, name)
		require.IsType(t, &setup.Error{}, err, name)
		for _, w := range c.want {
			require.ErrorContains(t, err, w, name)
		}
	}
	require.NoError(t, ok.Validate(starting(t, "corn")))
}

// TestInOrder sorts by time and keeps the order of equal times, so that the
// later of two orders for the same moment holds.
func TestInOrder(t *testing.T) {
	got := inOrder([]Change{{9, "unload", 1}, {3, "fan-speed", 800}, {3, "fan-speed", 900}, {0, "unload", 0}})
	require.Equal(t, []Change{{0, "unload", 0}, {3, "fan-speed", 800}, {3, "fan-speed", 900}, {9, "unload", 1}}, got)
}
