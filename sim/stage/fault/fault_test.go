package fault

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"riddle/sim/setup"
)

// Every kind is read by its name, and each is told what is wrong with it in one
// line that names field, value and range.
func TestFaultsAreReadStrictly(t *testing.T) {
	for text, want := range map[string]Fault{
		"concave-blocked":               {ConcaveBlocked, 1, Whole},
		"concave-blocked:0.5":           {ConcaveBlocked, 0.5, Whole},
		"concave-blocked:50%:front":     {ConcaveBlocked, 0.5, Front},
		"concave-blocked:1:rear":        {ConcaveBlocked, 1, Rear},
		"concave-blocked:0:left":        {ConcaveBlocked, 0, Left},
		"concave-blocked:0.25:right":    {ConcaveBlocked, 0.25, Right},
		"concave-blocked:0.25:lane 3":   {ConcaveBlocked, 0.25, Lane3},
		"concave-blocked:0.25:lane-3":   {ConcaveBlocked, 0.25, Lane3},
		" concave-blocked : 0.25:lane4": {ConcaveBlocked, 0.25, Lane4},
		"walker-slow:0.3":               {WalkerSlow, 0.3, Whole},
	} {
		got, err := Parse(text)
		require.NoError(t, err, text)
		require.Equal(t, want, got, text)
		again, err := Parse(got.String())
		require.NoError(t, err)
		require.Equal(t, got, again)
	}
	for text, says := range map[string]string{
		"":                              "concave-blocked, concave-tilted",
		"gremlins":                      `"gremlins"`,
		"stopped:1:fan":                 "divider-gone",
		"concave-blocked:1.5":           "0 (none) to 1",
		"concave-blocked:-0.1":          "0 (none) to 1",
		"concave-blocked:NaN":           "0 (none) to 1",
		"concave-blocked:":              "0 (none) to 1",
		"concave-blocked:half":          "0 (none) to 1",
		"concave-blocked:1:middle":      "front, rear, left, right, lane 1, lane 2, lane 3, lane 4",
		"concave-blocked:1:whole":       "front, rear",
		"concave-blocked:1:fan":         "front, rear",
		"concave-blocked:1:":            "front, rear",
		"concave-blocked:1:front:again": "KIND[:DEGREE[:PLACE]]",
		"walker-slow:1:left":            "left out: walker-slow has no place",
		"fan-slip":                      "this one is not modeled yet",
		"divider-gone:0.5":              "not modeled yet",
		"fan-slip:2":                    "0 (none) to 1",
		strings.Repeat("x", 4000):       "…",
	} {
		_, err := Parse(text)
		require.IsType(t, &setup.Error{}, err, text)
		require.Contains(t, err.Error(), "fault: ")
		require.Contains(t, err.Error(), says)
		require.NotContains(t, err.Error(), "\n")
		require.Less(t, len(err.Error()), 400, text)
	}
}

// The list of kinds is that of the trade's faults, each with its own number.
func TestEachKindHasItsPlace(t *testing.T) {
	require.Len(t, Names(), 17)
	for i, a := range abouts {
		require.Equal(t, Kind(i+1), a.Kind)
		require.Equal(t, a.Kind, find(a.Name))
	}
	require.Equal(t, "none", None.String())
	require.Equal(t, "none", kinds.String())
}

func TestOfOneThingThereIsOneFault(t *testing.T) {
	s := Set{}
	require.False(t, s.Any())
	require.NoError(t, s.Add(Fault{ConcaveBlocked, 0.5, Front}))
	require.NoError(t, s.Add(Fault{ConcaveBlocked, 0.5, Left}))
	require.ErrorContains(t, s.Add(Fault{ConcaveBlocked, 0.2, Front}), "given once")
	require.ErrorContains(t, s.Add(Fault{FanSlip, 0.2, Whole}), "not modeled yet")
	require.Equal(t, []Told{{"concave-blocked", 0.5, "front"}, {"concave-blocked", 0.5, "left"}}, s.Told())
	require.Equal(t, s, s.And(s))
}

// What is left of the parts, by hand: half of what a side leaves open in the
// front is closed by the other fault as well.
func TestWhatFaultsLeave(t *testing.T) {
	s := Of(Fault{ConcaveBlocked, 0.5, Front}, Fault{ConcaveBlocked, 0.5, Left}, Fault{WalkerSlow, 0.3, Whole}, Fault{Stopped, 1, PartAt(setup.FanPart)})
	st := s.State()
	require.Equal(t, Grate{{0.75, 0.5}, {0.75, 0.5}, {0.5, 0}, {0.5, 0}}, st.Grate)
	require.InDelta(t, 0.85, st.Walkers.Times(), 1e-12)
	require.Equal(t, setup.FanPart, st.Stopped)
	require.Equal(t, State{}, (&Set{}).State())
	one := Of(Fault{ConcaveBlocked, 1, Lane2}, Fault{ConcaveBlocked, 0.2, Rear}, Fault{ConcaveBlocked, 0.1, Right})
	require.InDelta(t, 0.28, one.State().Grate[3][1], 1e-12)
	require.Equal(t, 1.0, one.State().Grate[1][0])
	require.Zero(t, one.State().Grate[0][0])
	slow := Of(Fault{WalkerSlow, 1, Whole})
	require.Equal(t, 0.5, slow.State().Walkers.Times())
}

// Each part that can stand still is a fault, and back.
func TestPartsThatStandStillAreFaults(t *testing.T) {
	all := setup.Parts(0)
	for i := range partNames {
		p := partNames[i].part
		require.Equal(t, setup.Parts(1)<<i, p, "in their order")
		all |= p
		s := OfParts(p)
		require.Len(t, s.List(), 1)
		require.Equal(t, p, s.State().Stopped)
		f, err := s.Told()[0].Read()
		require.NoError(t, err)
		require.Equal(t, s.List()[0], f)
	}
	require.Equal(t, setup.ElevatorPart<<1-1, all, "none is missing")
	s := OfParts(all)
	require.Equal(t, all, s.State().Stopped)
	_, err := Told{Kind: "stopped", Degree: 1}.Read()
	require.ErrorContains(t, err, "a place for stopped")
	_, err = Told{Kind: "walker-slow", Degree: 1, Place: "fan"}.Read()
	require.ErrorContains(t, err, "no place")
}
