package trial

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"riddle/sim"
	"riddle/sim/read/readout"
	"riddle/sim/setup"
)

// watched runs a machine and keeps a mark a second; at a time it is changed.
func watched(t *testing.T, s setup.Setup, seconds, at int, field string, to float64) []Checkpoint {
	t.Helper()
	m, err := sim.New(s)
	require.NoError(t, err)
	var w Watch
	w.Start(m)
	marks := []Checkpoint{w.Now}
	for i := range seconds * sim.TickHz {
		if i == at*sim.TickHz {
			set := m.Setup()
			require.NoError(t, setup.Find(field).Set(&set, to))
			require.NoError(t, m.Adjust(set))
		}
		m.Step()
		w.Keep(m)
		if (i+1)%sim.TickHz == 0 {
			marks = append(marks, w.Now)
		}
	}
	return marks
}

// left is all the grain that left a machine, kg on a hectare that it stood on.
func left(r *readout.Report) float64 {
	return *r.LossKgHa.Processing + *r.Tank.Kg*(1-*r.Tank.Foreign/100) / *r.LeftHa
}

// TestSlowingLaysNoMoreOnAHectare: a machine that slows from 5.2 to 0.5 km/h
// still loses the grain of the hectares behind it. Laid on those, the loss of
// wheat that is fed more thinly goes down, or stays, and never exceeds what it
// was by more than chance.
func TestSlowingLaysNoMoreOnAHectare(t *testing.T) {
	const at = 45
	marks := watched(t, starting(t, "wheat"), at+40, at, "ground-speed", 0.5)
	before := Read(&marks[at-20], &marks[at], nil)
	chance := *before.LossKgHa.Processing / *before.Loss.Processing * *before.LossSE.Processing
	for i := at + 1; i < len(marks); i++ {
		r := Read(&marks[i-10], &marks[i], nil)
		if r.LossKgHa.Processing == nil {
			continue
		}
		require.InEpsilon(t, 1000*marks[0].Setup.Conditions.Yield, left(&r), 0.1, "%d s: what stood on the area", i)
		require.Less(t, *r.LossKgHa.Processing, *before.LossKgHa.Processing+5*chance, "%d s", i)
	}
}

// TestNoMoreIsLostThanStood: driven from a crop of 8 t/ha into one of 0.3 t/ha,
// what is lost behind the machine lies on the first as long as it came from it.
func TestNoMoreIsLostThanStood(t *testing.T) {
	const at = 40
	s := starting(t, "wheat")
	s.Conditions.Yield, s.Settings.GroundSpeed = 8, 3
	marks := watched(t, s, at+30, at, "yield", 0.3)
	for i := at + 1; i < len(marks); i++ {
		r := Read(&marks[i-10], &marks[i], nil)
		l := r.LossKgHa
		if l.Total == nil {
			continue
		}
		require.Less(t, *l.Header, 8000.0)
		require.Less(t, left(&r), 1.1*8000, "%d s: all of the grain of the area", i)
		require.Greater(t, left(&r), 0.7*300, "%d s", i)
	}
}

// TestSteadyMachineLeavesWhatItCuts: in a steady machine the area is the same at
// both ends, up to how evenly the crop stands.
func TestSteadyMachineLeavesWhatItCuts(t *testing.T) {
	_, r, err := Run(starting(t, "barley"), Plan{Warmup: 40, Seconds: 30}, nil)
	require.NoError(t, err)
	require.InEpsilon(t, *r.Feed.AreaHaH/120, *r.LeftHa, 0.02)
	past := 1000 * r.Conditions["yield_t_ha"].(float64) * (1 - *r.Loss.Header/100) // kg/ha that came past the header
	require.InEpsilon(t, past**r.Loss.Processing/100, *r.LossKgHa.Processing, 0.03)
}

// TestNoLossIsToldWhileFilling: a loss is told once grain comes out as it goes
// in, and then never as the most of the crop: no window of a well-set machine
// reads five times what it comes to.
func TestNoLossIsToldWhileFilling(t *testing.T) {
	for _, crop := range []string{"soybeans", "canola"} {
		marks := watched(t, starting(t, crop), 60, 0, "unload", 0)
		last := Read(&marks[40], &marks[60], nil)
		for end := 1; end <= 60; end++ {
			for _, length := range []int{2, 10, 60} {
				r := Read(&marks[max(0, end-length)], &marks[end], nil)
				if end < 12 {
					require.Nil(t, r.Loss.Total, "%s, %d s of %d", crop, length, end)
				}
				if r.Loss.Total == nil {
					require.Nil(t, r.LossSE.Total)
					continue
				}
				require.Less(t, *r.Loss.Total, 3**last.Loss.Total+5**r.LossSE.Total, "%s, %d s of %d", crop, length, end)
				require.False(t, math.IsNaN(*r.LossSE.Total))
			}
		}
		require.NotNil(t, Read(&marks[0], &marks[40], nil).Loss.Total, "%s: most of it is out", crop)
	}
}
