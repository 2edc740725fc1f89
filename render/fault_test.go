package render

import (
	"testing"

	"github.com/stretchr/testify/require"

	"riddle/sim/stage/fault"
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
	require.Equal(t, concaveBars-1, at(1, fault.Whole))
	require.Equal(t, concaveBars-1, at(0.2, fault.Left), "the part that is closed of each")
	require.Equal(t, 7, at(1, fault.Front), "of thirteen openings")
	require.Equal(t, 6, at(1, fault.Rear))
	require.Zero(t, at(0, fault.Whole))
	require.Zero(t, shapes(fault.Fault{Kind: fault.WalkerSlow, Degree: 1})-shapes(), "walkers are seen to turn slowly")
}
