package shoe

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"riddle/sim/stage/design"
	"riddle/sim/stage/section"
)

// Figures that are written out, because a constant cannot be worked out from
// the drawing or by a root, are those of the drawing and of the root.
func TestFiguresWrittenOut(t *testing.T) {
	p := design.WithWalkers
	require.InDelta(t, p.LowerSieve.A.X-p.UpperSieve.A.X, p.LowerBehind, 1e-12)
	angle := section.BlastAngle * math.Pi / 180
	require.InDelta(t, math.Sin(angle), blastSin, 1e-15)
	require.InDelta(t, math.Cos(angle), blastCos, 1e-15)
	require.InDelta(t, math.Sqrt(math.Sin(angle)), blastRoot, 1e-15)
	require.Len(t, sectionWeight, paths)
}
