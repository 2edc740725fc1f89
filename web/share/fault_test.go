package share

import (
	"encoding/json"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"riddle/sim/run/journal"
	"riddle/sim/run/trial"
	"riddle/sim/setup"
	"riddle/sim/stage/fault"
)

// faultyFile is the file of a second of a machine with faults, one of them a
// part that its setup has stand still.
func faultyFile(t *testing.T) (Ran, string) {
	t.Helper()
	s, err := setup.Default("rice")
	require.NoError(t, err)
	start := journal.Start{From: s, Setup: s, Faults: fault.Of(
		fault.Fault{Kind: fault.ConcaveBlocked, Degree: 0.625, Where: fault.Lane2}, fault.Fault{Kind: fault.WalkerSlow, Degree: 0.25})}
	start.Setup.Stopped = setup.FanPart
	w := trial.Window{From: 60, To: 180}
	r, report, err := trial.Play(journal.Journal{Start: start}, w, nil)
	require.NoError(t, err)
	require.Len(t, report.Faults, 3)
	kept := RanOf(r, w)
	text, err := kept.File()
	require.NoError(t, err)
	return kept, string(text)
}

// The faults of a machine are part of its run: they come back from the file, and
// the machine made with them is the same.
func TestFaultsComeBackFromTheFile(t *testing.T) {
	kept, text := faultyFile(t)
	r := verdict(t, text)
	require.Equal(t, Same, r.Verdict, r.Reason)
	require.Equal(t, kept.Digest, *r.Report.Digest)
	require.Equal(t, []fault.Told{{Kind: "concave-blocked", Degree: 0.625, Place: "lane 2"}, {Kind: "walker-slow", Degree: 0.25}, {Kind: "stopped", Degree: 1, Place: "fan"}}, r.Report.Faults)
	again, err := ReadRun([]byte(text))
	require.NoError(t, err)
	require.Zero(t, again.Journal.Start.Setup.Stopped)
	same, err := again.File()
	require.NoError(t, err)
	require.Equal(t, text, string(same))
	require.NotContains(t, shortFile(t), `"faults"`, "a sound machine's file does not speak of them")
}

// They lie under the checksum; whoever seals the file anew is found by the
// digest, and what is no fault is refused.
func TestFaultsOfAFileCannotBeAltered(t *testing.T) {
	_, text := faultyFile(t)
	for old, with := range map[string]string{`"degree": 0.625`: `"degree": 0.5`, `"lane 2"`: `"lane 3"`, `"degree": 0.25`: `"degree": 0`, `"place": "fan"`: `"place": "lower sieve"`} {
		require.Equal(t, 1, strings.Count(text, old), old)
		other := strings.Replace(text, old, with, 1)
		require.Equal(t, Damaged, verdict(t, other).Verdict, with)
		require.Equal(t, Altered, verdict(t, seal(t, other)).Verdict, with)
	}
	var top map[string]any
	require.NoError(t, json.Unmarshal([]byte(text), &top))
	delete(top["start"].(map[string]any), "faults")
	none, err := json.Marshal(top)
	require.NoError(t, err)
	require.Equal(t, Damaged, verdict(t, string(none)).Verdict)
	for old, with := range map[string]string{
		`"degree": 0.625`: `"degree": 1.5`, `"lane 2"`: `"attic"`, `"walker-slow"`: `"fan-slip"`, `"stopped"`: `"gremlins"`,
		`"place": "fan"`: `"palace": "fan"`, `"place": "lane 2"`: `"place": "fan"`,
		`"kind": "walker-slow",`: `"kind": "concave-blocked", "place": "lane 2",`,
	} {
		r := verdict(t, seal(t, strings.Replace(text, old, with, 1)))
		require.Equal(t, Damaged, r.Verdict, with)
		require.Contains(t, r.Reason, "faults[", with)
	}
}
