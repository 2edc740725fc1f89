package straw

import (
	"testing"

	"github.com/stretchr/testify/require"

	"riddle/sim/stage/section"
)

// 215 rpm on 0.05 m is a Froude number of 2.584; 21.5 rad/s separates about
// 15 % less than 22.5, and above 23.5 there is no gain (published measurements
// on straw walkers).
func TestFroude(t *testing.T) {
	require.InDelta(t, 2.584, Froude(215), 0.005)
	c := fit("wheat")
	rate := func(fr float64) float64 { return SinkRate(c, RatedLoad(c), matSpeed, fr, 0, 0.3, 0) }
	require.InDelta(t, 0.87, rate(2.356)/rate(2.58), 0.01)
	require.Less(t, rate(2.81), rate(2.58))
	require.Less(t, rate(3.2), rate(2.81))
	require.InDelta(t, c.StrawRate, rate(2.58), 1e-9)
}

// The straw on the walkers at rated wheat is 1.9 to 2.2 kg/(s m), as the
// published permissible load of dry straw (2.08).
func TestRatedWalkerLoad(t *testing.T) {
	perMetre := RatedLoad(fit("wheat")) * matSpeed
	require.GreaterOrEqual(t, perMetre, 1.9)
	require.LessOrEqual(t, perMetre, 2.2)
}

// A thicker mat, tougher straw and finer straw hold grain longer.
func TestSinkRateSigns(t *testing.T) {
	c := fit("wheat")
	base := SinkRate(c, 5, matSpeed, 2.58, 0, 0.3, 0)
	require.Less(t, SinkRate(c, 8, matSpeed, 2.58, 0, 0.3, 0), base)
	require.Less(t, SinkRate(c, 5, matSpeed, 2.58, 8, 0.3, 0), base)
	require.Less(t, SinkRate(c, 5, matSpeed, 2.58, 0, 0.4, 0), base)
	require.Less(t, SinkRate(c, 5, matSpeed, 2.58, 0, 0.3, 8), base)
	require.Less(t, SinkRate(c, 0, matSpeed, 2.58, 0, 0.3, 0), 40.0)
}

func TestWalkersEndWhereTheSectionSays(t *testing.T) {
	require.InDelta(t, 2.30, section.WalkerHeight(4.666), 0.01)
	require.InDelta(t, 4.67, section.WalkerFaces()[3].B.X, 0.01)
}
