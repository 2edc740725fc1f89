package sim

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"riddle/sim/setup"
	"riddle/sim/stage/flow"
	"riddle/sim/stage/section"
)

func nextAfter(x float32) float32 { return math.Nextafter32(x, math.MaxFloat32) }

// kernelsIn collects the numbers of the loose kernels in a swarm.
func kernelsIn(dots []flow.Dot, which func(*flow.Dot) bool) map[uint32]bool {
	ids := map[uint32]bool{}
	for i := range dots {
		if d := &dots[i]; d.Kind.IsKernel() && (which == nil || which(d)) {
			ids[d.ID] = true
		}
	}
	return ids
}

// A stronger fan acts at once on what is in its air and not at all on what has
// left it.
func TestMoreFanBlowsWhatIsOnTheSieveAndNothingElse(t *testing.T) {
	t.Parallel()
	blown := func(seed uint64, factor float64) (sieve, trough int64) {
		m := newMachine(t, "wheat", 40, func(s *setup.Setup) { s.Seed = seed })
		onSieve := kernelsIn(m.shoe.Upper.Dots, nil)
		inTrough := kernelsIn(m.tank.Lifting.Dots, nil)
		s := m.Setup()
		s.Settings.Fan *= factor
		require.NoError(t, m.Adjust(s))
		run(m, 1)
		for _, d := range m.ground.Lost.Dots {
			if d.Cause == flow.Blown && onSieve[d.ID] {
				sieve++
			}
		}
		return sieve, grainOf(m.ground.Lost.Dots, inTrough)
	}
	var calm, windy float64
	for seed := range uint64(3) {
		a, _ := blown(seed, 1)
		b, trough := blown(seed, 1.6)
		calm, windy = calm+float64(a), windy+float64(b)
		require.Zero(t, trough)
	}
	t.Logf("kernels blown off within a second: %v calm, %v windy", calm, windy)
	require.Greater(t, windy, calm+3*math.Sqrt(calm+windy))
}

// Grain is held by the chaff that lies around it, not by a clock: without the
// chaff it sinks at once.
func TestWithoutChaffGrainSinksAtOnce(t *testing.T) {
	t.Parallel()
	held := func(bare bool) float64 {
		m := newMachine(t, "wheat", 40, nil)
		if bare {
			kept := m.shoe.Upper.Dots[:0]
			for _, d := range m.shoe.Upper.Dots {
				if d.Kind.IsKernel() {
					kept = append(kept, d)
				}
			}
			m.shoe.Upper.Dots = kept
		}
		inMat := func(d *flow.Dot) bool { return d.Ride == flow.InMat && d.X < 2.6 }
		before := kernelsIn(m.shoe.Upper.Dots, inMat)
		require.Greater(t, len(before), 100)
		for range TickHz / 5 {
			m.Step()
			if bare { // no new chaff either
				for i := len(m.shoe.Pre.Dots) - 1; i >= 0; i-- {
					if m.shoe.Pre.Dots[i].Kind.IsMOG() {
						m.shoe.Pre.Remove(i)
					}
				}
			}
		}
		after := kernelsIn(m.shoe.Upper.Dots, func(d *flow.Dot) bool { return d.Ride == flow.InMat && before[d.ID] })
		return float64(len(after)) / float64(len(before))
	}
	bare, matted := held(true), held(false)
	t.Logf("still held after a fifth of a second: %.3f without chaff, %.3f with it", bare, matted)
	require.Less(t, bare, 0.15) // some 180 kernels: a tenth, and two standard errors
	require.Greater(t, matted, 3*bare)
}

// A second of heavy crop reaches the stages one after another, with the delays
// that the section gives.
func TestASlugArrivesInOrder(t *testing.T) {
	t.Parallel()
	gates := map[string]func(*flow.Tally) int64{
		"concave":  func(t *flow.Tally) int64 { return t.Cylinder.MOG },
		"step":     func(t *flow.Tally) int64 { return t.Shoe.Grain },
		"returns":  func(t *flow.Tally) int64 { return t.Returns.Free + t.Returns.Unthreshed },
		"walkers":  func(t *flow.Tally) int64 { return t.Walkers.MOGOver },
		"returned": func(t *flow.Tally) int64 { return t.Returns.Back },
	}
	const fields, warm = 3, 40
	var flat, slug [fields]*Machine
	for i := range fields {
		seed := func(s *setup.Setup) { s.Seed = uint64(i + 1) }
		flat[i], slug[i] = newMachine(t, "wheat", warm, seed), newMachine(t, "wheat", warm, seed)
	}
	start := slug[0].Setup()
	arrival := map[string]float64{}
	for i := range 22 * TickHz {
		surplus, usual := map[string]int64{}, map[string]int64{}
		for k := range fields {
			if s := slug[k].Setup(); i == 0 || i == TickHz {
				s.Conditions.Yield = start.Conditions.Yield * []float64{2, 1}[i/TickHz]
				require.NoError(t, slug[k].Adjust(s))
			}
			flat[k].Step()
			slug[k].Step()
			now, was := slug[k].Tally(), flat[k].Tally()
			for name, gate := range gates {
				surplus[name] += gate(&now) - gate(&was)
				usual[name] += rate(gate, flat[k])
			}
		}
		for name := range gates { // it has come when six tenths of a second's flow is surplus
			if _, seen := arrival[name]; !seen && surplus[name] > usual[name]*6/10 {
				arrival[name] = float64(i) / TickHz
			}
		}
	}
	t.Log(arrival)
	standing := (section.CutterBar.X + 5.3) / (start.Settings.GroundSpeed / 3.6) // s from the horizon to the bar
	require.InDelta(t, standing+2.0+0.6, arrival["concave"], 0.6, "header and feeder take 2.0 s")
	require.Greater(t, arrival["step"], arrival["concave"])
	require.InDelta(t, arrival["concave"]+10, arrival["walkers"], 2.5, "4 m of walkers at 0.40 m/s")
	require.Greater(t, arrival["returns"], arrival["step"])
	require.Greater(t, arrival["walkers"], arrival["returns"])
	require.InDelta(t, arrival["returns"]+3.5, arrival["returned"], 1.2, "the returns take 3.5 s")
}

// rate is what passes a gate in a second.
func rate(gate func(*flow.Tally) int64, m *Machine) int64 {
	t := m.Tally()
	return int64(float64(gate(&t)) / m.Seconds())
}

// The ledger's losses are the dots that cross the rear edges, counted apart by
// following each dot by its number.
func TestLossIsWhatCrossesTheRearEdge(t *testing.T) {
	t.Parallel()
	m := newMachine(t, "wheat", 40, func(s *setup.Setup) { s.Settings.Fan *= 1.3; s.Settings.GroundSpeed *= 1.3 })
	before := m.Tally()
	var walkers, shoe, pieces int64
	for range 8 * TickHz {
		from := map[uint32]Place{}
		for _, p := range []Place{Walking, Upper, Between} {
			for _, d := range m.places()[p].Dots {
				if d.Grain > 0 {
					from[d.ID] = p
				}
			}
		}
		m.Step()
		for _, p := range []Place{Hood, Behind} {
			for _, d := range m.places()[p].Dots {
				place, came := from[d.ID]
				edge := map[Place]float32{Walking: section.RearEdgeWalkers, Upper: section.RearEdgeShoe, Between: float32(section.ReturnsTrough[3].X)}[place]
				switch {
				case !came:
				case d.X < edge:
					t.Fatalf("a dot left %v at x = %v, before the edge at %v", place, d.X, edge)
				case d.Kind == flow.Piece:
					pieces += int64(d.Grain)
				case place == Walking:
					walkers += int64(d.Grain)
				default:
					shoe += int64(d.Grain)
				}
			}
		}
	}
	after := m.Tally()
	require.Positive(t, walkers)
	require.Positive(t, shoe)
	require.Equal(t, after.Lost[flow.Walker]-before.Lost[flow.Walker], walkers)
	require.Equal(t, after.Lost[flow.Blown]+after.Lost[flow.Ridden]-before.Lost[flow.Blown]-before.Lost[flow.Ridden], shoe)
	require.Equal(t, after.Lost[flow.Unthreshed]-before.Lost[flow.Unthreshed], pieces)
}
