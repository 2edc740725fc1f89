package facts

import (
	"bytes"
	"encoding/json"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"riddle/testdata/published"
)

func fact(expected, tolerance, got float64) Fact {
	return Fact{Check: published.Check{
		ID: "TH-X", What: "a thing", Unit: "m", Mark: "memory", At: "table 3", Subject: "threshing", Expected: expected, Tolerance: tolerance,
		Source: published.Source{Author: "A. Author", Year: 1999, Title: "A work"},
	}, Got: got, Holds: math.Abs(got-expected) <= tolerance}
}

// The keys and kinds that other programs read: source is author, year, title
// and table; why stands with what does not hold, and only there.
func TestFactAsJSON(t *testing.T) {
	keys := func(f Fact) map[string]any {
		text, err := json.Marshal(f)
		require.NoError(t, err)
		m := map[string]any{}
		require.NoError(t, json.Unmarshal(text, &m))
		return m
	}
	f := fact(2, 0.5, 2.25)
	f.Why = "said before it held"
	require.Equal(t, map[string]any{
		"id": "TH-X", "subject": "threshing", "what": "a thing", "source": "A. Author, 1999, A work, table 3", "mark": "memory",
		"unit": "m", "expected": 2.0, "got": 2.25, "tolerance": 0.5, "holds": true,
	}, keys(f))
	f = fact(2, 0.5, 3)
	f.Why = "a reason"
	require.Equal(t, "a reason", keys(f)["why"])
	require.Equal(t, false, keys(f)["holds"])
	f.Got = math.NaN()
	require.Contains(t, keys(f), "got")
	require.Nil(t, keys(f)["got"], "what cannot be computed is null")
}

func TestFactInWords(t *testing.T) {
	band, rule, yes := fact(4, 2, 5), fact(1, 0, -1), fact(1, 0, 1)
	band.Band, rule.Rule, yes.Rule, yes.Unit = true, true, true, "yes or no"
	for _, c := range []struct {
		fact      Fact
		want, got string
	}{
		{fact(2, 0.5, 2.25), "2 ± 0.5", "2.25"}, {fact(0, 1e-9, 1e-16), "0 ± 1e−9", "0"}, {fact(1728, 3.5, 1727.876), "1728 ± 3.5", "1727.9"},
		{band, "2 to 6", "5"}, {rule, "rises", "falls"}, {yes, "yes", "yes"}, {fact(3, 0, math.NaN()), "3", "cannot be asked"},
	} {
		require.Equal(t, c.want, c.fact.Wanted())
		require.Equal(t, c.got, c.fact.Gotten())
	}
}

// Text for people says of each check what, expected, got, source and state, and
// sums up.
func TestPrint(t *testing.T) {
	bad := fact(2, 0.5, 3)
	bad.ID, bad.Why = "TH-Y", "a reason"
	var out bytes.Buffer
	require.NoError(t, Print(&out, []Fact{fact(2, 0.5, 2.25), bad}))
	for _, must := range []string{"Threshing and straw walkers", "TH-X", "a thing", "expected 2 ± 0.5, got 2.25 m: holds", "DOES NOT HOLD", "why: a reason",
		"A. Author, 1999, A work, table 3 (memory)", "2 checks against the outside, from 1 sources: 1 hold, 1 do not."} {
		require.Contains(t, out.String(), must)
	}
}

// A computation serves its own id and those that go on after it.
func TestFindByBeginning(t *testing.T) {
	b := NewBench()
	for id, want := range map[string]string{"TH-T4a": "TH-T4a", "TH-T4b": "TH-T4", "CR-U1-wheat": "CR-U1", "CR-L5-area-6": "CR-L5-area", "TH-T4": "TH-T4"} {
		key, f := b.find(id)
		require.Equal(t, want, key)
		require.NotNil(t, f)
	}
	_, f := b.find("TH-nothing")
	require.Nil(t, f)
	require.False(t, b.Find(published.Check{ID: "TH-nothing"}).Holds, "what has no computation does not hold")
}
