package facts

import (
	"bytes"
	"encoding/json"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"riddle/testdata/published"
)

func fact(expected, tolerance, got float64) Fact {
	return Fact{Check: published.Check{
		ID: "TH-X", What: "a thing", Unit: "m", Mark: "memory", Class: "emergent", At: "table 3", Subject: "threshing", Expected: expected, Tolerance: tolerance,
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
		"id": "TH-X", "subject": "threshing", "what": "a thing", "source": "A. Author, 1999, A work, table 3", "mark": "memory", "class": "emergent",
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

// Text for people says of each check what, expected, got, source and state; its
// head sums up by class, the emergent first, and names which of them fail.
func TestPrint(t *testing.T) {
	bad, input, sum := fact(2, 0.5, 3), fact(2, 0.5, 3), fact(2, 0.5, 2)
	bad.ID, bad.Why, bad.Mark = "TH-Y", "a reason", "published"
	input.ID, input.Class = "TH-Z", "input"
	sum.ID, sum.Class = "TH-W", "arithmetic"
	var out bytes.Buffer
	require.NoError(t, Print(&out, []Fact{fact(2, 0.5, 2.25), bad, input, sum}))
	text := out.String()
	for _, must := range []string{"Threshing and straw walkers", "TH-X", "a thing", "expected 2 ± 0.5, got 2.25 m: holds", "DOES NOT HOLD", "why: a reason",
		"A. Author, 1999, A work, table 3 (memory; emergent)", "4 checks against the outside, from 1 sources", "emergent      2: 1 hold, 1 do not.",
		"1 of them are numbers that works print of whole machines or stages: 0 hold, 1 do not.", "input         1: 0 hold, 1 do not.", "arithmetic    1: 1 hold, 0 do not.",
		"calibrated    0: 0 hold, 0 do not.", "TH threshing and straw walkers; CL"} {
		require.Contains(t, text, must)
	}
	head, _, _ := strings.Cut(text, "An id begins")
	require.Contains(t, head, "TH-Y")
	require.NotContains(t, head, "TH-Z", "what is only given is no failure of the machine's")
	require.Less(t, strings.Index(text, "emergent"), strings.Index(text, "arithmetic"))
}

// Every id begins with letters that are explained.
func TestIDsAreExplained(t *testing.T) {
	known := map[string]bool{}
	for _, p := range Prefixes {
		known[p.Letters] = true
	}
	for _, c := range published.All() {
		letters, _, _ := strings.Cut(c.ID, "-")
		require.True(t, known[letters], c.ID)
	}
}

// A computation serves its own id and those that go on after it.
func TestFindByBeginning(t *testing.T) {
	b := NewBench()
	for id, want := range map[string]string{"TH-T4a": "TH-T4a", "TH-T4b": "TH-T4", "CR-U1-wheat": "CR-U1", "CR-L9c": "CR-L9c", "WM-at-survey-wa-oats": "WM-at", "TH-T4": "TH-T4"} {
		key, f := b.find(id)
		require.Equal(t, want, key)
		require.NotNil(t, f)
	}
	_, f := b.find("TH-nothing")
	require.Nil(t, f)
	require.False(t, b.Find(published.Check{ID: "TH-nothing"}).Holds, "what has no computation does not hold")
}
