package render

import (
	"testing"

	"github.com/stretchr/testify/require"

	"riddle/sim/fault"
)

// Closed wires are drawn where somebody is to see them: over the half that
// is named, and none where nobody is told.
func TestClosedWiresAreDrawnWhereTheyAreShown(t *testing.T) {
	snap := worked(t, "wheat", 1)
	shapes := func(faults ...fault.Fault) int {
		var s Scene
		opt := Options{Zone: "concave", Width: 600, Height: 300, Faults: fault.Of(faults...)}
		s.Set(opt, snap.Crop)
		s.Update(snap, opt)
		return len(s.Moving.Shapes)
	}
	at := func(degree float64, w fault.Where) int {
		return shapes(fault.Fault{Kind: fault.ConcaveBlocked, Degree: degree, Where: w}) - shapes()
	}
	require.Equal(t, at(1, fault.Whole), at(1, fault.Front)+at(1, fault.Rear))
	require.Greater(t, at(1, fault.Rear), 6, "an outline and what fills it for each opening")
	require.Greater(t, at(1, fault.Front), at(1, fault.Rear), "of thirteen openings seven")
	require.GreaterOrEqual(t, at(0.2, fault.Left), 13)
	require.Zero(t, at(0, fault.Whole))
	require.Zero(t, shapes(fault.Fault{Kind: fault.WalkerSlow, Degree: 1})-shapes(), "walkers are seen to turn slowly")
}
