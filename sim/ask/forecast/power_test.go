package forecast

import (
	"testing"

	"github.com/stretchr/testify/require"

	"riddle/sim"
	"riddle/sim/read/readout"
	"riddle/sim/setup"
	"riddle/sim/stage/machines"
	"riddle/sim/stage/section"
	"riddle/sim/stage/shoe"
	"riddle/sim/trade/crop"
)

func told(t *testing.T, name string, edit func(*setup.Setup)) (*twin, readout.Report) {
	t.Helper()
	s, err := setup.Default(name)
	require.NoError(t, err)
	if edit != nil {
		edit(&s)
	}
	require.NoError(t, s.Validate())
	w := newTwin(machines.Walkers, fit(s.Crop), s)
	require.True(t, w.solve())
	return w, w.report()
}

// The parts make up the whole, and no crop's start slows the engine.
func TestEveryPartTakesPower(t *testing.T) {
	for _, name := range crop.Names() {
		w, r := told(t, name, nil)
		require.Equal(t, 1.0, w.engine, name)
		p, sum := &r.Power, 0.0
		for i, v := range []*float64{p.Cylinder, p.Walkers, p.Shoe, p.Fan, p.Chopper, p.Header, p.Driving} {
			require.Positive(t, *v, "%s, part %d", name, i)
			sum += *v
		}
		require.InDelta(t, *p.Total, sum, 1e-9, name)
		require.Zero(t, *p.Unloading, name)
		require.Less(t, *p.Total, p.Limit, name)
	}
}

func TestSwitchesTakePower(t *testing.T) {
	for _, name := range crop.Names() {
		_, start := told(t, name, nil)
		_, off := told(t, name, func(s *setup.Setup) { s.Settings.Chopper = false })
		require.Zero(t, *off.Power.Chopper, name)
		require.InDelta(t, *start.Power.Total-*start.Power.Chopper, *off.Power.Total, 1e-9, name)
		_, on := told(t, name, func(s *setup.Setup) { s.Settings.Unload = true })
		require.Greater(t, *on.Power.Unloading, 2.0, name)
		require.Greater(t, *on.Power.Total, *start.Power.Total, name)
	}
}

// At one resistance the power of the fan goes with the cube of its speed; one
// slowed by its engine takes as much less.
func TestFanGoesWithTheCube(t *testing.T) {
	mat := [3]float64{4, 3, 2}
	slow, fast := shoe.BlastOf(section.UpperLength, 800, 16, 8, mat, [3]float64{}), shoe.BlastOf(section.UpperLength, 1200, 16, 8, mat, [3]float64{})
	require.InEpsilon(t, 1.5*1.5*1.5, shoe.FanKW(&fast)/shoe.FanKW(&slow), 1e-9)
	sped := slow.Sped(1.5)
	require.InEpsilon(t, shoe.FanKW(&fast), shoe.FanKW(&sped), 1e-9)
}

// Uphill the engine lifts the machine, and slows; downhill it pushes itself.
func TestClimbingCostsPowerAndSpeed(t *testing.T) {
	at := func(degrees, speed float64) (*twin, readout.Report) {
		return told(t, "wheat", func(s *setup.Setup) {
			s.Conditions.ForeSlope = degrees
			s.Settings.GroundSpeed *= speed
			s.Conditions.Yield /= speed // the same feed
		})
	}
	_, level := at(0, 1)
	up, climb := at(8, 1)
	_, down := at(-8, 1)
	// (11,500 + 390) kg · 9.81 m/s² · 1.444 m/s · (sin 8° − 0.06 (1 − cos 8°))/0.7 = 33.4 kW
	require.InDelta(t, 33.4, *climb.Power.Driving-*level.Power.Driving, 0.3)
	require.Less(t, up.engine, 1.0)
	require.Less(t, *climb.Cylinder.SpeedRPM, *level.Cylinder.SpeedRPM)
	require.Zero(t, *down.Power.Driving)
	_, faster := at(0, 1.5)
	require.InEpsilon(t, 1.5, *faster.Power.Driving / *level.Power.Driving, 0.01)
}

// What asks for more than the engine has slows, then plugs with the reason;
// without the chopper and the climb the same feed goes through.
func TestEngineHasALimit(t *testing.T) {
	heavy := func(degrees float64, chopper bool) readout.Report {
		_, r := told(t, "wheat", func(s *setup.Setup) {
			s.Conditions.Yield *= 1.7
			s.Conditions.ForeSlope = degrees
			s.Settings.Chopper = chopper
		})
		return r
	}
	require.NotEqual(t, "plugged", heavy(0, false).State)
	r := heavy(15, true)
	require.Equal(t, "plugged", r.State)
	require.Equal(t, sim.Plugs[sim.EnginePlug].Where, *r.PluggedIn)
	require.Nil(t, r.Power.Total)
	require.Nil(t, r.Cylinder.SpeedRPM)
	require.Nil(t, r.PluggedAtS)
	last := 0.0
	for feed := 1.0; ; feed += 0.1 { // on a climb, which loads the engine alone
		_, r := told(t, "wheat", func(s *setup.Setup) {
			s.Conditions.Yield *= feed
			s.Conditions.ForeSlope = 8
		})
		if r.State == "plugged" {
			require.Greater(t, last, 0.95*sim.LimitKW, "it is slowed before it plugs")
			break
		}
		last = *r.Power.Total
		require.LessOrEqual(t, last, sim.LimitKW, "%g times the feed", feed)
		if last > 0.95*sim.LimitKW {
			require.Equal(t, "slowing", r.State)
		}
	}
}
