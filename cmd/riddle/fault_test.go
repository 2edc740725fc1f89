package main

import (
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"riddle/sim/read/readout"
)

// Each command that runs a machine takes its faults; without them the answer is
// another one.
func TestEachCommandTakesFaults(t *testing.T) {
	dir := t.TempDir()
	for _, args := range []string{
		"run --crop wheat --warmup 1 --seconds 5 --json",
		"forecast --crop wheat --json",
		"sweep --crop wheat --vary fan-speed=800:900:2 --forecast --json",
		"sweep --crop wheat --vary fan-speed=800:900:2 --warmup 1 --seconds 4 --json",
		"tune --crop wheat --hold cylinder-speed --hold concave-clearance --hold fan-speed --hold upper-sieve --hold reel-index --hold cutting-height --hold pre-sieve --json",
		"picture --zone concave --width 300 --at 4 --out FILE.png",
		"clip --zone concave --width 200 --from 4 --to 4.1 --out FILE.gif",
	} {
		t.Run(strings.Fields(args)[0], func(t *testing.T) {
			answer := func(name, more string) string {
				file := filepath.Join(dir, name)
				code, out, errs := riddle(strings.Fields(strings.ReplaceAll(args, "FILE", file) + more)...)
				require.Zero(t, code, errs)
				if !strings.Contains(args, "FILE") {
					return out
				}
				picture, err := os.ReadFile(strings.TrimSpace(out))
				require.NoError(t, err)
				return string(picture)
			}
			require.NotEqual(t, answer("sound", ""), answer("faulty", " --fault concave-blocked:0.5:front --fault walker-slow:0.3"))
		})
	}
}

// The report tells the faults that were given, for programs and for people; a
// sound machine's does not speak of them.
func TestTheReportTellsTheFaultsThatWereGiven(t *testing.T) {
	code, out, errs := riddle("forecast", "--crop", "corn", "--fault", "concave-blocked:0.5:lane2", "--fault", "walker-slow:10%", "--json")
	require.Zero(t, code, errs)
	require.Contains(t, out, `"faults":[{"kind":"concave-blocked","degree":0.5,"place":"lane 2"},{"kind":"walker-slow","degree":0.1}]`)
	var r readout.Report
	require.NoError(t, json.Unmarshal([]byte(out), &r))
	require.Greater(t, *r.Loss.Walker, 0.5)
	code, out, _ = riddle("forecast", "--crop", "corn", "--fault", "walker-slow:0.25")
	require.Zero(t, code)
	require.Contains(t, out, "\nFaults\n  walker slow, 25 %\n")
	code, out, _ = riddle("forecast", "--crop", "corn", "--json")
	require.Zero(t, code)
	require.NotContains(t, out, "fault")
}

// A run with faults is kept and made again.
func TestARunWithFaultsReplays(t *testing.T) {
	file := filepath.Join(t.TempDir(), "run.json")
	code, ran, errs := riddle("run", "--crop", "barley", "--warmup", "1", "--seconds", "2", "--fault", "concave-blocked:0.7:rear", "--json", "--keep", file)
	require.Zero(t, code, errs)
	code, again, errs := riddle("replay", file, "--json")
	require.Zero(t, code, errs)
	require.Equal(t, without(t, ran), without(t, again))
	require.Contains(t, again, `"faults":[{"kind":"concave-blocked","degree":0.7,"place":"rear"}]`)
	text, err := os.ReadFile(file)
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(file, []byte(strings.Replace(string(text), `"degree": 0.7`, `"degree": 0.6`, 1)), 0o600))
	code, out, _ := riddle("replay", file, "--json")
	require.Equal(t, 1, code)
	require.Contains(t, out, `"replay":"damaged"`)
}

// A fault that is none, or that has no laws yet, is refused in one line, and
// nothing is written.
func TestFaultsThatAreRefused(t *testing.T) {
	file := filepath.Join(t.TempDir(), "picture.png")
	for _, c := range []struct{ fault, says string }{
		{"gremlins", "one of concave-blocked"}, {"concave-blocked:2", `"2" is not accepted; it must be a degree from 0 (none) to 1 (full) for concave-blocked`},
		{"concave-blocked:1:attic", "one of front, rear"}, {"walker-slow:1:left", "no place"}, {"fan-slip:0.5", "not modeled yet"}, {"", "one of"},
	} {
		for _, args := range [][]string{{"forecast"}, {"run", "--seconds", "1"}, {"picture", "--at", "1", "--out", file}} {
			code, out, errs := riddle(append(args, "--fault", c.fault)...)
			require.Equal(t, 2, code, "%s %v", c.fault, args)
			require.Empty(t, out)
			require.Equal(t, 1, strings.Count(errs, "\n"))
			require.True(t, strings.HasPrefix(errs, "fault: "), errs)
			require.Contains(t, errs, c.says)
			require.NoFileExists(t, file)
		}
	}
	code, _, errs := riddle("forecast", "--fault", "walker-slow:0.1", "--fault", "walker-slow:0.2")
	require.Equal(t, 2, code)
	require.Contains(t, errs, "given once for walker-slow")
}
