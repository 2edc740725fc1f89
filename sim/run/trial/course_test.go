package trial

import (
	"testing"

	"github.com/stretchr/testify/require"

	"riddle/sim"
	"riddle/sim/run/course"
	"riddle/sim/setup"
	"riddle/sim/trade/weather"
)

func patchy() *course.Course {
	return &course.Course{
		Stretches: []course.Stretch{{Name: "heavy patch", From: 12, To: 40, Edge: 4, Values: []course.Value{{Field: setup.Find("yield"), To: 7.5}}}},
		Day:       &course.Day{Start: 19, Pace: 120, Day: weather.Day{Low: 10, High: 26, Humidity: 55, Clear: 1, Sunrise: 6, Sunset: 20}},
	}
}

// A run along a course is as repeatable as any, keeps its account, and reads
// more grain in a heavier patch: yield times width times speed, by arithmetic.
func TestRunAlongACourse(t *testing.T) {
	s, err := setup.Default("wheat")
	require.NoError(t, err)
	plan := Plan{Warmup: 14, Seconds: 8, Course: patchy()}
	m, along, err := Run(s, plan, nil)
	require.NoError(t, err)
	_, again, err := Run(s, plan, nil)
	require.NoError(t, err)
	require.Equal(t, *along.Digest, *again.Digest)
	require.Equal(t, 7.5, m.Setup().Conditions.Yield, "still in the patch: 5.2 km/h for 22 s is 31.8 m")
	require.InDelta(t, 7.5/10*6*5.2/3.6, *along.Feed.GrainKgS, 0.25, "7.5 t/ha over 6 m at 5.2 km/h, kg/s")
	require.Greater(t, m.Setup().Conditions.StrawMoisture, 12.0, "evening comes on")
	l := along.Ledger
	require.Equal(t, l.KernelsIn, l.Tank+l.Header+l.Unthreshed+l.Walker+l.Shoe+l.Inside)
}

// What is given by hand wins over the course, from the start or from its time
// on.
func TestAHandWinsOverTheCourse(t *testing.T) {
	s, err := setup.Default("wheat")
	require.NoError(t, err)
	m, _, err := Run(s, Plan{Warmup: 5, Seconds: 10, Course: patchy(), Held: []string{"yield"}}, nil)
	require.NoError(t, err)
	require.Equal(t, s.Conditions.Yield, m.Setup().Conditions.Yield)
	m, _, err = Run(s, Plan{Warmup: 5, Seconds: 15, Course: patchy(), Changes: []Change{{At: 12, Field: "yield", Value: 3}}}, nil)
	require.NoError(t, err)
	require.Equal(t, 3.0, m.Setup().Conditions.Yield)
}

// A course that says what already is makes no difference to a single bit.
func TestACourseOfNothingNewChangesNothing(t *testing.T) {
	s, err := setup.Default("soybeans")
	require.NoError(t, err)
	same := &course.Course{Stretches: []course.Stretch{{Name: "same", From: 1, To: 9, Values: []course.Value{{Field: setup.Find("yield"), To: s.Conditions.Yield}}}}}
	plain, err := Reach(s, 6, nil)
	require.NoError(t, err)
	along, _, err := ReachAlong(s, Plan{Course: same}, 6, nil)
	require.NoError(t, err)
	require.Equal(t, plain.Digest(), along.Digest())
}

func TestCourseStepMakesNothing(t *testing.T) {
	s, err := setup.Default("wheat")
	require.NoError(t, err)
	m, err := sim.New(s)
	require.NoError(t, err)
	d, err := patchy().On(s)
	require.NoError(t, err)
	for range 30 * sim.TickHz {
		m.Step()
	}
	require.Zero(t, testing.AllocsPerRun(200, func() { m.Step(); d.Step(m) }))
}
