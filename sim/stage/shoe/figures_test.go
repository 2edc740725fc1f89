package shoe

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"riddle/sim/stage/section"
)

// Figures that are written out, because a constant cannot be worked out from
// the drawing or by a root, are those of the drawing and of the root.
func TestFiguresWrittenOut(t *testing.T) {
	require.InDelta(t, section.LowerSieve.A.X-section.UpperSieve.A.X, lowerBehind, 1e-12)
	angle := section.BlastAngle * math.Pi / 180
	require.InDelta(t, math.Sin(angle), blastSin, 1e-15)
	require.InDelta(t, math.Cos(angle), blastCos, 1e-15)
	require.InDelta(t, math.Sqrt(math.Sin(angle)), blastRoot, 1e-15)
	require.Len(t, sectionWeight, paths)
}
