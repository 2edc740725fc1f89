package sim

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"riddle/sim/setup"
	"riddle/sim/stage/flow"
)

// newMachine returns a machine at the crop's starting settings, changed by
// alter, after some seconds of work.
func newMachine(t testing.TB, crop string, seconds float64, alter func(*setup.Setup)) *Machine {
	t.Helper()
	s, err := setup.Default(crop)
	require.NoError(t, err)
	if alter != nil {
		alter(&s)
	}
	m, err := New(s)
	require.NoError(t, err)
	run(m, seconds)
	return m
}

func run(m *Machine, seconds float64) {
	for range int(seconds * TickHz) {
		m.Step()
	}
}

// requireBalance holds the machine to conservation: every part of a kernel and
// every microgram that came in is in the machine, in the tank or behind.
func requireBalance(t *testing.T, m *Machine) {
	t.Helper()
	grain, mog := m.Inside()
	out := m.tally.Tank.Grain
	for _, lost := range m.tally.Lost {
		out += lost
	}
	if m.tally.In != out+grain {
		t.Fatalf("tick %d: %d parts of a kernel in, %d out and %d inside", m.tick, m.tally.In, out, grain)
	}
	if gone := m.tally.Tank.Foreign + m.tally.Walkers.MOGOver + m.tally.Shoe.MOGOver; m.tally.InMOG != gone+mog {
		t.Fatalf("tick %d: %d µg of MOG in, %d out and %d inside", m.tick, m.tally.InMOG, gone, mog)
	}
}

func TestLedgerHoldsAtEveryTickWhileEverythingChanges(t *testing.T) {
	for _, crop := range []string{"wheat", "soybeans", "corn"} {
		t.Run(crop, func(t *testing.T) {
			t.Parallel()
			m := newMachine(t, crop, 0, nil)
			draw := rand.New(rand.NewPCG(7, 11))
			s := m.Setup()
			for i := range 25 * TickHz {
				if i%17 == 0 {
					f := &setup.Fields[draw.IntN(len(setup.Fields))]
					if f.On(m.Crop()) {
						require.NoError(t, f.Set(&s, f.From+(f.To-f.From)*draw.Float64()))
						require.NoError(t, m.Adjust(s))
					}
				}
				m.Step()
				requireBalance(t, m)
			}
			require.Positive(t, m.tally.In)
		})
	}
}

func TestSameSeedSameDigest(t *testing.T) {
	t.Parallel()
	a, b := newMachine(t, "wheat", 12, nil), newMachine(t, "wheat", 12, nil)
	require.Equal(t, a.Digest(), b.Digest())

	for p, s := range a.places() { // one bit of one place
		if s.Len() == 0 {
			continue
		}
		before := a.Digest()
		bits := &s.Dots[s.Len()/2].X
		*bits = nextAfter(*bits)
		require.NotEqual(t, before, a.Digest(), "place %v", Place(p))
	}
	c := newMachine(t, "wheat", 12, func(s *setup.Setup) { s.Seed = 2 })
	require.NotEqual(t, b.Digest(), c.Digest())
}

func TestStepAllocatesNothing(t *testing.T) {
	for _, crop := range []string{"wheat", "corn"} {
		m := newMachine(t, crop, 40, nil)
		require.GreaterOrEqual(t, m.Live(), 8000, crop)
		require.Zero(t, testing.AllocsPerRun(600, m.Step), crop)
		var s Snapshot
		m.Snapshot(&s)
		require.Zero(t, testing.AllocsPerRun(50, func() { m.Snapshot(&s) }), crop)
	}
}

func TestOverloadPlugsAndKeepsAccount(t *testing.T) {
	t.Parallel()
	for _, crop := range []string{"wheat", "soybeans", "corn"} {
		m := newMachine(t, crop, 0, func(s *setup.Setup) { feedTimes(s, 3) })
		for m.State().Condition != Plugged {
			require.Less(t, m.Seconds(), 20.0, "%s: three times the rated feed plugs within 20 s", crop)
			m.Step()
			requireBalance(t, m)
		}
		require.NotEmpty(t, m.State().Where, crop)
		require.NotEmpty(t, m.State().Why, crop)
		digest := m.Digest()
		run(m, 1)
		require.Equal(t, digest, m.Digest(), "%s: a plugged machine stands still", crop)
	}
}

func TestTwiceTheRatedFeedKeepsRunning(t *testing.T) {
	t.Parallel()
	for _, crop := range []string{"wheat", "soybeans", "corn"} {
		m := newMachine(t, crop, 90, func(s *setup.Setup) { feedTimes(s, 2) })
		require.NotEqual(t, Plugged, m.State().Condition, "%s: %s", crop, m.State().Why)
	}
}

// feedTimes multiplies the feed by way of yield and, where that is at its
// limit, of ground speed.
func feedTimes(s *setup.Setup, n float64) {
	s.Conditions.Yield *= n
	if limit := setup.Find("yield").To; s.Conditions.Yield > limit {
		s.Settings.GroundSpeed *= s.Conditions.Yield / limit
		s.Conditions.Yield = limit
	}
}

func TestAdjustRefusesAndKeeps(t *testing.T) {
	m := newMachine(t, "wheat", 1, nil)
	s := m.Setup()
	s.Settings.Fan = 99999
	require.ErrorContains(t, m.Adjust(s), "fan-speed")
	require.Equal(t, 910.0, m.Setup().Settings.Fan)
}

func TestTankFillsAndUnloads(t *testing.T) {
	t.Parallel()
	m := newMachine(t, "corn", 40, nil)
	full := m.tank.Kg(&m.tally)
	require.Positive(t, full)
	s := m.Setup()
	s.Settings.Unload = true
	require.NoError(t, m.Adjust(s))
	run(m, 10)
	require.Less(t, m.tank.Kg(&m.tally), full)
	require.Positive(t, m.tally.Unloaded)
	requireBalance(t, m)
}

func BenchmarkStep(b *testing.B) {
	for _, crop := range []string{"wheat", "soybeans", "corn"} {
		b.Run(crop, func(b *testing.B) {
			m := newMachine(b, crop, 40, nil)
			for b.Loop() {
				m.Step()
			}
			b.ReportMetric(float64(m.Live()), "dots")
			b.ReportMetric(float64(b.N)/TickHz/b.Elapsed().Seconds(), "×real")
		})
	}
}

func grainOf(dots []flow.Dot, ids map[uint32]bool) (n int64) {
	for i := range dots {
		if ids[dots[i].ID] {
			n += int64(dots[i].Grain)
		}
	}
	return n
}
