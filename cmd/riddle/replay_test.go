package main

import (
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"riddle/sim/trade/crop"
)

// without drops the one thing of a report that may differ from run to run, and
// what a replay adds.
func without(t *testing.T, text string) map[string]any {
	t.Helper()
	var r map[string]any
	require.NoError(t, json.Unmarshal([]byte(text), &r))
	for _, key := range []string{"sim_s_per_wall_s", "replay", "claimed"} {
		delete(r, key)
	}
	return r
}

// A run that was kept is made again to the same digest and the same report, in
// every crop, with changes on the way and along a changing field.
func TestAKeptRunReplays(t *testing.T) {
	runs := map[string]string{}
	for _, name := range crop.Names() {
		runs[name] = "--crop " + name + " --seed 77 --change 1:fan-speed=1234.5 --change 3.21:cylinder-speed=444 --change 3.21:yield=3.3 --change 5:unload=on"
	}
	require.Len(t, runs, 8)
	runs["a field"] = "--scenario soybeans-rolling-ground --condition yield=2.9 --change 2:ground-speed=14"
	runs["a day"] = "--scenario wheat-evening-dew --set fan-speed=1000 --change 4:straw-moisture=30"
	runs["plugged in the warm-up"] = "--crop wheat --condition yield=25 --condition straw-moisture=70 --set ground-speed=14"
	for name, args := range runs {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			file := filepath.Join(t.TempDir(), "run.json")
			warmup := "4"
			if strings.HasPrefix(name, "plugged") {
				warmup = "30"
			}
			list := strings.Fields("run --warmup " + warmup + " --seconds 2.5 --json --keep " + file + " " + args)
			code, ran, errs := riddle(list...)
			require.Zero(t, code, errs)
			code, again, errs := riddle("replay", file, "--json")
			require.Zero(t, code, errs)
			want, got := without(t, ran), without(t, again)
			require.Equal(t, want, got)
			if strings.HasPrefix(name, "plugged") {
				require.Equal(t, "plugged", got["state"])
			} else {
				require.Equal(t, 2.5, got["window_s"])
			}
			var said struct{ Replay, Claimed string }
			require.NoError(t, json.Unmarshal([]byte(again), &said))
			require.Equal(t, "same", said.Replay)
			require.Equal(t, want["digest"], said.Claimed)
		})
	}
}

// The four words, each with its exit status; and what is no run at all.
func TestReplaySaysWhatBecameOfTheFile(t *testing.T) {
	dir := t.TempDir()
	file := filepath.Join(dir, "run.json")
	code, ran, errs := riddle("run", "--warmup", "1", "--seconds", "1", "--change", "0.5:fan-speed=1200", "--keep", file)
	require.Zero(t, code, errs)
	require.Contains(t, ran, "Wheat")
	whole, err := os.ReadFile(file)
	require.NoError(t, err)
	for name, c := range map[string]struct {
		text, word string
		code       int
	}{
		"same":     {string(whole), "same", 0},
		"mark":     {"\ufeff" + string(whole), "same", 0},
		"cut off":  {string(whole[:len(whole)/2]), "damaged", 1},
		"a value":  {strings.Replace(string(whole), "1200", "1300", 1), "damaged", 1},
		"its laws": {strings.Replace(string(whole), `"riddle-laws/`, `"riddle-laws/9`, 1), "other version", 1},
	} {
		other := filepath.Join(dir, "other.json")
		require.NoError(t, os.WriteFile(other, []byte(c.text), 0o600))
		code, out, errs := riddle("replay", "--json", other)
		require.Equal(t, c.code, code, name)
		var said struct {
			Replay  string
			Claimed *string
			Digest  *string
			Reason  string
		}
		require.NoError(t, json.Unmarshal([]byte(out), &said), "one object and nothing else: %s", out)
		require.Equal(t, c.word, said.Replay, name)
		require.Equal(t, c.word == "same", said.Digest != nil, "a report where the run was made")
		if c.word != "same" {
			require.Equal(t, 1, strings.Count(errs, "\n"), errs)
			require.Contains(t, errs, c.word)
			require.NotEmpty(t, said.Reason)
		}
		code, out, _ = riddle("replay", other)
		require.Equal(t, c.code, code)
		require.Contains(t, out, "replay: "+c.word)
	}
	for _, args := range []string{"replay", "replay " + dir, "replay " + filepath.Join(dir, "none.json"), "replay replay_test.go", "replay " + file + " more", "replay " + file + " --jsn",
		"run --keep", "run --keep=", "run --keep " + dir, "run --keep " + filepath.Join(dir, "no", "run.json")} {
		code, out, errs := riddle(strings.Fields(args)...)
		require.Equal(t, 2, code, args)
		require.Empty(t, out)
		require.Equal(t, 1, strings.Count(errs, "\n"), "%s: %s", args, errs)
	}
}
