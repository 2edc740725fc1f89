package flow

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// The machine drives towards −x: as it climbs, gravity draws to the rear, and
// by as much forward as it goes down. Geometry, by hand.
func TestGravityDrawsToTheRearUphill(t *testing.T) {
	up, down := PullOn(8), PullOn(-8)
	require.InEpsilon(t, Gravity*math.Sin(8*math.Pi/180), up.X, 1e-6)
	require.InEpsilon(t, -Gravity*math.Cos(8*math.Pi/180), up.Y, 1e-6)
	require.Equal(t, up.X, -down.X)
	require.InEpsilon(t, math.Tan(8*math.Pi/180), up.Fall(), 1e-6)
	require.Zero(t, PullOn(0).Fall())
}

// A layer on a shaken face is carried as on the level where the machine stands
// level, faster as the face falls to its outlet, and never faster than the face
// itself swings; it never stands. In between its speed is that at which the mean
// friction μ g (2/π) asin(v/swing) is greater by the weight's part along the face
// than on the level: the law, solved the other way round.
func TestASlopeCarriesFasterToWhereItFalls(t *testing.T) {
	const level, swing = 0.32, 0.49
	require.InEpsilon(t, level, CarryOn(level, swing, 0), 1e-12)
	last := 0.0
	for fall := -0.27; fall <= 0.27; fall += 0.01 {
		v := CarryOn(level, swing, fall)
		require.GreaterOrEqual(t, v, last)
		require.GreaterOrEqual(t, v, crawl)
		require.LessOrEqual(t, v, swing)
		if v > crawl && v < swing {
			push := friction * 2 / math.Pi * (math.Asin(v/swing) - math.Asin(level/swing))
			require.InDelta(t, fall, push, 1e-9)
		}
		last = v
	}
	require.Equal(t, 0.6, CarryOn(0.6, swing, 0.1), "a face that swings slower than it carries is no shaken one")
}
