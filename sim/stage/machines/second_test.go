package machines_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"riddle/sim"
	"riddle/sim/ask/forecast"
	"riddle/sim/setup"
	"riddle/sim/stage/design"
	"riddle/sim/stage/fault"
	"riddle/sim/stage/flow"
	"riddle/sim/stage/machines"
	"riddle/sim/stage/section"
	"riddle/sim/trade/crop"
)

// second is another machine: it has no pre-sieve and no returns, longer sieves
// under longer conveyors, walkers that are shorter and rise without steps, and a
// shorter concave. It is calibrated for wheat alone. Chosen.
func second() *machines.Machine {
	p := *design.WithWalkers
	p.Name = "second"
	p.PreSieve, p.Returns = nil, nil
	p.FeedPath = append([]section.Point{{X: -3.75, Y: 0.12}}, section.FeedPath[1:]...)
	p.ConcaveLength, p.Arc = 0.58, 107*math.Pi/180
	p.ConveyorFloor = section.Line{A: section.Point{X: -0.35, Y: 1.24}, B: section.Point{X: 1.40, Y: 1.18}}
	p.Rear, p.WalkerRun, p.WalkerFace = 4.30, 3.50, 3.54
	p.Height = func(x float64) float64 { return 1.72 + 0.15*(x-0.80) }
	p.WalkerPan = section.Line{A: section.Point{X: 0.95, Y: 1.40}, B: section.Point{X: 4.30, Y: 1.92}}
	p.CollectingPan = section.Line{A: section.Point{X: 1.22, Y: 0.84}, B: section.Point{X: 1.72, Y: 0.70}}
	p.UpperSieve = section.Line{A: section.Point{X: 1.50, Y: 0.95}, B: section.Point{X: 3.30, Y: 1.04}}
	p.UpperLength, p.UpperTail = 1.80, 1.50
	p.LowerSieve = section.Line{A: section.Point{X: 1.70, Y: 0.64}, B: section.Point{X: 3.20, Y: 0.70}}
	p.LowerLength, p.LowerBehind = 1.50, 0.20
	p.Calibration = map[string]*design.Calibration{"wheat": design.WithWalkers.Calibration["wheat"]}
	return &machines.Machine{Plan: &p, Thresh: machines.Cylinder, Separate: machines.StrawWalkers}
}

func build(t *testing.T, kind *machines.Machine) *sim.Machine {
	t.Helper()
	s, err := setup.Default("wheat")
	require.NoError(t, err)
	m, err := sim.Build(kind, s, fault.Set{})
	require.NoError(t, err)
	return m
}

func run(m *sim.Machine, seconds int) {
	for range seconds * sim.TickHz {
		m.Step()
	}
}

// inAccount holds a machine to conservation, to the part of a kernel and the µg.
func inAccount(t *testing.T, m *sim.Machine) {
	t.Helper()
	grain, mog := m.Inside()
	c := m.Tally()
	for _, lost := range c.Lost {
		grain += lost
	}
	if out := c.Tank.Foreign + c.Walkers.MOGOver + c.Shoe.MOGOver; c.In != grain+c.Tank.Grain || c.InMOG != mog+out {
		t.Fatalf("tick %d: in %d parts of a kernel and %d µg, out and inside %d and %d", m.Tick(), c.In, c.InMOG, grain+c.Tank.Grain, mog+out)
	}
}

// A machine with two rooms missing and other lengths is a value: it keeps the
// account at every tick, fills its tank, and nothing comes into rooms that it
// does not have. What would have gone there goes where it falls: short of the
// upper sieve on the pan under the step, and over the lower sieve on the ground.
func TestASecondMachineRunsAsAValue(t *testing.T) {
	m, view := build(t, second()), sim.Snapshot{}
	onPan, short := 0, false
	for range 20 * sim.TickHz {
		m.Step()
		inAccount(t, m)
		m.Glance(&view)
		for _, none := range []sim.Place{sim.PreSieve, sim.Trough, sim.Returning} {
			if len(view.Dots[none]) > 0 {
				t.Fatalf("tick %d: something is in a room that there is not: %v", m.Tick(), none)
			}
		}
		onPan += len(view.Dots[sim.Collecting])
		for _, d := range view.Dots[sim.Upper] {
			short = short || d.Ride == flow.InMat && d.X < float32(section.UpperSieve.A.X)
		}
		for _, d := range view.Dots[sim.Walking] {
			if d.X > 4.30 {
				t.Fatalf("straw at %v m, on walkers that end at 4.30", d.X)
			}
		}
	}
	c := m.Tally()
	require.Equal(t, sim.Running, m.State().Condition)
	require.Zero(t, c.Returns)
	require.Positive(t, onPan)
	require.True(t, short, "the sieve begins where the pre-sieve was")
	require.Greater(t, float64(c.Tank.Grain), 0.7*float64(c.Out()), "most of the grain that left came into the tank")
	require.Positive(t, c.Lost[flow.Ridden])
}

func TestASecondMachineIsTheSameTwice(t *testing.T) {
	a, b := build(t, second()), build(t, second())
	run(a, 6)
	run(b, 6)
	require.Equal(t, a.Digest(), b.Digest())
	c := a.Clone()
	run(a, 3)
	run(c, 3)
	require.Equal(t, a.Digest(), c.Digest(), "a clone has the same plan")
	first, err := sim.New(b.Setup())
	require.NoError(t, err)
	run(first, 6)
	require.NotEqual(t, b.Digest(), first.Digest())
}

// The forecast has the same rooms as the run.
func TestASecondMachineIsForecast(t *testing.T) {
	m := build(t, second())
	run(m, 20)
	was := m.Tally()
	run(m, 30)
	now := m.Tally()
	r, err := forecast.ReportOf(second(), m.Setup())
	require.NoError(t, err)
	out := float64(now.Out() - was.Out())
	lost := func(causes ...flow.Cause) (share float64) {
		for _, cause := range causes {
			share += 100 * float64(now.Lost[cause]-was.Lost[cause]) / out
		}
		return share
	}
	t.Logf("run %.3f %.3f %.3f, forecast %.3f %.3f %.3f", lost(flow.Walker), lost(flow.Blown, flow.Ridden), lost(flow.Unthreshed), *r.Loss.Walker, *r.Loss.Shoe, *r.Loss.Unthreshed)
	near := func(what string, forecast, run float64) { // as forecasts of the first machine are held
		require.InDelta(t, run, forecast, max(0.25, 0.15*run), what)
	}
	near("walkers", *r.Loss.Walker, lost(flow.Walker))
	near("shoe", *r.Loss.Shoe, lost(flow.Blown, flow.Ridden))
	near("unthreshed", *r.Loss.Unthreshed, lost(flow.Unthreshed))
}

func TestAMachineRefusesACropThatItIsNotCalibratedFor(t *testing.T) {
	s, err := setup.Default("corn")
	require.NoError(t, err)
	_, err = sim.Build(second(), s, fault.Set{})
	require.EqualError(t, err, `crop: corn is not accepted; it must be a crop that the machine "second" is calibrated for`)
	_, err = forecast.ReportOf(second(), s)
	require.Error(t, err)
}

// A sieve longer than the forecast can follow is refused, not cut short.
func TestALongerSieveThanCanBeForecastIsRefused(t *testing.T) {
	s, err := setup.Default("wheat")
	require.NoError(t, err)
	for _, lengthen := range []func(*design.Plan){func(p *design.Plan) { p.UpperLength = 2.6 }, func(p *design.Plan) { p.LowerLength = 2.6 }} {
		kind, plan := *second(), *second().Plan
		lengthen(&plan)
		kind.Plan = &plan
		_, err := sim.Build(&kind, s, fault.Set{})
		require.ErrorContains(t, err, "2.6 m long; at most 2.5 m")
		_, err = forecast.ReportOf(&kind, s)
		require.ErrorContains(t, err, "2.6 m long; at most 2.5 m")
	}
}

// What a plan says twice agrees.
func TestPlansAgreeWithThemselves(t *testing.T) {
	for _, p := range []*design.Plan{design.WithWalkers, second().Plan} {
		length := func(l section.Line) float64 { return l.B.X - l.A.X }
		require.InDelta(t, length(p.UpperSieve), p.UpperLength, 1e-9, p.Name)
		require.InDelta(t, length(p.LowerSieve), p.LowerLength, 1e-9, p.Name)
		require.InDelta(t, p.LowerSieve.A.X-p.UpperSieve.A.X, p.LowerBehind, 1e-9, p.Name)
		require.InDelta(t, p.Rear-p.Start, p.WalkerRun, 1e-9, p.Name)
		require.Equal(t, p.FeedPath[0], p.CutterBar, p.Name)
	}
	for _, name := range crop.Names() {
		require.NotNil(t, design.WithWalkers.In(crop.Find(name)), name)
	}
}
