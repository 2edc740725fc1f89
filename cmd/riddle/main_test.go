package main

import (
	"bytes"
	"encoding/json"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"riddle/scenarios"
	"riddle/sim/read/readout"
)

// riddle runs the command as a shell would.
func riddle(args ...string) (code int, out, errs string) {
	var o, e bytes.Buffer
	code = dispatch(args, &o, &e)
	return code, o.String(), e.String()
}

// TestRefuses: each bad input ends with status 2, nothing on standard output,
// no file, and one line that names the field, the value and what is wanted.
func TestRefuses(t *testing.T) {
	dir := t.TempDir()
	t.Chdir(dir)
	broken := filepath.Join(dir, "broken.json")
	require.NoError(t, os.WriteFile(broken, []byte(`{"schema":"riddle.scenario/1","settings":{"fan_speed_rpm":"fast"}}`), 0o600))
	long := strings.Repeat("9", 5000)
	for name, c := range map[string]struct {
		args string
		want []string
	}{
		"unknown command":      {"harvest", []string{"command", `"harvest"`, "run"}},
		"unknown option":       {"run --croop wheat", []string{"option", "croop", "--crop"}},
		"stray argument":       {"run wheat --json", []string{"argument", `"wheat"`, "--crop"}},
		"option without value": {"run --crop", []string{"option", "crop"}},
		"bool with a value":    {"run --json=perhaps", []string{"option", "perhaps", "json"}},
		"no price":             {"run --price dear", []string{"price", `"dear"`, "per bushel"}},
		"price below nothing":  {"run --price -3", []string{"price", `"-3"`, "above 0"}},
		"price of NaN":         {"forecast --price NaN/t", []string{"price", `"NaN/t"`, "above 0"}},
		"unknown crop":         {"run --crop rye --json", []string{"crop", `"rye"`, "wheat", "soybeans", "corn"}},
		"empty crop":           {"run --crop=", []string{"crop", `""`, "wheat"}},
		"two crops":            {"run --crop wheat --crop corn", []string{"crop", `"corn"`, "given once"}},
		"one crop twice":       {"forecast --crop=wheat --crop=wheat", []string{"crop", `"wheat"`, "given once"}},
		"two seeds":            {"run --seed 1 --seed 2", []string{"seed", `"2"`, "given once"}},
		"an empty second crop": {"run --crop wheat --crop=", []string{"crop", `""`, "given once"}},
		"two files":            {"picture --at 5 --out a.png --out b.png", []string{"out", `"b.png"`, "given once"}},
		"a setting twice":      {"run --set fan-speed=900 --set upper-sieve=12 --set fan-speed=950", []string{"set", `"fan-speed=950"`, "given once"}},
		"a condition twice":    {"tune --condition yield=5 --condition yield=6", []string{"condition", `"yield=6"`, "given once"}},
		"price of nothing":     {"run --price 0", []string{"price", `"0"`, "above 0"}},
		"picture to nowhere":   {"picture --at 86000 --out none/a.png", []string{"out", `"none/a.png"`, `"none"`, "exists"}},
		"clip to nowhere":      {"clip --from 86000 --to 86001 --out none/a.gif", []string{"out", `"none/a.gif"`, `"none"`, "exists"}},
		"chart to nowhere":     {"sweep --vary fan-speed=700:1100:9 --plot none/a.png", []string{"plot", `"none/a.png"`, `"none"`, "exists"}},
		"empty situation":      {"run --scenario=", []string{"scenario", `""`, "wheat-well-set"}},
		"empty seed":           {"run --seed=", []string{"seed", `""`, "whole number"}},
		"setting too high":     {"run --set fan-speed=1900 --json", []string{"fan-speed", `"1900"`, "200 to 1800 rpm"}},
		"setting too low":      {"run --set ground-speed=0.1mph", []string{"ground-speed", `"0.1mph"`, "0.5 to 14 km/h"}},
		"condition too high":   {"run --condition yield=26", []string{"yield", `"26"`, "0.3 to 25 t/ha"}},
		"condition below":      {"run --condition side-slope=-16", []string{"side-slope", `"-16"`, "-15 to 15 degrees"}},
		"NaN":                  {"run --set upper-sieve=NaN", []string{"upper-sieve", `"NaN"`, "2 to 24 mm"}},
		"infinite":             {"run --condition bar-wear=Inf", []string{"bar-wear", `"Inf"`, "0 to 1"}},
		"wrong unit":           {"run --set cylinder-speed=860mm", []string{"cylinder-speed", `"860mm"`, "150 to 1400 rpm"}},
		"no number":            {"run --set lower-sieve=wide", []string{"lower-sieve", `"wide"`, "1 to 19 mm"}},
		"empty value":          {"run --set lower-sieve=", []string{"lower-sieve", `""`, "1 to 19 mm"}},
		"neither on nor off":   {"run --set chopper=maybe", []string{"chopper", `"maybe"`, "on or off"}},
		"no equals sign":       {"run --set fan-speed", []string{"set", `"fan-speed"`, "NAME=VALUE"}},
		"unknown setting":      {"run --set fan=900", []string{"set", `"fan"`, "fan-speed"}},
		"unknown condition":    {"run --condition rain=5", []string{"condition", `"rain"`, "grain-moisture"}},
		"condition as setting": {"run --set yield=5", []string{"set", `"yield"`, "--condition"}},
		"setting as condition": {"run --condition fan-speed=900", []string{"condition", `"fan-speed"`, "--set"}},
		"corn has no reel":     {"run --crop corn --set reel-index=1.2", []string{"reel-index", `"1.2"`, "corn"}},
		"corn cuts nothing":    {"run --crop corn --set cutting-height=20cm", []string{"cutting-height", `"20cm"`, "corn"}},
		"negative seconds":     {"run --seconds -1", []string{"seconds", "-1", "above 0 to 86400 s"}},
		"no seconds":           {"run --seconds 0", []string{"seconds", "0 s", "above 0 to 86400 s"}},
		"NaN seconds":          {"run --seconds NaN", []string{"seconds", `"NaN"`, "above 0 to 86400 s"}},
		"endless":              {"run --seconds 86401", []string{"seconds", "86401", "86400 s"}},
		"negative warm-up":     {"run --warmup=-0.5", []string{"warmup", "-0.5", "0 to 3600 s"}},
		"long warm-up":         {"run --warmup 3601", []string{"warmup", "3601", "0 to 3600 s"}},
		"seed in words":        {"run --seed one", []string{"seed", `"one"`, "whole number"}},
		"seed below zero":      {"run --seed -3", []string{"seed", `"-3"`, "whole number"}},
		"seed too large":       {"run --seed 18446744073709551616", []string{"seed", "18446744073709551616"}},
		"missing file":         {"run --scenario none/such.json", []string{"scenario", "none/such.json", "a readable file"}},
		"unknown situation":    {"run --scenario moonlight", []string{"scenario", `"moonlight"`, "wheat-well-set"}},
		"broken situation":     {"run --scenario " + broken, []string{broken, "$."}},
		"directory":            {"run --scenario .", []string{"scenario", `"."`, "a regular file"}},
		"two starts":           {"run --scenario wheat-well-set --link v=1&crop=wheat&seed=1&end", []string{"link", "v=1", "left out when --scenario is given"}},
		"empty link":           {"run --link=", []string{"link", `""`, "not made by Riddle"}},
		"link of no setup":     {"forecast --link https://farm.example/#top", []string{"link", "#top", "not made by Riddle"}},
		"link cut off":         {"run --link v=1&crop=wheat&seed=1&fan", []string{"link", "cut off"}},
		"link out of range":    {"run --link v=1&crop=wheat&seed=1&fan-speed=5000&end", []string{"link", "5000 for fan-speed", "200 to 1800 rpm"}},
		"link, price of none":  {"run --link v=1&crop=wheat&seed=1&price=0&end", []string{"link", "0 for price", "above 0"}},
		"link, reel for corn":  {"picture --at 1 --out a.png --link v=1&crop=corn&seed=1&reel-index=1.2&end", []string{"link", "sets reel-index", "the header for corn has none"}},
		"link of another crop": {"tune --crop corn --link v=1&crop=wheat&seed=1&end", []string{"crop", `"corn"`, "wheat, the crop of the link"}},
		"two links":            {"run --link v=1&crop=wheat&seed=1&end --link v=1&crop=wheat&seed=1&end", []string{"link", "given once"}},
		"no second machine":    {"run --second --link v=1&crop=wheat&seed=1&end", []string{"second", "two machines"}},
		"second of nothing":    {"run --second", []string{"second", "two machines"}},
		"crop against it":      {"run --scenario corn-well-set --crop wheat", []string{"crop", `"wheat"`, "corn"}},
		"change without time":  {"run --change fan-speed=900", []string{"change", `"fan-speed=900"`, "S:NAME=VALUE"}},
		"change before start":  {"run --change -5:fan-speed=900", []string{"change", "-5 s", "0 to 120 s"}},
		"change after end":     {"run --change 121:fan-speed=900", []string{"change", "121 s", "0 to 120 s"}},
		"change of nothing":    {"run --change 5:wind=900", []string{"change", `"wind"`, "fan-speed", "yield"}},
		"change out of range":  {"run --change 5:fan-speed=9000", []string{"fan-speed", `"9000"`, "200 to 1800 rpm"}},
		"a change twice":       {"run --change 5:fan-speed=900 --change 6:fan-speed=950 --change 5:fan-speed=950", []string{"change", `"5:fan-speed=950"`, "the only change of fan-speed"}},
		"a change in one tick": {"run --change 5:fan-speed=900 --change 4.9999:fan-speed=950", []string{"change", `"4.9999:fan-speed=950"`, "at that moment"}},
		"change at no time":    {"run --change soon:fan-speed=900", []string{"change", `"soon"`, "seconds"}},
		"overlong":             {"run --set fan-speed=" + long, []string{"argument", "4096 bytes"}},
		"long for its kind":    {"run --set fan-speed=" + long[:300], []string{"fan-speed", "…", "200 to 1800 rpm"}},
		"facts as a table":     {"facts --csv", []string{"option", "csv", "--json"}},
		"facts of a crop":      {"facts wheat", []string{"argument", "wheat"}},
		"unknown zone":         {"picture --at 5 --out a.png --zone engine", []string{"zone", `"engine"`, "walkers"}},
		"unknown theme":        {"picture --at 5 --out a.png --theme neon", []string{"theme", `"neon"`, "paper"}},
		"wide":                 {"picture --at 5 --out a.png --width 99999", []string{"width", `"99999"`, "160 to 7680 px"}},
		"no clip file":         {"clip --from 1 --to 2", []string{"out", `""`, ".png"}},
		"clip of a still":      {"clip --from 2 --to 2 --out a.gif", []string{"to", `"2"`, "later than --from"}},
		"long clip":            {"clip --from 0 --to 61 --out a.gif", []string{"to", `"61"`, "60 s"}},
		"clip without an end":  {"clip --from 0 --out a.gif", []string{"to", `""`, "0 to 86400 s"}},
		"clip before start":    {"clip --from -1 --to 2 --out a.gif", []string{"from", "-1", "0 to 86400 s"}},
		"other clip file":      {"clip --from 0 --to 1 --out a.mp4", []string{"out", `"a.mp4"`, ".gif"}},
		"no picture file":      {"picture --at 5", []string{"out", `""`, ".png"}},
		"other picture file":   {"picture --at 5 --out a.jpg", []string{"out", `"a.jpg"`, ".png"}},
		"no time":              {"picture --out a.png", []string{"at", `""`, "0 to 86400 s"}},
		"before the start":     {"picture --at -1 --out a.png", []string{"at", "-1", "0 to 86400 s"}},
		"picture of no crop":   {"picture --at 1 --out a.png --crop rye", []string{"crop", `"rye"`}},
		"no directory":         {"site", []string{"out", `""`, "directory"}},
		"site over a file":     {"site --out " + broken, []string{"out", broken, "a directory"}},
		"no port":              {"serve --addr 127.0.0.1", []string{"addr", `"127.0.0.1"`, "HOST:PORT"}},
		"high port":            {"serve --addr 127.0.0.1:70000 --no-open", []string{"addr", "70000", "65535"}},
	} {
		code, out, errs := riddle(strings.Split(c.args, " ")...)
		require.Equal(t, 2, code, "%s: %s", name, errs)
		require.Empty(t, out, name)
		require.Equal(t, 1, strings.Count(errs, "\n"), "%s: %q is one line", name, errs)
		require.True(t, strings.HasSuffix(errs, "\n"), name)
		require.Less(t, len(errs), 700, name)
		for _, w := range c.want {
			require.Contains(t, errs, w, name)
		}
	}
	files, err := os.ReadDir(".")
	require.NoError(t, err)
	require.Len(t, files, 1, "nothing is written")
}

// TestControlCharacters: what a value holds cannot break the line or colour a
// terminal.
func TestControlCharacters(t *testing.T) {
	for _, args := range [][]string{
		{"run", "--set", "fan-speed=9\n00\x1b[31m"}, {"run", "--crop", "a\nb"}, {"run", "--a\nb"}, {"a\nb"}, {"run", "--scenario", "a\nb.json"},
		{"run", "--change", "1\n:x"}, {"run", "--set", "fan-speed=2000\n"},
	} {
		code, out, errs := riddle(args...)
		require.Equal(t, 2, code, args)
		require.Empty(t, out)
		require.Equal(t, 1, strings.Count(errs, "\n"), "%q", errs)
		require.NotContains(t, errs, "\x1b")
	}
}

// TestRunJSON: one object on standard output, with every key of the contract.
func TestRunJSON(t *testing.T) {
	code, out, errs := riddle("run", "--crop", "corn", "--seconds", "5", "--warmup", "12s", "--seed", "9", "--json",
		"--set", "fan-speed=1100rpm", "--condition", "yield=160bu/ac", "--change", "3:unload=on")
	require.Equal(t, 0, code, errs)
	d := json.NewDecoder(strings.NewReader(out))
	var got map[string]any
	require.NoError(t, d.Decode(&got))
	require.ErrorIs(t, d.Decode(new(any)), io.EOF, "nothing follows the object")
	for object, keys := range map[string]string{
		"":                 "schema model seed crop settings conditions window_s state plugged_at_s plugged_where plugged_why feed loss_pct shoe_loss_pct loss_se_pct shoe_loss_se_pct left_ha loss_kg_ha loss_bu_ac loss_kernels_m2 loss_kernels_ft2 concave returns tank tank_se_pct cylinder loads loads_se power money ledger slice_mm tick_hz particles_peak digest sim_s_per_wall_s",
		"feed":             "grain_kg_s mog_kg_s area_ha_h grain_t_h",
		"loss_pct":         "header unthreshed walker shoe processing total",
		"shoe_loss_pct":    "blown ridden",
		"loss_se_pct":      "header unthreshed walker shoe processing total",
		"shoe_loss_se_pct": "blown ridden",
		"tank_se_pct":      "broken unthreshed",
		"loss_kg_ha":       "header unthreshed walker shoe processing total",
		"loss_bu_ac":       "header unthreshed walker shoe processing total",
		"loss_kernels_m2":  "header unthreshed walker shoe processing total",
		"loss_kernels_ft2": "header unthreshed walker shoe processing total",
		"power":            "cylinder_kw walkers_kw shoe_kw fan_kw chopper_kw header_kw unloading_kw driving_kw total_kw limit_kw total_kwh_per_t",
		"money":            "price_per_bu price_per_t price_as_of crop_per_ha crop_per_h loss_per_ha loss_per_h moisture_discount_pct moisture_per_ha dockage_discount_pct grade_discount_pct discount_per_ha discount_per_h cost_per_ha cost_per_h fines_per_ha storage_per_ha use_per_ha refused machine_per_ha weather_per_ha whole_per_ha net_per_ha net_per_h",
		"concave":          "separated_pct unthreshed_pct mog_through_pct",
		"returns":          "pct_of_grain free_grain_pct unthreshed_pct mog_pct",
		"tank":             "kg sound_pct broken_pct fines_pct unthreshed_pct foreign_pct test_weight_kg_hl grade graded_by graded_by_factors graded_as grade_factors",
		"cylinder":         "speed_rpm power_kw of_drive_pct",
		"loads":            "walkers_mog_kg_s shoe_mog_kg_s",
		"loads_se":         "walkers_mog_kg_s shoe_mog_kg_s",
		"ledger":           "kernels_in tank header unthreshed walker shoe inside",
		"settings":         "ground_speed_km_h cylinder_speed_rpm concave_clearance_mm pre_sieve_mm fan_speed_rpm upper_sieve_mm lower_sieve_mm reel_index cutting_height_cm chopper unload",
		"conditions":       "yield_t_ha mog_ratio grain_moisture_pct straw_moisture_pct green_weeds_pct light_grain_pct side_slope_deg fore_slope_deg bar_wear header_width_m",
	} {
		m := got
		if object != "" {
			m = got[object].(map[string]any)
		}
		var have []string
		for k := range m {
			have = append(have, k)
		}
		require.ElementsMatch(t, strings.Fields(keys), have, object)
	}
	settings, conditions := got["settings"].(map[string]any), got["conditions"].(map[string]any)
	require.Equal(t, "riddle.report/1", got["schema"])
	require.Equal(t, 9.0, got["seed"])
	require.Equal(t, 5.0, got["window_s"])
	require.Equal(t, 1100.0, settings["fan_speed_rpm"])
	require.Equal(t, true, settings["unload"], "the change was made")
	require.Nil(t, settings["reel_index"])
	require.InDelta(t, 160*0.0627677, conditions["yield_t_ha"], 1e-3) // 56 lb of corn on an acre are 62.77 kg/ha
	ledger := got["ledger"].(map[string]any)
	sum := 0.0
	for k, v := range ledger {
		if k != "kernels_in" {
			sum += v.(float64)
		}
	}
	require.Equal(t, ledger["kernels_in"], sum)
	require.Positive(t, got["sim_s_per_wall_s"])
}

// TestRunText is for people: a page with the readings, not JSON.
func TestRunText(t *testing.T) {
	code, out, errs := riddle("run", "--scenario", "soybeans-well-set", "--seconds", "1", "--warmup", "0")
	require.Equal(t, 0, code)
	require.Empty(t, errs, "a short run has no progress to show")
	require.Contains(t, out, "Soybeans, sample no. 7")
	require.Contains(t, out, "straw walkers")
	require.NotContains(t, out, "NaN")
}

// TestPlugIsAResult: three times the rated crop plugs, which is status 0.
func TestPlugIsAResult(t *testing.T) {
	code, out, _ := riddle("run", "--crop", "wheat", "--set", "ground-speed=9.4", "--condition", "yield=8.3t/ha", "--warmup", "0", "--seconds", "40", "--json")
	require.Equal(t, 0, code)
	var r readout.Report
	require.NoError(t, json.Unmarshal([]byte(out), &r))
	require.Equal(t, "plugged", r.State)
	require.Less(t, *r.PluggedAtS, 20.0)
	require.InDelta(t, *r.PluggedAtS, r.WindowS, 1e-9, "the window ends where it plugs")
	require.NotEmpty(t, *r.PluggedIn)
	require.NotEmpty(t, *r.PluggedWhy)
	l := r.Ledger
	require.Equal(t, l.KernelsIn, l.Tank+l.Header+l.Unthreshed+l.Walker+l.Shoe+l.Inside)
}

// TestScenarioWithSettings: what a situation file sets is what runs, and an
// option on top of it wins.
func TestScenarioWithSettings(t *testing.T) {
	name, seed := "wheat-fan-too-high", "77"
	in := inputs{scenario: &name, set: list{"fan-speed=950"}, seed: &seed}
	s, err := in.setup(nil)
	require.NoError(t, err)
	require.Equal(t, 950.0, s.Settings.Fan)
	require.Equal(t, uint64(77), s.Seed)
	want, err := scenarios.Find(name).Setup()
	require.NoError(t, err)
	want.Settings.Fan, want.Seed = 950, 77
	require.Equal(t, want, s)
}

// TestClip writes an animated file of either kind.
func TestClip(t *testing.T) {
	for name, signature := range map[string]string{"c.png": "\x89PNG\r\n\x1a\n", "c.gif": "GIF89a"} {
		file := filepath.Join(t.TempDir(), name)
		code, out, errs := riddle("clip", "--from", "1", "--to", "1.2", "--out", file, "--width", "320", "--zone", "walkers")
		require.Equal(t, 0, code, errs)
		require.Equal(t, file+"\n", out)
		content, err := os.ReadFile(file)
		require.NoError(t, err)
		require.True(t, strings.HasPrefix(string(content), signature))
	}
}

// TestPicture writes a PNG of the asked width, whole or not at all.
func TestPicture(t *testing.T) {
	dir := t.TempDir()
	file := filepath.Join(dir, "m.png")
	code, out, errs := riddle("picture", "--at", "1", "--out", file, "--width", "320", "--zone", "upper", "--theme", "night")
	require.Equal(t, 0, code, errs)
	require.Equal(t, file+"\n", out)
	png, err := os.ReadFile(file)
	require.NoError(t, err)
	require.Equal(t, "\x89PNG\r\n\x1a\n", string(png[:8])) // PNG specification, section 5.2
	require.Equal(t, []byte{0, 0, 1, 64}, png[16:20])      // IHDR: width 320
	passes := filepath.Join(dir, "p.png")
	code, _, errs = riddle("picture", "--at", "12", "--out", file, "--width", "320")
	require.Equal(t, 0, code, errs)
	code, _, errs = riddle("picture", "--at", "12", "--out", passes, "--width", "320", "--passes")
	require.Equal(t, 0, code, errs)
	bare, err := os.ReadFile(file)
	require.NoError(t, err)
	drawn, err := os.ReadFile(passes)
	require.NoError(t, err)
	require.NotEqual(t, bare, drawn, "where grain passes is drawn over it")
	require.NoError(t, os.Chmod(file, 0o600))
	require.NoError(t, os.Symlink("m.png", filepath.Join(dir, "link.png")))
	code, _, errs = riddle("picture", "--at", "1", "--out", filepath.Join(dir, "link.png"), "--width", "320")
	require.Equal(t, 0, code, errs)
	info, err := os.Lstat(file)
	require.NoError(t, err)
	require.Equal(t, os.FileMode(0o600), info.Mode(), "the mode stays")
	still, err := os.ReadFile(file)
	require.NoError(t, err)
	require.False(t, bytes.Equal(bare, still), "the link was followed")
	require.NoError(t, os.Remove(filepath.Join(dir, "link.png")))
	left, err := os.ReadDir(dir)
	require.NoError(t, err)
	require.Len(t, left, 2, "no rest of a file is left behind")
}

// TestHelp names every command, setting and situation, on standard output.
func TestHelp(t *testing.T) {
	code, out, errs := riddle("--help")
	require.Equal(t, 0, code)
	require.Empty(t, errs)
	for _, w := range append(scenarios.Names(), "riddle serve", "riddle site", "riddle run", "riddle picture", "fan-speed", "grain-moisture") {
		require.Contains(t, out, w)
	}
	code, out, _ = riddle("run", "--help")
	require.Equal(t, 0, code)
	require.Contains(t, out, "--change")
}

// TestProgress: nothing within a second; then a terminal's line is written
// over, and a file gets a line every ten seconds.
func TestProgress(t *testing.T) {
	var b bytes.Buffer
	n := &notes{w: &b}
	n.progress("wheat")
	t0 := n.began
	n.note("wheat", 0.1, t0.Add(900*time.Millisecond))
	require.Empty(t, b.String())
	n.note("wheat", 0.25, t0.Add(10*time.Second))
	n.note("wheat", 0.26, t0.Add(11*time.Second))
	n.done()
	require.Equal(t, "wheat:  25 %, about 30s left\n", b.String()) // a quarter took 10 s

	b.Reset()
	n = &notes{w: &b, terminal: true}
	n.progress("wheat")
	n.note("wheat", 0.5, n.began.Add(2*time.Second))
	require.True(t, strings.HasPrefix(b.String(), "\rwheat:  50 %, about 2s left"))
	n.done()
	require.NotContains(t, b.String(), "\n")
}
