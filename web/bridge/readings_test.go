package bridge

import (
	"encoding/csv"
	"fmt"
	"reflect"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"riddle/sim"
	"riddle/sim/read/readout"
	"riddle/sim/run/trial"
	"riddle/sim/setup"
	"riddle/sim/trade/grade"
	"riddle/sim/trade/quantity"
)

// leaves walks a report and returns every reading by its path in JSON.
func leaves(v reflect.Value, path string, all map[string]any) {
	switch v.Kind() {
	case reflect.Pointer, reflect.Interface:
		if v.IsNil() {
			all[path] = nil
			return
		}
		leaves(v.Elem(), path, all)
	case reflect.Struct:
		for i := range v.NumField() {
			name, _, _ := strings.Cut(v.Type().Field(i).Tag.Get("json"), ",")
			leaves(v.Field(i), path+"."+name, all)
		}
	case reflect.Map:
		for _, k := range v.MapKeys() {
			leaves(v.MapIndex(k), path+"."+k.String(), all)
		}
	default:
		all[path] = v.Interface()
	}
}

// apart are what only a run of the command tells: of the run as a whole.
var apart = []string{".tick_hz", ".particles_peak", ".digest", ".sim_s_per_wall_s"}

func readings(r *readout.Report) map[string]any {
	all := map[string]any{}
	leaves(reflect.ValueOf(*r), "", all)
	for _, path := range apart {
		delete(all, path)
	}
	return all
}

// run is what the command reports of the same machine over the same window.
func run(t *testing.T, s setup.Setup, w *span) readout.Report {
	t.Helper()
	_, r, err := trial.Run(s, trial.Plan{Warmup: w.before.Seconds, Seconds: w.report.WindowS}, nil)
	require.NoError(t, err)
	return r
}

// One question has one answer: of one machine over one window the page, its
// table of readings, its printed sheet and the command's report tell every
// number alike, to the last bit.
func TestOneNumberEach(t *testing.T) {
	s := NewSession()
	require.Empty(t, send(t, s, Command{Do: "crop", Name: "corn"}).Error)
	start := s.machine.Setup()
	require.Empty(t, send(t, s, Command{Do: "step", Value: 45 * sim.TickHz}).Error)
	short, long := s.window(shortWindow), s.window(longWindow)
	of := map[*span]readout.Report{&short: run(t, start, &short), &long: run(t, start, &long)}
	for w, report := range of {
		theirs, mine := readings(&report), readings(&w.report)
		require.Greater(t, len(theirs), 100)
		for path, v := range theirs {
			require.Contains(t, mine, path)
			if price, ok := v.(float64); ok && strings.HasPrefix(path, ".money.") { // the page's price is of a tonne
				require.InDelta(t, price, mine[path], 1e-9, path)
				continue
			}
			require.Equal(t, v, mine[path], path)
		}
		require.Len(t, mine, len(theirs))
	}

	a, b := of[&short], of[&long]
	st := s.State()
	for i, row := range st.Losses {
		of := &lossRows[i]
		require.Equal(t, of.pct(&a), row.Short.V, row.ID)
		require.Equal(t, of.se(&a), row.Short.SE, row.ID)
		require.Equal(t, of.pct(&b), row.Long.V, row.ID)
		require.Equal(t, of.se(&b), row.Long.SE, row.ID)
		require.NotNil(t, row.Long.SE, row.ID)
		if of.ground != nil {
			require.Equal(t, of.ground(&b.LossKgHa), row.PerHa.V, row.ID)
		}
	}
	for i, want := range []struct{ v, se *float64 }{
		{b.Tank.Sound, nil}, {b.Tank.Broken, b.TankSE.Broken}, {b.Tank.Unthreshed, b.TankSE.Unthreshed}, {b.Tank.Foreign, nil},
	} {
		require.Equal(t, want.v, st.Tank.Parts[i].Value.V, st.Tank.Parts[i].Key)
		require.Equal(t, want.se, st.Tank.Parts[i].Value.SE, st.Tank.Parts[i].Key)
	}
	for i, v := range []*float64{b.Returns.FreeGrain, b.Returns.Unthreshed, b.Returns.MOG} {
		require.Equal(t, v, st.Returns.Parts[i].Value.V, st.Returns.Parts[i].Key)
	}
	for i, want := range []struct{ v, se, share *float64 }{{a.Cylinder.PowerKW, nil, a.Cylinder.OfDrive}, {a.Loads.Walkers, a.LoadsSE.Walkers, nil}, {a.Loads.Shoe, a.LoadsSE.Shoe, nil}} {
		l := st.Loads[i]
		require.NotNil(t, want.v, l.Key)
		if i == 0 {
			require.Equal(t, want.v, l.Value.V, l.Key)
			require.Equal(t, want.share, l.Share, l.Key)
			require.InDelta(t, 100**want.v/sim.DriveKW, *l.Share, 1e-9, l.Key)
			continue
		}
		require.InDelta(t, 3.6**want.v, *l.Value.V, 1e-9, "%s: kg/s in t/h", l.Key)
		require.InDelta(t, 3.6**want.se, *l.Value.SE, 1e-9, l.Key)
		require.Nil(t, l.Share, l.Key)
	}
	straw := long.after.Tally.Walkers.MOG + long.after.Tally.Walkers.MOGOver - long.before.Tally.Walkers.MOG - long.before.Tally.Walkers.MOGOver
	require.InEpsilon(t, float64(straw)*1e-9*readout.WholeMachine(s.machine.Crop())/b.WindowS, *b.Loads.Walkers, 1e-12)

	require.Equal(t, *b.Tank.Grade, st.Grade.Text.With["grade"])
	names := []string{}
	if by, ok := st.Grade.Text.With["factors"].([]*Message); ok {
		for _, m := range by {
			names = append(names, m.Key)
		}
	}
	keys := []string{}
	for _, a := range grade.Factors("corn") {
		if slices.Contains(b.Tank.GradedKeys, a.Key) {
			keys = append(keys, factorKey(a.Name))
		}
	}
	require.ElementsMatch(t, keys, names)
	var printed strings.Builder
	require.NoError(t, readout.Print(&printed, &b))
	for _, text := range []string{
		fmt.Sprintf("walkers %.2f ± %.2f kg/s", *b.Loads.Walkers, *b.LoadsSE.Walkers), fmt.Sprintf("shoe %.2f ± %.2f kg/s", *b.Loads.Shoe, *b.LoadsSE.Shoe),
		fmt.Sprintf("takes %.0f %% of what its belt passes", *b.Cylinder.OfDrive), *b.Tank.Grade + ", by what the machine makes",
	} {
		require.Contains(t, printed.String(), text)
	}
	for _, l := range st.Money.Lines {
		if l.Key == "money.cost" {
			require.InDelta(t, *b.Money.CostPerHa, *l.Value, 1e-9)
		}
	}
	require.InDelta(t, *b.Money.NetH, *st.Money.PerHour, 1e-6)

	table, err := csv.NewReader(strings.NewReader(s.CSV())).ReadAll()
	require.NoError(t, err)
	head, last := table[0], table[len(table)-1]
	require.Equal(t, []string{"45", "10"}, last[3:5])
	for i := range columns {
		c := &columns[i]
		v := c.get(&a)
		require.NotNil(t, v, c.name)
		require.Equal(t, figure(quantity.Metric.Scale(c.dim, "corn").Shown(*v)), last[5+i], head[5+i])
	}
}

// Readings of the past are of the settings and conditions of the past: the
// moisture of a second is what it was then.
func TestPastReadingsKeepTheirConditions(t *testing.T) {
	s := NewSession()
	send(t, s, Command{Do: "step", Value: 30 * sim.TickHz})
	was := s.until(s.log.at(30), shortWindow).report
	require.Empty(t, send(t, s, Command{Do: "set", Name: "grain-moisture", Text: "22"}).Error)
	send(t, s, Command{Do: "step", Value: sim.TickHz})
	require.Equal(t, was, s.until(s.log.at(30), shortWindow).report)
}

// Nothing is claimed of a change without a reading before it and one after.
func TestNoClaimWithoutBeforeAndAfter(t *testing.T) {
	moved := func(s *Session) string {
		require.NotNil(t, s.State().Notice)
		return encode(s.State().Notice.With["moved"])
	}
	s := NewSession()
	send(t, s, Command{Do: "step", Value: 5 * sim.TickHz})
	require.Empty(t, send(t, s, Command{Do: "set", Name: "fan-speed", Text: "1300"}).Error)
	send(t, s, Command{Do: "step", Value: settleAfter * sim.TickHz})
	require.Contains(t, moved(s), "moved.before", "the machine was filling")
	require.Nil(t, s.Changes()[0].Before[0].Value.V)
	require.NotNil(t, s.Changes()[0].After[0].Value.V)

	send(t, s, Command{Do: "set", Name: "fan-speed", Text: "910"})
	send(t, s, Command{Do: "step", Value: 10 * sim.TickHz})
	send(t, s, Command{Do: "set", Name: "lower-sieve", Text: "9"})
	send(t, s, Command{Do: "step", Value: settleAfter * sim.TickHz})
	require.Contains(t, moved(s), "moved.unsettled", "the fan had just been changed")

	send(t, s, Command{Do: "set", Name: "cutting-height", Text: "100"})
	send(t, s, Command{Do: "step", Value: settleAfter * sim.TickHz})
	require.Contains(t, moved(s), "loss.total", "a cutter bar above the heads leaves them standing")
}

// While the machine fills the page tells no loss, and says why.
func TestPageTellsNoLossWhileFilling(t *testing.T) {
	s := NewSession()
	for second := 1; second <= 25; second++ {
		send(t, s, Command{Do: "step", Value: sim.TickHz})
		st := s.State()
		for _, row := range st.Losses {
			for _, q := range []Q{row.Now, row.Short, row.Long} {
				if q.V == nil {
					require.Nil(t, q.SE)
					continue
				}
				require.GreaterOrEqual(t, second, 12, row.ID)
				require.Less(t, *q.V, 10.0, "%s at %d s", row.ID, second)
				require.Less(t, *q.SE, 1.0, "%s at %d s", row.ID, second)
			}
		}
		if st.Losses[rows-1].Short.V == nil {
			require.Contains(t, []string{"sum.none", "sum.filling"}, st.Sum[0].Key, "%d s", second)
		}
	}
	require.NotNil(t, s.State().Losses[rows-1].Long.V)
}
