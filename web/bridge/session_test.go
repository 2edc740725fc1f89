package bridge

import (
	"encoding/json"
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"riddle/sim"
	"riddle/sim/setup"
	"riddle/sim/stage/flow"
)

func never() bool { return false }

// send carries out a command and returns the reply.
func send(t *testing.T, s *Session, c Command) Reply {
	t.Helper()
	text, err := json.Marshal(c)
	require.NoError(t, err)
	var r Reply
	require.NoError(t, json.Unmarshal([]byte(s.Do(string(text))), &r))
	return r
}

func TestUpdateMakesTheStepsThatRealTimeBrings(t *testing.T) {
	for _, c := range []struct {
		speed          float64
		updates, steps int
	}{
		{1, 60, sim.TickHz}, {0.05, 600, sim.TickHz / 2}, {0.25, 60, sim.TickHz / 4}, {8, 30, 4 * sim.TickHz},
	} {
		s := NewSession()
		require.Empty(t, send(t, s, Command{Do: "speed", Value: c.speed}).Error)
		require.Empty(t, send(t, s, Command{Do: "start"}).Error)
		made := 0
		for range c.updates {
			made += s.Update(never)
		}
		require.InDelta(t, c.steps, made, 1, "speed %g", c.speed)
		require.EqualValues(t, made, s.Snapshot().Tick)
	}
}

func TestStandingMachineMakesNoSteps(t *testing.T) {
	s := NewSession()
	require.Zero(t, s.Update(never))
	send(t, s, Command{Do: "start"})
	require.NotZero(t, s.Update(never))
	send(t, s, Command{Do: "pause"})
	require.Zero(t, s.Update(never))
}

// A page that is short of time runs slower, never differently.
func TestPaceDoesNotTouchTheModel(t *testing.T) {
	const ticks = 3 * sim.TickHz
	set, err := setup.Default("wheat")
	require.NoError(t, err)
	plain, err := sim.New(set)
	require.NoError(t, err)
	for range ticks {
		plain.Step()
	}

	s := NewSession()
	send(t, s, Command{Do: "start"})
	for i := 0; s.machine.Seconds() < 2.5; i++ {
		send(t, s, Command{Do: "speed", Value: Speeds[i%len(Speeds)]})
		calls := 0
		s.Update(func() bool { calls++; return calls > 5 })
	}
	left := float64(ticks - s.Snapshot().Tick)
	require.Empty(t, send(t, s, Command{Do: "step", Value: left}).Error)
	require.EqualValues(t, ticks, s.Snapshot().Tick)
	require.Equal(t, plain.Digest(), s.machine.Digest())
}

// What the page counts is what the machine counted, kernel by kernel.
func TestLossesAreThoseOfTheLedger(t *testing.T) {
	s := NewSession()
	send(t, s, Command{Do: "step", Value: 40 * sim.TickHz})
	w := s.window(longWindow)
	plain, err := sim.New(s.machine.Setup())
	require.NoError(t, err)
	for plain.Seconds() < 40-w.report.WindowS {
		plain.Step()
	}
	before, after := plain.Tally(), s.machine.Tally()
	passed := func(cause flow.Cause) flow.Grain { return after.Lost[cause] - before.Lost[cause] }
	require.InDelta(t, 27, w.report.WindowS, 3, "since grain came out as it went in")
	out := after.Tank.Grain - before.Tank.Grain + passed(flow.Unthreshed) + passed(flow.Walker) + passed(flow.Blown) + passed(flow.Ridden)
	require.InDelta(t, 100*float64(passed(flow.Walker))/float64(out), *w.report.Loss.Walker, 1e-9)
	require.Equal(t, passed(flow.Walker)/flow.Kernel, s.State().Losses[2].Count)
}

// A window is as long as it says, but does not reach back to when the machine
// was filling.
func TestWindowsSpanTheTimeTheySay(t *testing.T) {
	s := NewSession()
	for _, c := range []struct{ at, window, from float64 }{
		{0.5, 10, 0}, {9.99, 10, 0}, {10, 10, 0}, {27.5, 10, 17}, {70, 50, 20}, {200.25, 60, 140}, {200.25, 10, 190},
	} {
		if left := c.at - s.machine.Seconds(); left > 0 {
			require.Empty(t, send(t, s, Command{Do: "step", Value: left * sim.TickHz}).Error)
		}
		require.InDelta(t, c.from, s.window(c.window).before.Seconds, 1e-9, "%v", c)
	}
	from := s.log.begin(s.log.at(30), longWindow).Seconds
	require.Greater(t, from, 11.0, "the first grain comes out after some ten seconds")
	require.Less(t, from, 16.0)
}

func TestOverloadPlugsWithReasonAndCaution(t *testing.T) {
	s := NewSession()
	require.Empty(t, send(t, s, Command{Do: "situation", Name: "wheat-overload"}).Error)
	send(t, s, Command{Do: "step", Value: 60 * sim.TickHz})
	st := s.State()
	require.Equal(t, "plugged", st.State)
	require.NotNil(t, st.Alarm)
	require.Contains(t, Words(), st.Alarm.Why.Key)
	require.Equal(t, "alarm.stop", st.Alarm.Caution[0].Key)
	require.Contains(t, st.Twin, st.Alarm.Why)
	send(t, s, Command{Do: "start"})
	require.Zero(t, s.Update(never), "a plugged machine stands")
	send(t, s, Command{Do: "reset"})
	require.Nil(t, s.State().Alarm)
	require.Zero(t, s.Snapshot().Tick)
}

func TestAChangeIsToldOnceWithWhatItMoved(t *testing.T) {
	s := NewSession()
	send(t, s, Command{Do: "step", Value: 40 * sim.TickHz})
	require.Empty(t, send(t, s, Command{Do: "set", Name: "fan-speed", Text: "1456"}).Error)
	before := s.State().NoticeID
	send(t, s, Command{Do: "step", Value: settleAfter * sim.TickHz})
	st := s.State()
	require.Equal(t, before+1, st.NoticeID)
	told := encode(st.Notice)
	require.Contains(t, told, "field.fan-speed")
	require.Contains(t, told, `{"v":910,"u":"rpm","d":0}`)
	require.Contains(t, told, `{"v":1456,"u":"rpm","d":0}`)
	require.Contains(t, told, "loss.shoe.short")
	send(t, s, Command{Do: "step", Value: 10 * sim.TickHz})
	require.Equal(t, st.NoticeID, s.State().NoticeID)
}

// Each line of the log stands, and undoing one brings back what was before it.
func TestLogTellsEveryChangeAndUndoesIt(t *testing.T) {
	s := NewSession()
	send(t, s, Command{Do: "step", Value: 40 * sim.TickHz})
	start := s.machine.Setup()
	send(t, s, Command{Do: "set", Name: "fan-speed", Text: "1000"})
	send(t, s, Command{Do: "set", Name: "fan-speed", Text: "1456"}) // one hand, one change
	send(t, s, Command{Do: "step", Value: settleAfter * sim.TickHz})
	send(t, s, Command{Do: "set", Name: "lower-sieve", Text: "3"})
	send(t, s, Command{Do: "step", Value: 5 * sim.TickHz})
	send(t, s, Command{Do: "set", Name: "upper-sieve", Text: "10"})
	list := s.Changes()
	require.Len(t, list, 3)
	require.Equal(t, []string{"fan-speed", "lower-sieve", "upper-sieve"}, []string{list[0].Field, list[1].Field, list[2].Field})
	require.Equal(t, 910.0, *list[0].From.(Q).V)
	require.Equal(t, 1456.0, *list[0].To.(Q).V)
	require.Len(t, list[0].After, len(list[0].Before))
	require.Nil(t, list[1].After)
	require.True(t, list[1].Cut, "changed again before it settled")
	require.Empty(t, send(t, s, Command{Do: "undo", Value: float64(list[0].ID)}).Error)
	require.Equal(t, start, s.machine.Setup())
	require.NotEmpty(t, send(t, s, Command{Do: "undo", Value: 999}).Error)
}

// Units change what is shown and nothing else.
func TestUnitsLoseNothing(t *testing.T) {
	s := NewSession()
	send(t, s, Command{Do: "set", Name: "ground-speed", Text: "5.3"})
	before := s.machine.Setup()
	for _, units := range []string{"us", "metric", "us"} {
		require.Empty(t, send(t, s, Command{Do: "units", Name: units}).Error)
		require.Equal(t, before, s.machine.Setup())
	}
	for _, c := range s.Setup().Controls {
		require.True(t, c.From < c.To && c.Step > 0, c.Name)
		if c.Name == "ground-speed" {
			require.Equal(t, "mph", c.Unit)
			require.InDelta(t, 5.3/1.609344, c.Value, 1e-12)
		}
	}
	require.Empty(t, send(t, s, Command{Do: "set", Name: "ground-speed", Text: "3"}).Error)
	require.InDelta(t, 3*1.609344, s.machine.Setup().Settings.GroundSpeed, 1e-12)
	require.NotEmpty(t, send(t, s, Command{Do: "units", Name: "ells"}).Error)
}

// By hand: 200 a tonne are 0.2 a kilogram lost, less what its water takes off;
// and an acre is 0.404686 ha.
func TestMoneyFollowsLoss(t *testing.T) {
	s := NewSession()
	require.Empty(t, send(t, s, Command{Do: "price", Value: 200}).Error)
	send(t, s, Command{Do: "step", Value: 40 * sim.TickHz})
	m, r := s.State().Money, s.window(longWindow).report
	cost := 0.2 * *r.LossKgHa.Total * (1 - *r.Money.Moisture/100)
	require.Equal(t, "money.lost", m.Lines[0].Key)
	require.InEpsilon(t, cost, *m.Lines[0].Value, 1e-9)
	send(t, s, Command{Do: "units", Name: "us"})
	m = s.State().Money
	require.Equal(t, "bu", m.Sold)
	require.InDelta(t, 200*0.0272155, m.Price, 1e-4) // 60 lb are 27.2155 kg
	require.InEpsilon(t, cost*0.404686, *m.Lines[0].Value, 1e-5)
}

// A price is above nothing; what is not leaves the price as it was.
func TestAPriceIsAboveNothing(t *testing.T) {
	s := NewSession()
	require.Empty(t, send(t, s, Command{Do: "price", Value: 200}).Error)
	for _, bad := range []float64{0, -1, 1e6 + 1} {
		r := send(t, s, Command{Do: "price", Value: bad})
		require.Equal(t, "price", r.Field)
		require.Equal(t, "wrong.price", r.Say.Key)
		require.InDelta(t, 200, s.price, 1e-9)
	}
}

// The warm-up changes nothing but how fast the first seconds pass.
func TestWarmUpIsAnOrdinaryRun(t *testing.T) {
	s := NewSession()
	require.Empty(t, send(t, s, Command{Do: "warm"}).Error)
	for s.Warming() {
		calls := 0
		s.Update(func() bool { calls++; return calls > 50 })
	}
	require.EqualValues(t, warmTicks, s.Snapshot().Tick)
	plain, err := sim.New(s.machine.Setup())
	require.NoError(t, err)
	for range warmTicks {
		plain.Step()
	}
	require.Equal(t, plain.Digest(), s.machine.Digest())
	require.Zero(t, s.Update(never), "it stands until it is started")
	require.NotNil(t, s.State().Losses[rows-1].Short.V)
}

// The chart reads what the table reads.
func TestChartAgreesWithTheTable(t *testing.T) {
	s := NewSession()
	send(t, s, Command{Do: "step", Value: 45 * sim.TickHz})
	c := s.Chart(0)
	require.Len(t, c.Points, 45)
	last := c.Points[len(c.Points)-1]
	require.Equal(t, 45.0, last.At)
	for i, r := range s.State().Losses {
		require.Equal(t, r.Short.V, last.Loss[i])
	}
	require.Len(t, s.Chart(40).Points, 5)
	require.Nil(t, c.Points[2].Loss[rows-1], "nothing has come out yet")
}

func TestBadCommandsNameWhatIsWanted(t *testing.T) {
	for _, c := range []struct {
		command     Command
		field, want string
	}{
		{Command{Do: "set", Name: "fan-speed", Text: "5000"}, "fan-speed", "200 to 1800 rpm"},
		{Command{Do: "set", Name: "fan-speed", Text: "fast"}, "fan-speed", "200 to 1800 rpm"},
		{Command{Do: "set", Name: "fan-speed", Text: "NaN"}, "fan-speed", "200 to 1800 rpm"},
		{Command{Do: "set", Name: "colour", Text: "5"}, "colour", "setting"},
		{Command{Do: "crop", Name: "moss"}, "crop", "wheat"},
		{Command{Do: "situation", Name: "moon"}, "situation", "list"},
		{Command{Do: "speed", Value: 99}, "speed", "8 times"},
		{Command{Do: "step", Value: -1}, "step", "ticks"},
		{Command{Do: "seed", Text: "-1"}, "seed", "whole number"},
	} {
		s := NewSession()
		set, digest := s.machine.Setup(), s.machine.Digest()
		r := send(t, s, c.command)
		require.Equal(t, c.field, r.Field, "%v", c.command)
		require.Contains(t, r.Error, c.want)
		require.Equal(t, set, s.machine.Setup())
		require.Equal(t, digest, s.machine.Digest())
	}
	s := NewSession()
	require.Contains(t, s.Do("{"), "error")
	require.NotEmpty(t, send(t, s, Command{Do: "fly"}).Error)
}

func TestResetKeepsSettingsAndRestoreBringsThemBack(t *testing.T) {
	s := NewSession()
	send(t, s, Command{Do: "set", Name: "fan-speed", Text: "700"})
	send(t, s, Command{Do: "step", Value: 100})
	send(t, s, Command{Do: "reset"})
	require.Zero(t, s.Snapshot().Tick)
	require.Equal(t, 700.0, s.machine.Setup().Settings.Fan)
	r := send(t, s, Command{Do: "restore"})
	require.NotNil(t, r.Setup)
	start, err := setup.Default("wheat")
	require.NoError(t, err)
	require.Equal(t, start, s.machine.Setup())
}

func TestStepCostsNoAllocation(t *testing.T) {
	s := NewSession()
	send(t, s, Command{Do: "step", Value: 20 * sim.TickHz})
	s.running = true
	allocs := testing.AllocsPerRun(50, func() { s.Update(never) })
	require.LessOrEqual(t, allocs, 1.0, fmt.Sprint("an update allocates"))
}
