package published

import (
	"math"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"
)

const works = `{"a": {"author": "A. Author", "year": 1999, "title": "A work"}}`

func library1(checks string) fstest.MapFS {
	return fstest.MapFS{
		"sources.json": {Data: []byte(works)},
		"x.json":       {Data: []byte(`{"subject": "x", "title": "X", "order": 1, "checks": [` + checks + `]}`)},
	}
}

// TestAllIsRead: the files that are kept are sound.
func TestAllIsRead(t *testing.T) {
	l, err := read(files)
	require.NoError(t, err)
	require.NotEmpty(t, l.checks)
	require.Equal(t, len(l.checks), len(All()))
	for _, c := range l.checks {
		require.NotEmpty(t, c.Source.Author, c.ID)
		require.NotEmpty(t, c.Source.Title, c.ID)
		require.NotEmpty(t, c.Unit, c.ID)
	}
}

// TestChecksCanFail: what comes out of the machine, or was set to, is held
// within less than its own size, and where zero is expected it is said why.
func TestChecksCanFail(t *testing.T) {
	for _, c := range All() {
		if c.CanFail() && !(c.Tolerance < math.Abs(c.Expected)) {
			require.NotEmpty(t, c.Zero, c.ID)
		}
	}
}

// TestRows: a row takes from its entry what it does not say, and its name goes
// on the id, a single letter without a hyphen.
func TestRows(t *testing.T) {
	l, err := read(library1(`{"id": "TH-1", "source": "a", "mark": "memory", "class": "input", "unit": "m", "what": "length", "tolerance": 0.5, "crop": "wheat",
		"input": {"x": 1, "y": 2}, "rows": [
		{"name": "a", "what": "short", "expected": 3, "input": {"y": 5}},
		{"name": "rice", "crop": "rice", "class": "emergent", "band": [2, 6], "why": "so"}, {"name": "up", "sign": 1}]}`))
	require.NoError(t, err)
	require.Len(t, l.checks, 3)
	a, b, c := l.checks[0], l.checks[1], l.checks[2]
	require.Equal(t, "TH-1a", a.ID)
	require.Equal(t, "length: short", a.What)
	require.Equal(t, map[string]float64{"x": 1, "y": 5}, a.Input)
	require.Equal(t, []float64{3, 0.5}, []float64{a.Expected, a.Tolerance})
	require.Equal(t, "wheat", a.Crop)
	require.Equal(t, []string{"input", "emergent", "input"}, []string{a.Class, b.Class, c.Class})
	require.Equal(t, "TH-1-rice", b.ID)
	require.Equal(t, []any{"rice", 4.0, 2.0, true, "so"}, []any{b.Crop, b.Expected, b.Tolerance, b.Band, b.Why})
	require.Equal(t, []any{"TH-1-up", 1.0, 0.0, true}, []any{c.ID, c.Expected, c.Tolerance, c.Rule})
	require.Equal(t, "A. Author, 1999, A work", a.Source.String())
}

// TestBadFilesAreNamed: what is wrong is said with its place.
func TestBadFilesAreNamed(t *testing.T) {
	entry := func(more string) string {
		return `{"id": "TH-1", "source": "a", "mark": "memory", "class": "input", "unit": "m", "what": "w"` + more + `}`
	}
	able := func(more string) string {
		return `{"id": "TH-1", "source": "a", "mark": "memory", "class": "emergent", "unit": "m", "what": "w"` + more + `}`
	}
	for name, c := range map[string]struct{ checks, want string }{
		"unknown field":      {entry(`, "expected": 1, "tolerance": 1, "colour": 2`), "colour"},
		"no value":           {entry(``), "one of expected, band and sign"},
		"two values":         {entry(`, "expected": 1, "tolerance": 1, "sign": 1`), "one of expected, band and sign"},
		"no tolerance":       {entry(`, "expected": 1`), "tolerance"},
		"band the wrong way": {entry(`, "band": [3, 2]`), "lower to the higher"},
		"sign out of range":  {entry(`, "sign": 2`), "sign"},
		"unknown mark":       {`{"id": "TH-1", "source": "a", "mark": "sure", "unit": "m", "what": "w", "sign": 1}`, "sure"},
		"unknown source":     {`{"id": "TH-1", "source": "b", "mark": "memory", "unit": "m", "what": "w", "sign": 1}`, `"b"`},
		"id of no form":      {`{"id": "one", "source": "a", "mark": "memory", "unit": "m", "what": "w", "sign": 1}`, "one"},
		"no class":           {`{"id": "TH-1", "source": "a", "mark": "memory", "unit": "m", "what": "w", "sign": 1}`, `class ""`},
		"unknown class":      {`{"id": "TH-1", "source": "a", "mark": "memory", "class": "sure", "unit": "m", "what": "w", "sign": 1}`, `class "sure"`},
		"no failing":         {able(`, "expected": 2, "tolerance": 2`), "as wide as the value"},
		"a wide band":        {able(`, "band": [2, 1000]`), "as wide as the value"},
		"zero unsaid":        {able(`, "sign": 0`), "as wide as the value"},
		"zero for no":        {able(`, "sign": 1, "zero": "so"`), "it is not"},
		"zero unasked":       {entry(`, "sign": 0, "zero": "so"`), "only a check that has to be able to fail"},
		"id used twice":      {entry(`, "sign": 1`) + "," + entry(`, "sign": 1`), "twice"},
	} {
		_, err := read(library1(c.checks))
		require.ErrorContains(t, err, c.want, name)
	}
	_, err := read(fstest.MapFS{"sources.json": {Data: []byte(works)}})
	require.ErrorContains(t, err, "a is named by no check")
	tail := library1(entry(`, "sign": 1`))
	tail["x.json"].Data = append(tail["x.json"].Data, " {}"...)
	_, err = read(tail)
	require.ErrorContains(t, err, "something follows")
}
