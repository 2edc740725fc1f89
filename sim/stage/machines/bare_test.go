package machines_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"riddle/sim"
	"riddle/sim/setup"
	"riddle/sim/stage/design"
	"riddle/sim/stage/fault"
	"riddle/sim/stage/flow"
	"riddle/sim/stage/machines"
	"riddle/sim/stage/straw"
	"riddle/sim/trade/crop"
)

// stubble is what separates where there are no walkers: the straw falls from the
// concave to the ground, with all that is in it.
type stubble struct {
	over, none flow.Swarm
	bed        flow.Mat
}

func (s *stubble) Step(_ *setup.Setup, _ *crop.Condition, _, _ float64, _ float32, _, lost *flow.Swarm, t *flow.Tally) {
	for _, d := range s.over.Dots {
		if d.Grain > 0 {
			d.Cause = flow.Walker
			if d.Kind == flow.Piece {
				d.Cause = flow.Unthreshed
				t.Unthreshed.Straw += int64(d.Grain)
			}
			t.Lost[d.Cause] += int64(d.Grain)
		}
		t.Walkers.MOGOver += int64(d.Mass)
		d.Ride, d.VX, d.VY = flow.Airborne, 0, 0
		lost.Add(d)
	}
	s.over.Dots = s.over.Dots[:0]
}

func (s *stubble) SetFaults(fault.Extra) {}

func (s *stubble) CopyInto(to any, _ flow.Stream, _ *uint32) {
	s.over.CopyTo(&to.(*stubble).over)
	s.none.CopyTo(&to.(*stubble).none)
}

func (s *stubble) Rooms() straw.Rooms {
	return straw.Rooms{Plate: &s.over, Mat: &s.none, Under: &s.none, Pan: &s.none, Hood: &s.none}
}

func (s *stubble) Full() (hood, outlet bool) { return false, false }
func (s *stubble) Turned() straw.Angles      { return straw.Angles{} }
func (s *stubble) Bed() *flow.Mat            { return &s.bed }
func (s *stubble) Thick(int) float32         { return 0 }

// A machine without walkers has a room of its own in their place: it keeps the
// account, fills its tank with what the concave lets through, and loses the free
// grain that would have been shaken out of the straw.
func TestAMachineWithoutWalkers(t *testing.T) {
	kind := second()
	kind.Separate = machines.Separation{
		New:   func(*design.Fit, flow.Stream, *uint32) machines.Separator { return &stubble{} },
		Empty: func() machines.Separator { return &stubble{} },
	}
	m, view := build(t, kind), sim.Snapshot{}
	for range 15 * sim.TickHz {
		m.Step()
		inAccount(t, m)
	}
	m.Glance(&view)
	for _, none := range []sim.Place{sim.Walking, sim.UnderWalker, sim.Pan, sim.Hood} {
		require.Empty(t, view.Dots[none], "%v", none)
	}
	c := m.Tally()
	require.Positive(t, c.Tank.Grain)
	require.Equal(t, c.Walkers.Free, c.Lost[flow.Walker], "nothing that the concave kept came back")
	again := build(t, kind)
	run(again, 15)
	require.Equal(t, m.Digest(), again.Digest())
	clone := m.Clone()
	run(clone, 2)
	run(m, 2)
	require.Equal(t, m.Digest(), clone.Digest())
}
