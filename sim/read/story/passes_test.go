package story

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"riddle/sim"
	"riddle/sim/setup"
	"riddle/sim/stage/flow"
)

// What the profiles show in sum is what the machine's own tally counts at its
// gates, each tick faded as the profile fades.
func TestPassesAgreeWithTheTally(t *testing.T) {
	s, err := setup.Default("wheat")
	require.NoError(t, err)
	m, err := sim.New(s)
	require.NoError(t, err)
	r := NewRecorder()
	gates := func(t flow.Tally) [4]float64 {
		return [4]float64{float64(t.Cylinder.Separated + t.Cylinder.Through), float64(t.Walkers.Grain + t.Walkers.Pieces), float64(t.Shoe.Upper + t.Shoe.Tail), float64(t.Shoe.Lower)}
	}
	var want [4]float64
	last := gates(m.Tally())
	for range 16 * sim.TickHz {
		m.Step()
		r.Keep(m)
		now := gates(m.Tally())
		for i := range want {
			want[i] = want[i]*passDecay + (now[i]-last[i])/(PassTime*flow.Kernel)
		}
		last = now
	}
	p := r.Passes()
	for i, one := range [...]*Pass{&p.Concave, &p.Walkers, &p.Upper, &p.Lower} {
		require.Greater(t, want[i], 10.0)
		assert.InEpsilon(t, want[i], one.Total()-one.Over, 0.02, "gate %d", i)
	}
	// Separation falls off along the concave: the front half passes more than
	// the rear half (exponential law of separation).
	front, rear := 0.0, 0.0
	for i, v := range p.Concave.At {
		if i < Bins/2 {
			front += v
		} else {
			rear += v
		}
	}
	assert.Greater(t, front, rear)
}
