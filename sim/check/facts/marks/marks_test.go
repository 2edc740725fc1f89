package marks

import (
	"os"
	"regexp"
	"slices"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"
)

// Every figure of the model says how it came to be.
func TestEveryFigureIsMarked(t *testing.T) {
	figures, err := Model(os.DirFS("../../../.."))
	require.NoError(t, err)
	require.Greater(t, len(figures), 150, "the walk found the model")
	for _, f := range figures {
		if len(f.Marks) == 0 {
			t.Errorf("%s:%d: %s = %s has no mark: %q", f.File, f.Line, f.Name, f.Value, f.Text)
		}
	}
}

// A figure that is called published names the year of its work, or a standard
// or an article by its number.
func TestPublishedFiguresNameTheirWork(t *testing.T) {
	figures, err := Model(os.DirFS("../../../.."))
	require.NoError(t, err)
	work := regexp.MustCompile(`\b(1[89]|20)\d\d\b|\bCFR\b|\barticle \d|\bSource and Held\b|\bSection\b`)
	for _, f := range figures {
		if slices.Contains(f.Marks, "published") && !work.MatchString(f.Text) {
			t.Errorf("%s:%d: %s is called published without its work: %q", f.File, f.Line, f.Name, f.Text)
		}
	}
}

// What the reader must find and must leave alone, by hand.
func TestRead(t *testing.T) {
	tree := fstest.MapFS{"a/x.go": {Data: []byte(`package a

// Air and sieves. All calibrated but where said.
const (
	density = 1.2 // kg/m³, standard
	droop   = 6.0

	// best and worst openings, mm.
	// Published: a work.
	best, worst = 3.0, 4.0
	next        = 5.0

	alone = 7.0
)

const twice = 2 * density

const (
	first = iota
	second
)

// weight of the sections.
var weight = [3]float64{1, 2, 3}

var made = make([]int, 4)

// f is a law from memory.
func f() float64 {
	const k = 0.3
	return k
}

// g is in common practice.
func g() []float64 { return []float64{1, 2, 3, 4} }
`)}, "a/x_test.go": {Data: []byte("package a\n\nconst test = 4\n")}}
	list, err := Read(tree, "a")
	require.NoError(t, err)
	got := map[string][]string{}
	for _, f := range list {
		got[f.Name] = f.Marks
	}
	require.Equal(t, map[string][]string{
		"density": {"standard"},
		"droop":   {"calibrated"},
		"best":    {"published"}, "worst": {"published"}, "next": {"published"},
		"alone":  {"calibrated"},
		"weight": nil,
		"twice":  {"computed"},
		"k":      {"memory"},
		"g":      {"common practice"},
	}, got)
	require.Equal(t, "1.2", list[0].Value)
	require.Equal(t, "kg/m³, standard", list[0].Text)
	require.Equal(t, 5, list[0].Line)
	require.Equal(t, "a", list[0].Package)
}

// A word inside another is no mark.
func TestIn(t *testing.T) {
	require.Equal(t, []string{"published", "memory"}, In("Published by someone;\n\tfrom memory."))
	require.Empty(t, In("unpublished standards, standard deviation of the size"))
}
