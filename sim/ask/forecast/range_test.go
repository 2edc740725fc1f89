package forecast_test

import (
	"bytes"
	"encoding/json"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"riddle/sim/ask/forecast"
	"riddle/sim/read/readout"
	"riddle/sim/run/trial"
	"riddle/sim/setup"
	"riddle/sim/trade/crop"
)

// sound holds a report to what every reading must be: finite; a share within 0
// and 100; an error below 100; null where there is nothing to tell. Text and
// JSON show it.
func sound(t *testing.T, r *readout.Report, input string) {
	t.Helper()
	text, err := json.Marshal(r) // refuses NaN and infinity
	require.NoError(t, err, input)
	var tree map[string]any
	require.NoError(t, json.Unmarshal(text, &tree))
	var walk func(path string, v any)
	walk = func(path string, v any) {
		switch v := v.(type) {
		case map[string]any:
			for k, w := range v {
				walk(path+"."+k, w)
			}
		case float64:
			require.Less(t, math.Abs(v), 1e7, "%s of %s", path, input)
			if isShare(path) {
				require.GreaterOrEqual(t, v, -1e-9, "%s of %s", path, input)
				require.LessOrEqual(t, v, 100+1e-9, "%s of %s", path, input)
			}
			if strings.Contains(path, "_se_pct.") {
				require.Less(t, v, 100.0, "%s of %s", path, input)
			}
		}
	}
	walk("", tree)
	var page bytes.Buffer
	require.NoError(t, readout.Print(&page, r))
	for _, bad := range []string{"NaN", "Inf", "e+"} {
		require.NotContains(t, page.String(), bad, input)
	}
	if r.Loss.Processing == nil {
		require.Nil(t, r.LossSE.Processing, input)
		require.Nil(t, r.Money.CostPerHa, input)
	}
	if r.Tank.Foreign == nil {
		require.Nil(t, r.Tank.Grade, input)
	}
}

// isShare reports whether a reading is a share of a whole. What comes back a
// pass of the grain fed may be more than all of it.
func isShare(path string) bool {
	for _, group := range []string{".loss_pct.", ".shoe_loss_pct.", ".concave.", ".returns.", ".tank."} {
		if strings.HasPrefix(path, group) && path != ".returns.pct_of_grain" {
			return group == ".loss_pct." || group == ".shoe_loss_pct." || strings.HasSuffix(path, "_pct")
		}
	}
	return false
}

// anywhere draws a setup from the whole legal range: each field is at its start,
// at an end of its range, or anywhere in it.
func anywhere(rng *rand.Rand, s *setup.Setup) {
	c := crop.Find(s.Crop)
	for i := range setup.Fields {
		f := &setup.Fields[i]
		if !f.On(c) {
			continue
		}
		v := f.Get(s)
		switch rng.IntN(5) {
		case 0:
			v = f.From
		case 1:
			v = f.To
		case 2:
			v = f.From + (f.To-f.From)*rng.Float64()
		}
		if f.Switch() {
			v = float64(rng.IntN(2))
		}
		if f.Set(s, v) != nil {
			panic(f.Name) // within its range
		}
	}
}

// TestEveryReadingIsSound walks the whole legal range, by forecast: each field
// at both ends, and setups drawn from all of it.
func TestEveryReadingIsSound(t *testing.T) {
	drawn := 60
	if testing.Short() {
		drawn = 12
	}
	for _, name := range crop.Names() {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			start, err := setup.Default(name)
			require.NoError(t, err)
			ask := func(s setup.Setup) {
				r, err := forecast.Report(s)
				require.NoError(t, err)
				input, err := json.Marshal(s)
				require.NoError(t, err)
				sound(t, &r, string(input))
			}
			for i := range setup.Fields {
				f := &setup.Fields[i]
				for _, v := range []float64{f.From, f.To} {
					if s := start; f.On(crop.Find(name)) && f.Set(&s, v) == nil {
						ask(s)
					}
				}
			}
			rng := rand.New(rand.NewPCG(11, uint64(len(name))))
			for range drawn {
				s := start
				anywhere(rng, &s)
				ask(s)
			}
		})
	}
}

// TestEveryRunIsSound does the same with a few short runs, empty machines and
// plugged ones among them.
func TestEveryRunIsSound(t *testing.T) {
	for i, name := range []string{"wheat", "soybeans", "corn"} {
		rng := rand.New(rand.NewPCG(12, uint64(i)))
		for _, plan := range []trial.Plan{{Seconds: 4}, {Warmup: 8, Seconds: 4}, {Warmup: 11, Seconds: 3}} {
			s, err := setup.Default(name)
			require.NoError(t, err)
			anywhere(rng, &s)
			_, r, err := trial.Run(s, plan, nil)
			require.NoError(t, err)
			input, err := json.Marshal(s)
			require.NoError(t, err)
			sound(t, &r, string(input))
		}
	}
}
