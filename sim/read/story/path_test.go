package story

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"riddle/sim"
	"riddle/sim/setup"
	"riddle/sim/stage/flow"
	"riddle/sim/stage/section"
)

// The path of a dot that was not watched stays near the places where it really
// was, which a watched dot shows.
func TestTheEstimatedPathIsNearTheTrueOne(t *testing.T) {
	s, err := setup.Default("wheat")
	require.NoError(t, err)
	m, err := sim.New(s)
	require.NoError(t, err)
	r, q := NewRecorder(), NewRecorder()
	step := func(n int) {
		for range n {
			m.Step()
			r.Keep(m)
			q.Keep(m)
		}
	}
	step(6 * sim.TickHz)
	var snap sim.Snapshot
	m.Snapshot(&snap)
	var id uint32
	for _, d := range snap.Dots[sim.UnderGrate] {
		if d.Kind == flow.Sound {
			id = d.ID
		}
	}
	require.NotZero(t, id)
	r.Watch(id)
	step(14 * sim.TickHz)
	true_, estimated := r.Path(id), q.Path(id)
	require.Greater(t, len(true_), 7*sim.TickHz/watchTicks) // the way from the grate to the tank takes more than 7 s
	require.Greater(t, len(estimated), 8)
	for _, p := range true_ {
		at, ok := At(estimated, p.Tick)
		if !ok {
			continue
		}
		assert.Less(t, math.Hypot(at.X-p.X, at.Y-p.Y), 0.25, "tick %d: %v, %v", p.Tick, p, at)
	}
}

func TestAPathGoesRoundTheConcave(t *testing.T) {
	way := between(nil, Spot{0, -0.28, 1.66}, Spot{8, 0.25, 1.62}, sim.Gap)
	require.NotEmpty(t, way)
	for _, s := range way {
		r := math.Hypot(s.X-section.Cylinder.Centre.X, s.Y-section.Cylinder.Centre.Y)
		assert.InDelta(t, section.CylinderD/2, r, 0.02)
	}
}

func TestAWatchedPieceIsFollowedIntoItsKernel(t *testing.T) {
	s, err := setup.Default("wheat")
	require.NoError(t, err)
	m, err := sim.New(s)
	require.NoError(t, err)
	r := NewRecorder()
	watching := uint32(0)
	for range 12 * sim.TickHz {
		m.Step()
		r.Keep(m)
		if watching == 0 {
			var snap sim.Snapshot
			m.Glance(&snap)
			for _, d := range snap.Dots[sim.Feeding] {
				if d.Kind == flow.Piece {
					watching = d.ID
				}
			}
			if watching != 0 {
				r.Watch(watching)
			}
		}
	}
	d, p, _ := r.Watched()
	assert.NotEqual(t, watching, d.ID)
	assert.True(t, d.Kind.IsKernel())
	assert.Greater(t, p, sim.Gap)
}

func TestNearestPrefersGrain(t *testing.T) {
	var s sim.Snapshot
	s.Dots[sim.Upper] = []flow.Dot{{ID: 1, X: 2, Y: 1, Kind: flow.Chaff}, {ID: 2, X: 2.001, Y: 1, Kind: flow.Sound}, {ID: 3, X: 2.5, Y: 1, Kind: flow.Chaff}}
	id, ok := Nearest(&s, 2.0004, 1, 0.05)
	assert.True(t, ok)
	assert.EqualValues(t, 2, id)
	id, ok = Nearest(&s, 2.49, 1, 0.05)
	assert.True(t, ok)
	assert.EqualValues(t, 3, id)
	_, ok = Nearest(&s, 3, 1, 0.05)
	assert.False(t, ok)
}
