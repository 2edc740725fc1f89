package story

import (
	"testing"

	"github.com/stretchr/testify/require"

	"riddle/sim"
	"riddle/sim/setup"
	"riddle/sim/stage/flow"
)

// lookAtAll takes up a step as a recorder does, but looks at every dot, whether
// it stands unchanged where it stood or not.
func lookAtAll(r *Recorder, m *sim.Machine) {
	m.Glance(&r.snap)
	s := &r.snap
	r.tick = s.Tick
	r.passes.fade()
	for p := range s.Dots {
		place := sim.Place(p)
		for i := range s.Dots[p] {
			if d := &s.Dots[p][i]; d.Grain > 0 && due(place, s.Tick) {
				r.look(d, place, stateOf(d, place))
			}
		}
	}
}

// TestNothingIsPassedOver holds the record against one that looks at every dot
// at every step.
func TestNothingIsPassedOver(t *testing.T) {
	for _, crop := range []string{"wheat", "corn"} {
		s, err := setup.Default(crop)
		require.NoError(t, err)
		m, err := sim.New(s)
		require.NoError(t, err)
		quick, plain := NewRecorder(), NewRecorder()
		for range 25 * sim.TickHz {
			m.Step()
			quick.Keep(m)
			lookAtAll(plain, m)
		}
		require.Greater(t, int(quick.next), 100_000)
		require.Equal(t, plain.next, quick.next, crop)
		require.Equal(t, plain.events[:plain.next], quick.events[:quick.next], crop)
		require.Equal(t, plain.ends, quick.ends, crop)
		require.Equal(t, plain.passes, quick.passes, crop)
	}
}

// TestADotThatComesBackIsSeenAnew: one that left its index and stands there
// again unchanged has been elsewhere.
func TestADotThatComesBackIsSeenAnew(t *testing.T) {
	r := NewRecorder()
	kernel := flow.Dot{ID: 7, Grain: flow.Kernel, Ride: flow.Airborne}
	var there, away sim.Snapshot
	there.Dots[sim.Lower] = []flow.Dot{kernel}
	away.Dots[sim.Between] = []flow.Dot{kernel}
	for _, s := range []*sim.Snapshot{&there, &away, &there, &away, &there} {
		r.take(s)
	}
	events, whole := r.history(7)
	require.True(t, whole)
	var places []sim.Place
	for _, e := range events {
		places = append(places, e.Place)
	}
	require.Equal(t, []sim.Place{sim.Lower, sim.Between, sim.Lower, sim.Between, sim.Lower}, places)
}

func TestStateHoldsWhatItIsMadeOf(t *testing.T) {
	d := flow.Dot{Ride: flow.AtRest, Kind: flow.Weed, Cause: flow.Ridden, Rounds: 255, Strikes: 254, Grain: 65535}
	s := stateOf(&d, sim.Behind)
	require.Equal(t, sim.Behind, s.place())
	require.Equal(t, flow.AtRest, s.ride())
	require.Equal(t, flow.Weed, s.kind())
	require.Equal(t, flow.Ridden, s.cause())
	require.Equal(t, 254, s.strikes())
	require.Equal(t, 65535, s.grain())
	for _, other := range []flow.Dot{{Kind: flow.Light}, {Rounds: 1}, {Strikes: 1}, {Grain: 1}, {Cause: flow.Header}, {Ride: flow.InMat}} {
		require.NotEqual(t, stateOf(&flow.Dot{}, 0), stateOf(&other, 0))
	}
}
