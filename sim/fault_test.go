package sim

import (
	"testing"

	"github.com/stretchr/testify/require"

	"riddle/sim/setup"
	"riddle/sim/stage/fault"
)

func faulty(t testing.TB, crop string, seconds float64, faults ...fault.Fault) *Machine {
	t.Helper()
	s, err := setup.Default(crop)
	require.NoError(t, err)
	m, err := NewWith(s, fault.Of(faults...))
	require.NoError(t, err)
	run(m, seconds)
	return m
}

// The more of a grate is blocked the less comes through it: nothing where it is
// wholly blocked, three quarters where one lane of four is. No grain is lost to
// the account.
func TestABlockedConcaveHoldsGrainBack(t *testing.T) {
	separated := func(m *Machine) float64 {
		run(m, 9)
		requireBalance(t, m)
		c := m.Tally().Cylinder
		return float64(c.Separated) / float64(c.Grain)
	}
	at := func(degree float64, w fault.Where) float64 {
		return separated(faulty(t, "wheat", 0, fault.Fault{Kind: fault.ConcaveBlocked, Degree: degree, Where: w}))
	}
	sound, half := separated(newMachine(t, "wheat", 0, nil)), at(0.5, fault.Whole)
	require.Zero(t, at(1, fault.Whole))
	require.Less(t, half, sound-0.1)
	require.Less(t, at(1, fault.Front), sound-0.1)
	require.InDelta(t, sound*3/4, at(1, fault.Lane2), 0.03, "a lane of four")
}

// Through blocked lanes and stretches nothing falls.
func TestNothingFallsThroughClosedWires(t *testing.T) {
	m := faulty(t, "wheat", 0, fault.Fault{Kind: fault.ConcaveBlocked, Degree: 1, Where: fault.Lane1},
		fault.Fault{Kind: fault.ConcaveBlocked, Degree: 1, Where: fault.Rear})
	fell := 0
	var snap Snapshot
	for range 7 * TickHz {
		m.Step()
		m.Snapshot(&snap)
		for _, d := range snap.Dots[UnderGrate] {
			fell++
			require.NotZero(t, d.Lane)
			require.Less(t, float64(d.Along), 0.325+1e-6)
		}
	}
	require.Greater(t, fell, 1000)
}

// A machine that has faults is none without them: another digest from the first
// tick on, and copies go on with them. Nobody who looks at the machine is told.
func TestFaultsBelongToTheState(t *testing.T) {
	for _, f := range []fault.Fault{
		{Kind: fault.ConcaveBlocked, Degree: 0.6, Where: fault.Front}, {Kind: fault.WalkerSlow, Degree: 0.5},
		{Kind: fault.Stopped, Degree: 1, Where: fault.PartAt(setup.PreSievePart)},
	} {
		sound, m := newMachine(t, "corn", 0, nil), faulty(t, "corn", 0, f)
		require.NotEqual(t, sound.Digest(), m.Digest(), f)
		require.Equal(t, sound.Setup(), m.Setup(), "a setup does not tell")
		run(m, 5)
		c, room := m.Clone(), &Machine{}
		m.CopyTo(room)
		require.Equal(t, m.Faults(), c.Faults())
		for _, copied := range []*Machine{c, room} {
			require.Equal(t, m.Digest(), copied.Digest())
			run(copied, 1)
		}
		var snap Snapshot
		m.Snapshot(&snap)
		require.Equal(t, sound.Setup(), snap.Setup)
		require.NoError(t, m.Adjust(m.Setup()), "what is adjusted stays as wrong as it was")
		run(m, 1)
		require.Equal(t, m.Digest(), c.Digest())
		require.Equal(t, m.Digest(), room.Digest())
	}
}

// A part that stands still is the same whether a setup or a fault says so.
func TestAStoppedPartIsAFault(t *testing.T) {
	byFault := faulty(t, "wheat", 4, fault.Fault{Kind: fault.Stopped, Degree: 1, Where: fault.PartAt(setup.FanPart)})
	bySetup := newMachine(t, "wheat", 4, func(s *setup.Setup) { s.Stopped = setup.FanPart })
	require.Equal(t, byFault.Digest(), bySetup.Digest())
	require.Equal(t, byFault.Faults(), bySetup.Faults())
	require.NotEqual(t, newMachine(t, "wheat", 4, nil).Digest(), byFault.Digest())
}

// Of no degree is no fault: the machine goes as a sound one does, draw for draw.
func TestAFaultOfNoDegreeChangesNothing(t *testing.T) {
	sound := newMachine(t, "soybeans", 6, nil)
	m := faulty(t, "soybeans", 6, fault.Fault{Kind: fault.ConcaveBlocked}, fault.Fault{Kind: fault.WalkerSlow})
	require.Equal(t, sound.Tally(), m.Tally())
	for p, s := range m.places() {
		require.Equal(t, sound.places()[p].Dots, s.Dots, Place(p))
	}
}

// Slow walkers turn more slowly, as is seen of their cranks, and the straw on
// them lies the thicker.
func TestSlowWalkersAreSeenToBeSlow(t *testing.T) {
	look := func(m *Machine) (angle float64, thick float32) {
		run(m, 22)
		var snap Snapshot
		m.Snapshot(&snap)
		for _, c := range snap.WalkerMat {
			thick += c.Load / float32(len(snap.WalkerMat))
		}
		return snap.CrankAngle, thick
	}
	a, mat := look(newMachine(t, "wheat", 0, nil))
	b, slow := look(faulty(t, "wheat", 0, fault.Fault{Kind: fault.WalkerSlow, Degree: 0.4}))
	require.InEpsilon(t, 0.8, b/a, 0.01)
	require.InEpsilon(t, 1/0.8, float64(slow/mat), 0.12)
}

// No room is taken by a step of a machine with faults either.
func TestFaultsTakeNoRoom(t *testing.T) {
	m := faulty(t, "wheat", 10, fault.Fault{Kind: fault.ConcaveBlocked, Degree: 0.5, Where: fault.Left}, fault.Fault{Kind: fault.WalkerSlow, Degree: 0.2})
	require.Zero(t, testing.AllocsPerRun(100, m.Step))
}
