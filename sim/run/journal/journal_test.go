package journal

import (
	"testing"

	"github.com/stretchr/testify/require"

	"riddle/sim/run/course"
	"riddle/sim/setup"
)

func start(t *testing.T) Start {
	t.Helper()
	s, err := setup.Default("wheat")
	require.NoError(t, err)
	from := s
	s.Conditions.Yield = 4
	field := &course.Course{Stretches: []course.Stretch{{
		Name: "patch", From: 0, To: 50, Values: []course.Value{{Field: setup.Find("yield"), To: 8}, {Field: setup.Find("green-weeds"), To: 12}},
	}}}
	return Start{From: from, Setup: s, Course: field, Held: []string{"yield", "fan-speed"}}
}

func steps(r *Run, n int) {
	for range n {
		r.Step()
	}
}

// Every command stands in the journal with its tick, be it at the same tick as
// another or to the same value, and nothing else does.
func TestNothingIsMergedOrLeftOut(t *testing.T) {
	r, err := start(t).Begin()
	require.NoError(t, err)
	fan, yield := setup.Find("fan-speed"), setup.Find("yield")
	require.NoError(t, r.Set(fan, 1000))
	require.NoError(t, r.Set(fan, 1001))
	steps(r, 3)
	require.NoError(t, r.Set(fan, 1001))
	require.Error(t, r.Set(fan, 9000))
	steps(r, 40)
	require.NoError(t, r.Release())
	require.NoError(t, r.Set(yield, 5))
	require.Equal(t, []Command{{0, fan, 1000}, {0, fan, 1001}, {3, fan, 1001}, {43, nil, 0}, {43, yield, 5}}, r.Commands())
	require.Equal(t, []string{"yield"}, r.Start().Held, "the course has no fan to leave alone")
}

// What is held is left alone, what is released follows the field from where the
// situation starts, and a hand takes it back.
func TestHoldAndRelease(t *testing.T) {
	r, err := start(t).Begin()
	require.NoError(t, err)
	conditions := func() setup.Conditions { return r.Machine.Setup().Conditions }
	steps(r, 2)
	require.Equal(t, 4.0, conditions().Yield)
	require.Equal(t, 12.0, conditions().GreenWeeds)
	require.NoError(t, r.Set(setup.Find("green-weeds"), 1))
	require.NoError(t, r.Release())
	steps(r, 1)
	require.Equal(t, 8.0, conditions().Yield)
	require.Equal(t, 12.0, conditions().GreenWeeds)
	require.NoError(t, r.Set(setup.Find("green-weeds"), 2))
	again := r.Again()
	require.Equal(t, []string{"green-weeds"}, again.Held)
	require.Equal(t, 5.0, again.Setup.Conditions.Yield, "as the situation has it at the edge of the field")
	require.Equal(t, 2.0, again.Setup.Conditions.GreenWeeds)
}

// A journal that was taken stays as it is, whatever its run or another made of
// it goes on to do; what is done by hand to a run that follows a journal drops
// what was to come.
func TestAJournalIsAValue(t *testing.T) {
	r, err := start(t).Begin()
	require.NoError(t, err)
	fan := setup.Find("fan-speed")
	for v := range 4 {
		require.NoError(t, r.Set(fan, float64(1000+v)))
		steps(r, 10)
	}
	j := r.Journal()
	want := append([]Command(nil), j.Commands...)
	again, err := j.Play()
	require.NoError(t, err)
	steps(again, 15)
	require.Len(t, again.Commands(), 2, "the others are to come")
	require.NoError(t, again.Set(fan, 500))
	require.NoError(t, r.Set(fan, 600))
	steps(again, 30)
	require.Equal(t, 500.0, again.Machine.Setup().Settings.Fan)
	require.Len(t, again.Commands(), 3)
	require.Equal(t, want, j.Commands)
	same, err := j.Play()
	require.NoError(t, err)
	steps(same, 40)
	same.Due()
	require.NoError(t, same.Set(fan, 600))
	require.Equal(t, r.Machine.Digest(), same.Machine.Digest())
	require.Equal(t, r.Journal(), same.Journal())
}
