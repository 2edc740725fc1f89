package marks

import (
	"os"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"
)

// In the stages no number stands bare: each has a name, and with it a unit and
// a mark, which TestEveryFigureIsMarked asks for.
func TestNoNumberStandsBare(t *testing.T) {
	list, err := Literals(os.DirFS("../../../.."), Stages...)
	require.NoError(t, err)
	for _, l := range list {
		t.Errorf("%s:%d: %s in %s has no name: %s", l.File, l.Line, l.Value, l.Function, l.Text)
	}
}

// What counts as bare and what does not, by hand.
func TestLiterals(t *testing.T) {
	tree := fstest.MapFS{"a/x.go": {Data: []byte(`package a

const named = 0.4 // chosen

func f(x float64, list []int) float64 {
	const inner = 7.0
	y := 2*x + 0.5 - 1
	for range 4 {
		y += float64(list[3])
	}
	var cells [16]float32
	room := make([]int, 100)
	_, _ = cells, room
	swarm := flow.NewSwarm(4096)
	if x > -2.5 {
		return between(0.6, 1.4)
	}
	y *= float64(list[3*len(list)-9])
	return y * 1e-9 * inner * float64(len(list[1:3])) + num(swarm, "3")
}
`)}, "a/x_test.go": {Data: []byte("package a\n\nfunc t() int { return 77 }\n")}}
	list, err := Literals(tree, "a")
	require.NoError(t, err)
	var got []string
	for _, l := range list {
		got = append(got, l.Value)
	}
	require.Equal(t, []string{"2.5", "0.6", "1.4", "3", "9", "1e-9"}, got)
	require.Equal(t, Literal{"a/x.go", 15, "f", "2.5", "if x > -2.5 {"}, list[0])
}
