package bridge

import (
	"encoding/csv"
	"fmt"
	"math"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"riddle/sim"
	"riddle/sim/read/readout"
	"riddle/sim/run/trial"
	"riddle/sim/setup"
	"riddle/sim/trade/grade"
	"riddle/sim/trade/quantity"
	"riddle/web/reading"
	"riddle/web/runner"
	"riddle/web/speak"
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
func run(t *testing.T, s setup.Setup, w *trial.Stretch) readout.Report {
	t.Helper()
	_, r, err := trial.Run(s, trial.Plan{Warmup: w.Before.Seconds, Seconds: w.Report.WindowS}, nil)
	require.NoError(t, err)
	return r
}

// One question has one answer: of one machine over one window the page, its
// table of readings, its printed sheet and the command's report tell every
// number alike, to the last bit.
func TestOneNumberEach(t *testing.T) {
	s := NewSession()
	require.Empty(t, send(t, s, Command{Do: "crop", Name: "corn"}).Error)
	start := s.run.Machine.Setup()
	require.Empty(t, send(t, s, Command{Do: "step", Value: 45 * sim.TickHz}).Error)
	short, long := s.read().Window(reading.ShortWindow), s.read().Window(reading.LongWindow)
	of := map[*trial.Stretch]readout.Report{&short: run(t, start, &short), &long: run(t, start, &long)}
	for w, report := range of {
		theirs, mine := readings(&report), readings(&w.Report)
		require.Greater(t, len(theirs), 100)
		for path, v := range theirs {
			require.Contains(t, mine, path)
			require.Equal(t, v, mine[path], path)
		}
		require.Len(t, mine, len(theirs))
	}

	a, b := of[&short], of[&long]
	st := s.State()
	now, minute := readings(&a), readings(&b)
	for _, row := range st.Losses {
		of := ".loss"
		if row.Inner {
			of = ".shoe_loss"
		}
		require.Equal(t, now[of+"_pct."+row.ID], *row.Short.V, row.ID)
		require.Equal(t, now[of+"_se_pct."+row.ID], *row.Short.SE, row.ID)
		require.Equal(t, minute[of+"_pct."+row.ID], *row.Long.V, row.ID)
		require.Equal(t, minute[of+"_se_pct."+row.ID], *row.Long.SE, row.ID)
		if !row.Inner {
			require.Equal(t, minute[".loss_kg_ha."+row.ID], *row.PerHa.V, row.ID)
			require.Equal(t, minute[".loss_kernels_m2."+row.ID], *row.Area[0].V, row.ID)
			require.Equal(t, minute[".loss_kernels_ft2."+row.ID], *row.Area[1].V, row.ID)
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
	straw := long.After.Tally.Walkers.MOG + long.After.Tally.Walkers.MOGOver - long.Before.Tally.Walkers.MOG - long.Before.Tally.Walkers.MOGOver
	require.InEpsilon(t, float64(straw)*1e-9*readout.WholeMachine(s.run.Machine.Crop())/b.WindowS, *b.Loads.Walkers, 1e-12)

	require.Equal(t, *b.Tank.Grade, st.Grade.Text.With["grade"])
	names := []string{}
	if by, ok := st.Grade.Text.With["factors"].([]*speak.Message); ok {
		for _, m := range by {
			names = append(names, m.Key)
		}
	}
	keys := []string{}
	for _, a := range grade.Factors("corn") {
		if slices.Contains(b.Tank.GradedKeys, a.Key) {
			keys = append(keys, speak.FactorKey(a.Name))
		}
	}
	require.ElementsMatch(t, keys, names)
	var printed strings.Builder
	require.NoError(t, readout.Print(&printed, &b))
	for _, text := range []string{
		fmt.Sprintf("walkers %.2f ± %.2f kg/s", *b.Loads.Walkers, *b.LoadsSE.Walkers), fmt.Sprintf("shoe %.2f ± %.2f kg/s", *b.Loads.Shoe, *b.LoadsSE.Shoe),
		fmt.Sprintf("takes %.0f %% of what its drive belt can carry", *b.Cylinder.OfDrive), *b.Tank.Grade + " for what the machine does to the sample",
	} {
		require.Contains(t, printed.String(), text)
	}
	for _, l := range st.Money.Lines {
		if l.Key == "money.cost" {
			require.InDelta(t, *b.Money.CostPerHa, *l.Value, 1e-9)
		}
	}
	require.InDelta(t, *b.Money.NetH, *st.Money.PerHour, 1e-6)

	table, err := csv.NewReader(strings.NewReader(s.read().CSV())).ReadAll()
	require.NoError(t, err)
	head, last := table[0], table[len(table)-1]
	require.Equal(t, []string{"45", "10"}, last[3:5])
	for i := range reading.Columns {
		c := &reading.Columns[i]
		path, listed := inReport[c.Key]
		if id, loss := strings.CutPrefix(c.Key, "loss."); loss {
			path, listed = map[bool]string{false: ".loss_pct.", true: ".shoe_loss_pct."}[id == "blown" || id == "ridden"]+id, true
		}
		require.True(t, listed, c.Key)
		require.Equal(t, strconv.FormatFloat(math.Round(quantity.Metric.Scale(c.Dim, "corn").Shown(now[path].(float64))*1e4)/1e4, 'f', -1, 64), last[5+i], head[5+i])
	}
}

// inReport is where the report tells what a column does, losses apart.
var inReport = map[string]string{
	"read.grain": ".feed.grain_t_h", "read.mog": ".feed.mog_kg_s", "read.area": ".feed.area_ha_h",
	"read.cylinder.speed": ".cylinder.speed_rpm", "read.cylinder.power": ".cylinder.power_kw", "read.engine.power": ".power.total_kw",
	"read.concave": ".concave.separated_pct", "read.walker.mog": ".loads.walkers_mog_kg_s", "read.shoe.mog": ".loads.shoe_mog_kg_s",
	"read.lost": ".loss_kg_ha.total", "read.lost.m2": ".loss_kernels_m2.total", "read.lost.ft2": ".loss_kernels_ft2.total",
	"read.returns": ".returns.pct_of_grain", "read.returns.free": ".returns.free_grain_pct", "read.returns.unthreshed": ".returns.unthreshed_pct", "read.returns.mog": ".returns.mog_pct",
	"read.tank.sound": ".tank.sound_pct", "read.tank.broken": ".tank.broken_pct", "read.tank.unthreshed": ".tank.unthreshed_pct", "read.tank.foreign": ".tank.foreign_pct",
	"read.weight": ".tank.test_weight_kg_hl",
}

// Readings of the past are of the settings and conditions of the past: the
// moisture of a second is what it was then.
func TestPastReadingsKeepTheirConditions(t *testing.T) {
	s := NewSession()
	send(t, s, Command{Do: "step", Value: 30 * sim.TickHz})
	was := s.read().Until(s.run.Record.At(30), reading.ShortWindow).Report
	require.Empty(t, send(t, s, Command{Do: "set", Name: "grain-moisture", Text: "22"}).Error)
	send(t, s, Command{Do: "step", Value: sim.TickHz})
	require.Equal(t, was, s.read().Until(s.run.Record.At(30), reading.ShortWindow).Report)
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
	send(t, s, Command{Do: "step", Value: runner.SettleAfter * sim.TickHz})
	require.Contains(t, moved(s), "moved.before", "the machine was filling")
	require.Nil(t, s.words().changes()[0].Before[0].Value.V)
	require.NotNil(t, s.words().changes()[0].After[0].Value.V)

	send(t, s, Command{Do: "set", Name: "fan-speed", Text: "910"})
	send(t, s, Command{Do: "step", Value: 10 * sim.TickHz})
	send(t, s, Command{Do: "set", Name: "lower-sieve", Text: "9"})
	send(t, s, Command{Do: "step", Value: runner.SettleAfter * sim.TickHz})
	require.Contains(t, moved(s), "moved.unsettled", "the fan had just been changed")

	send(t, s, Command{Do: "set", Name: "cutting-height", Text: "100"})
	send(t, s, Command{Do: "step", Value: runner.SettleAfter * sim.TickHz})
	require.Contains(t, moved(s), "loss.total", "a cutter bar above the heads leaves them standing")
}

// While the machine fills the page tells no loss, and says why.
func TestPageTellsNoLossWhileFilling(t *testing.T) {
	s := NewSession()
	for second := 1; second <= 25; second++ {
		send(t, s, Command{Do: "step", Value: sim.TickHz})
		st := s.State()
		for _, row := range st.Losses {
			for _, q := range []speak.Q{row.Now, row.Short, row.Long} {
				if q.V == nil {
					require.Nil(t, q.SE)
					continue
				}
				require.GreaterOrEqual(t, second, 12, row.ID)
				require.Less(t, *q.V, 10.0, "%s at %d s", row.ID, second)
				require.Less(t, *q.SE, 1.0, "%s at %d s", row.ID, second)
			}
		}
		if st.Losses[reading.RowCount-1].Short.V == nil {
			require.Contains(t, []string{"sum.none", "sum.filling"}, st.Sum[0].Key, "%d s", second)
		}
	}
	require.NotNil(t, s.State().Losses[reading.RowCount-1].Long.V)
}
