package trial

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"riddle/sim"
	"riddle/sim/read/readout"
	"riddle/sim/setup"
	"riddle/sim/stage/flow"
)

// bands are what practice sees of a machine of this class at its starting
// settings, in percent.
var bands = []struct {
	name     string
	from, to float64
	of       func(*readout.Report) *float64
}{
	{"unthreshed loss", 0.1, 1.0, func(r *readout.Report) *float64 { return r.Loss.Unthreshed }},
	{"concave separation", 80, 94, func(r *readout.Report) *float64 { return r.Concave.Separated }},
	{"walker loss", 0.15, 1.0, func(r *readout.Report) *float64 { return r.Loss.Walker }},
	{"shoe loss", 0.1, 1.0, func(r *readout.Report) *float64 { return r.Loss.Shoe }},
	{"processing loss", 0.6, 2.5, func(r *readout.Report) *float64 { return r.Loss.Processing }},
	{"broken in the tank", 0.5, 5, func(r *readout.Report) *float64 { return r.Tank.Broken }},
	{"foreign in the tank", 0.02, 1.5, func(r *readout.Report) *float64 { return r.Tank.Foreign }},
	{"returns", 1, 15, func(r *readout.Report) *float64 { return r.Returns.OfGrain }},
}

// TestStartingSettings holds each crop's run at its starting settings to the
// bands of practice, and a run with another seed to the same losses within the
// error of their counts.
func TestStartingSettings(t *testing.T) {
	for _, crop := range []string{"wheat", "soybeans", "corn"} {
		t.Run(crop, func(t *testing.T) {
			t.Parallel()
			s := starting(t, crop)
			first := read(t, s, DefaultPlan())
			for _, b := range bands {
				v := b.of(&first)
				require.NotNil(t, v, b.name)
				if *v < b.from || *v > b.to {
					t.Errorf("%s is %.3f %%; wanted is %g to %g", b.name, *v, b.from, b.to)
				}
			}
			s.Seed = 2
			second := read(t, s, DefaultPlan())
			require.NotEqual(t, *first.Digest, *second.Digest)
			a, b := readout.Errors(&first), readout.Errors(&second)
			for name, of := range map[string]func(readout.Loss) *float64{
				"header":     func(l readout.Loss) *float64 { return l.Header },
				"unthreshed": func(l readout.Loss) *float64 { return l.Unthreshed },
				"walker":     func(l readout.Loss) *float64 { return l.Walker },
				"shoe":       func(l readout.Loss) *float64 { return l.Shoe },
			} {
				apart := math.Abs(*of(first.Loss) - *of(second.Loss))
				sigma := math.Hypot(*of(a), *of(b))
				require.Less(t, apart, 4*sigma, "%s differs by more than its count lets it", name)
			}
		})
	}
}

func read(t *testing.T, s setup.Setup, p Plan) readout.Report {
	t.Helper()
	m, r, err := Run(s, p, nil)
	require.NoError(t, err)
	grain, _ := m.Inside()
	require.Equal(t, "running", r.State)
	require.InDelta(t, float64(grain)/flow.Kernel, float64(r.Ledger.Inside), 4, "what the ledger says is inside is inside")
	return r
}

// TestSameRunTwice gives one digest, and a window split from its warm-up the
// other way the same machine.
func TestSameRunTwice(t *testing.T) {
	s := starting(t, "soybeans")
	a, b := read(t, s, Plan{Warmup: 6, Seconds: 4}), read(t, s, Plan{Warmup: 2, Seconds: 8})
	require.Equal(t, *a.Digest, *b.Digest, "reading a machine does not alter it")
	require.Equal(t, a.Ledger, b.Ledger)
	require.Equal(t, 4.0, a.WindowS)
}

// TestChange: a change takes hold at its time, not before, and stands in the
// report.
func TestChange(t *testing.T) {
	s := starting(t, "wheat")
	plain := read(t, s, Plan{Warmup: 3, Seconds: 1})
	p := Plan{Warmup: 3, Seconds: 1, Changes: []Change{{At: 3.5, Field: "ground-speed", Value: 10.4}, {At: 2, Field: "unload", Value: 1}}}
	altered := read(t, s, p)
	require.NotEqual(t, *plain.Digest, *altered.Digest)
	require.Equal(t, 10.4, altered.Settings["ground_speed_km_h"])
	require.Equal(t, true, altered.Settings["unload"])
	// Half a second at 5.2 km/h and half a second at 10.4 km/h over 6 m.
	require.InDelta(t, 6*(5.2+10.4)/2/10, *altered.Feed.AreaHaH, 1e-9)
	late := Plan{Warmup: 3, Seconds: 1, Changes: []Change{{At: 4, Field: "fan-speed", Value: 1800}}}
	require.Equal(t, *plain.Digest, *read(t, s, late).Digest, "a change at the very end alters nothing that was")
}

// TestPlugInTheWarmup ends the run where it plugged, with an empty window and
// a ledger that still sums.
func TestPlugInTheWarmup(t *testing.T) {
	s := starting(t, "wheat")
	s.Settings.GroundSpeed, s.Conditions.Yield = 9.4, 8.3
	m, r, err := Run(s, DefaultPlan(), nil)
	require.NoError(t, err)
	require.Equal(t, "plugged", r.State)
	require.Equal(t, m.Seconds(), *r.PluggedAtS)
	require.Less(t, m.Seconds(), 20.0)
	require.Zero(t, r.WindowS)
	require.Nil(t, r.Loss.Total)
	l := r.Ledger
	require.Positive(t, l.KernelsIn)
	require.Equal(t, l.KernelsIn, l.Tank+l.Header+l.Unthreshed+l.Walker+l.Shoe+l.Inside)
}

// TestReach stops a machine at a time, and shows how far it has come.
func TestReach(t *testing.T) {
	var told []float64
	m, err := Reach(starting(t, "corn"), 2.5, func(done float64) { told = append(told, done) })
	require.NoError(t, err)
	require.Equal(t, 2.5, m.Seconds())
	require.Equal(t, []float64{0.4, 0.8}, told)
	_, err = Reach(starting(t, "corn"), math.NaN(), nil)
	require.ErrorContains(t, err, "0 to 86400 s")
}

// BenchmarkRated runs the rated machine at the crop's start, a second at a
// time, and reports how much faster than the clock that is.
func BenchmarkRated(b *testing.B) {
	for _, crop := range []string{"wheat", "soybeans", "corn"} {
		b.Run(crop, func(b *testing.B) {
			s, err := setup.Default(crop)
			require.NoError(b, err)
			m, err := Reach(s, 30, nil)
			require.NoError(b, err)
			n := 0
			for b.Loop() {
				for range sim.TickHz {
					m.Step()
				}
				n++
			}
			b.ReportMetric(float64(n)/b.Elapsed().Seconds(), "sim-s/s")
			b.ReportMetric(float64(m.Live()), "dots")
		})
	}
}
