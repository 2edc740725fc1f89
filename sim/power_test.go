package sim

import (
	"testing"

	"github.com/stretchr/testify/require"

	"riddle/sim/setup"
	"riddle/sim/stage/flow"
)

// took returns the mean power of the parts from 30 to 40 s.
func took(t *testing.T, edit func(*setup.Setup)) (flow.Power, *Machine) {
	m := newMachine(t, "wheat", 30, edit)
	before := m.Tally()
	run(m, 10)
	after := m.Tally()
	return after.Work.Power.Between(before.Work.Power, after.Work.Ticks-before.Work.Ticks), m
}

// The chopper takes of a run what it chops; a climb takes the weight of the
// machine up the hill, and the engine feels it.
func TestPowerOfARun(t *testing.T) {
	t.Parallel()
	start, m := took(t, nil)
	require.InDelta(t, 1, m.engine.X, 1e-9)
	// Of 3.9 kg/s of MOG some 2.7 go over the walkers: 4 + 5 · 2.7 kW.
	require.InDelta(t, 17.5, start.Chopper, 1.5)
	off, _ := took(t, func(s *setup.Setup) { s.Settings.Chopper = false })
	require.Zero(t, off.Chopper)
	require.InDelta(t, start.Total()-start.Chopper, off.Total(), 1)
	up, hill := took(t, func(s *setup.Setup) { s.Conditions.ForeSlope = 10 })
	require.Greater(t, up.Driving, 3*start.Driving)
	require.Less(t, hill.engine.X, 1.0)
}

// A machine that is held beyond what its engine has slows, and stalls with the
// reason; it does not go on for nothing.
func TestTheEngineStalls(t *testing.T) {
	t.Parallel()
	m := newMachine(t, "wheat", 0, func(s *setup.Setup) {
		feedTimes(s, 1.8)
		s.Conditions.ForeSlope = 15
	})
	slowed := false
	for m.State().Condition != Plugged {
		require.Less(t, m.Seconds(), 90.0)
		m.Step()
		slowed = slowed || m.State().Condition == Slowing
	}
	require.True(t, slowed)
	require.Equal(t, Plugs[EnginePlug].Where, m.State().Where)
	requireBalance(t, m)
}
