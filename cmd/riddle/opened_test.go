package main

import (
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"riddle/scenarios"
	"riddle/sim"
	"riddle/sim/read/readout"
	"riddle/sim/setup"
	kept "riddle/web/share"
)

// pairOf is two machines in a situation whose field changes, with a condition
// taken in hand and a price.
func pairOf(t *testing.T) kept.Kept {
	t.Helper()
	sc := scenarios.Find("soybeans-rolling-ground")
	require.NotNil(t, sc.Course(), "its field changes")
	s, err := sc.Setup()
	require.NoError(t, err)
	s.Seed, s.Settings.Fan, s.Conditions.SideSlope, s.Conditions.Yield = 1<<63+5, 777.5, 3, 2.25
	k := kept.Kept{Model: sim.Model, Situation: sc.Name, Setup: s, Price: 9.875}
	other := s.Settings
	other.Fan = 1010
	k.Second = &other
	return k
}

func saved(t *testing.T, text []byte) string {
	t.Helper()
	file := filepath.Join(t.TempDir(), "saved.json")
	require.NoError(t, os.WriteFile(file, text, 0o600))
	return file
}

// What the page saves runs on the command line, as a file and as a link alike:
// the machine asked for, along its situation's field, at its price.
func TestWhatThePageSavesRuns(t *testing.T) {
	k := pairOf(t)
	address := "http://127.0.0.1:8321/?lang=de#" + k.Link()
	for name, input := range map[string][]string{
		"file":      {"--scenario", saved(t, k.File())},
		"with mark": {"--scenario", saved(t, append([]byte("\ufeff"), k.File()...))},
		"address":   {"--link", address},
		"fragment":  {"--link=" + k.Link()},
	} {
		for i, fan := range []float64{777.5, 1010} {
			in := append([]string{"run", "--warmup", "0", "--seconds", "2", "--json"}, input...)
			if i == 1 {
				in = append(in, "--second")
			}
			code, out, errs := riddle(in...)
			require.Zero(t, code, "%s: %s", name, errs)
			require.Equal(t, i == 0, strings.Contains(errs, "--second takes the other"), "%s: %s", name, errs)
			var r readout.Report
			require.NoError(t, json.Unmarshal([]byte(out), &r))
			require.Equal(t, "soybeans", r.Crop)
			require.Equal(t, uint64(1<<63+5), r.Seed)
			require.Equal(t, fan, r.Settings["fan_speed_rpm"])
			require.Equal(t, 3.0, r.Conditions["side_slope_deg"], "taken in hand: the field leaves it")
			require.Equal(t, 9.875, *r.Money.PerBushel)
			require.Equal(t, "as given", r.Money.AsOf)
		}
	}
}

// What the command keeps is what the page would keep, price and all, and an
// option on top of a file wins.
func TestWhatTheCommandKeepsIsReadAsThePageReadsIt(t *testing.T) {
	k := pairOf(t)
	file := filepath.Join(t.TempDir(), "run.json")
	code, _, errs := riddle("run", "--warmup", "0", "--seconds", "1", "--link", k.Link(), "--set", "fan-speed=900", "--price", "300/t", "--keep", file)
	require.Zero(t, code, errs)
	text, err := os.ReadFile(file)
	require.NoError(t, err)
	r, err := kept.ReadRun(text)
	require.NoError(t, err)
	start := r.Journal.Start
	require.Equal(t, 900.0, start.Setup.Settings.Fan)
	require.Equal(t, k.Setup.Conditions, start.Setup.Conditions)
	require.Equal(t, k.Situation, start.Situation)
	require.Contains(t, start.Held, "side-slope")
	require.InDelta(t, 300*0.0272155422, r.Price, 1e-9) // 60 lb of soybeans are 27.2155422 kg
}

// The first thing said about a strange file is true, in one line and with status
// 2, wherever it is given.
func TestStrangeFilesAreToldInOneLine(t *testing.T) {
	k := pairOf(t)
	file := filepath.Join(t.TempDir(), "run.json")
	code, _, errs := riddle("run", "--warmup", "0", "--seconds", "1", "--keep", file)
	require.Zero(t, code, errs)
	run, err := os.ReadFile(file)
	require.NoError(t, err)
	corn, err := setup.Default("corn")
	require.NoError(t, err)
	ofCorn := string((&kept.Kept{Setup: corn}).File())
	reel := strings.Replace(ofCorn, `"settings": {`, `"settings": {"reel_index": 1.1,`, 1)
	for name, c := range map[string]struct{ text, asScenario, asRun string }{
		"empty":       {"", "It is empty.", "It is empty."},
		"picture":     {"\x89PNG\r\n\x1a\n\x00", "It is a picture.", "It is a picture."},
		"zip":         {"PK\x03\x04\x14\x00", "unpack it first", "unpack it first"},
		"UTF-16":      {"\xff\xfe{\x00}\x00", "UTF-16; save it as UTF-8", "UTF-16; save it as UTF-8"},
		"text":        {"dear diary", "Riddle did not write", "Riddle did not write"},
		"run":         {string(run), "riddle replay makes it again", ""},
		"setup":       {string(k.File()), "", "riddle run --scenario takes it"},
		"situation":   {`{"schema":"riddle.scenario/1"}`, "$.", "the file of a situation"},
		"cut off":     {string(k.File()[:300]), "It is cut off", "riddle run --scenario takes it"},
		"reel, corn":  {reel, "sets reel-index, but the header for corn has none", "riddle run --scenario takes it"},
		"other JSON":  {`{"a":1}`, "not made by Riddle", "not made by Riddle"},
		"newer setup": {`{"schema":"riddle.setup/7"}`, "another version of Riddle", "riddle run --scenario takes it"},
	} {
		path := saved(t, []byte(c.text))
		for _, try := range []struct {
			says string
			args []string
		}{{c.asScenario, []string{"forecast", "--scenario", path}}, {c.asRun, []string{"replay", path}}} {
			if try.says == "" {
				continue
			}
			code, out, errs := riddle(try.args...)
			require.Equal(t, 2, code, "%s: %s", name, errs)
			require.Empty(t, out)
			require.Contains(t, errs, try.says, name)
			require.Regexp(t, `^[^\n]+\n$`, errs)
		}
	}
}
