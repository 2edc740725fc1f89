package bridge

import (
	"encoding/json"
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"riddle/render"
	"riddle/sim"
	"riddle/sim/crop"
	"riddle/sim/flow"
	"riddle/sim/setup"
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
func TestLossesOfAYoungRunAreItsWholeLedger(t *testing.T) {
	s := NewSession()
	send(t, s, Command{Do: "step", Value: 40 * sim.TickHz})
	w := s.window(longWindow)
	tally := s.machine.Tally()
	for cause := flow.Header; cause < flow.Causes; cause++ {
		require.Equal(t, tally.Lost[cause], w.lost(cause), cause)
	}
	require.InDelta(t, 40, w.report.WindowS, 1e-9)
	out := tally.Tank.Grain + tally.Lost[flow.Unthreshed] + tally.Lost[flow.Walker] + tally.Lost[flow.Blown] + tally.Lost[flow.Ridden]
	require.InDelta(t, 100*float64(tally.Lost[flow.Walker])/float64(out), *w.report.Loss.Walker, 1e-9)
	require.Equal(t, count(tally.Lost[flow.Walker]/flow.Quarters), s.State().Losses[2].Count)
}

func TestWindowsSpanTheTimeTheySay(t *testing.T) {
	s := NewSession()
	for _, c := range []struct{ at, window, from float64 }{
		{0.5, 10, 0}, {9.99, 10, 0}, {10, 10, 0}, {15.5, 10, 5}, {70, 60, 10}, {200.25, 60, 140}, {200.25, 10, 190},
	} {
		if left := c.at - s.machine.Seconds(); left > 0 {
			require.Empty(t, send(t, s, Command{Do: "step", Value: left * sim.TickHz}).Error)
		}
		require.InDelta(t, c.from, s.log.since(c.window).seconds, 1e-9, "%v", c)
	}
}

func TestOverloadPlugsWithReasonAndCaution(t *testing.T) {
	s := NewSession()
	require.Empty(t, send(t, s, Command{Do: "situation", Name: "wheat-overload"}).Error)
	send(t, s, Command{Do: "step", Value: 60 * sim.TickHz})
	st := s.State()
	require.Equal(t, "plugged", st.State)
	require.NotNil(t, st.Alarm)
	require.NotEmpty(t, st.Alarm.Why)
	for _, must := range []string{"engine off", "key out", "every part has stopped", "operator's manual"} {
		require.Contains(t, st.Alarm.Caution, must)
	}
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
	require.Contains(t, st.Notice, "Fan speed 910 rpm → 1456 rpm")
	require.Contains(t, st.Notice, "shoe ")
	send(t, s, Command{Do: "step", Value: 10 * sim.TickHz})
	require.Equal(t, st.NoticeID, s.State().NoticeID)
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

func TestEverySituationAndCropCanBeChosen(t *testing.T) {
	for _, scene := range situations() {
		s := NewSession()
		r := send(t, s, Command{Do: "situation", Name: scene.Name})
		require.Empty(t, r.Error, scene.Name)
		require.Equal(t, scene.Crop, r.Setup.Crop)
		require.Contains(t, r.Setup.Caption, "Tarn Hollow, ")
		require.NotEmpty(t, r.Setup.Scene.Shows)
	}
	require.GreaterOrEqual(t, len(situations()), 8)
	for _, name := range crop.Names() {
		s := NewSession()
		r := send(t, s, Command{Do: "crop", Name: name})
		require.Empty(t, r.Error, name)
		require.Equal(t, name, r.Setup.Crop)
		require.Contains(t, r.Setup.Slice, trim(crop.Find(name).Slice)+" mm")
	}
}

// Each setting stands under a part of the machine and leads to a view of it.
func TestSettingsStandUnderParts(t *testing.T) {
	for _, name := range crop.Names() {
		c := crop.Find(name)
		set, err := setup.Default(name)
		require.NoError(t, err)
		list := controls(&set)
		require.Len(t, list, len(setup.Fields))
		place := -10.0
		for _, k := range list {
			if k.Condition {
				require.Empty(t, k.Part)
				continue
			}
			_, ok := render.FindZone(k.Zone)
			require.True(t, ok && k.Zone != "", k.Name)
			if !k.Has {
				continue
			}
			p := render.FindPart(k.Part)
			require.NotNil(t, p, "%s in %s", k.Name, name)
			require.True(t, p.On(c))
			for _, b := range k.Usual {
				require.True(t, k.From <= b.From && b.From < b.To && b.To <= k.To, k.Name)
				require.NotEmpty(t, k.Range)
			}
			if k.Stand == "settings" && !strings.HasPrefix(k.Name, "cutting") {
				require.GreaterOrEqual(t, p.Anchor.X, place-0.5, "%s stands before what the crop meets first", k.Name)
				place = p.Anchor.X
			}
		}
	}
}

// The legend tells the kinds of a crop apart by shape, not by colour alone.
func TestLegendTellsKindsApart(t *testing.T) {
	for _, name := range crop.Names() {
		c := crop.Find(name)
		list := legend(c)
		require.Len(t, list, int(flow.Kinds))
		shapes := map[string]string{}
		for _, k := range list {
			require.NotEmpty(t, k.Stroke, "%s %s", name, k.ID)
			require.Positive(t, k.Size)
			text := fmt.Sprint(k.Stroke)
			require.Empty(t, shapes[text], "%s: %s looks like it", name, k.ID)
			shapes[text] = k.ID
		}
		if n := c.Chaff.Pieces; n > 1 {
			require.Contains(t, list[flow.Chaff].Dot, fmt.Sprint(n))
		}
	}
}

func TestNumbersReadAsPeopleWriteThem(t *testing.T) {
	v := func(f float64) *float64 { return &f }
	require.Equal(t, "1,234,567", number(1234567, 0))
	require.Equal(t, "−1,234.5", number(-1234.5, 1))
	require.Equal(t, "0.00", number(-0.001, 2))
	require.Equal(t, none, share(nil))
	require.Equal(t, "9.99", share(v(9.99)))
	require.Equal(t, "10.0", share(v(9.996)))
	require.Equal(t, "59.9 s", clock(59.96))
	require.Equal(t, "1 min 0.0 s", clock(60))
	require.Equal(t, "2 min 5.5 s", clock(125.5))
}

func TestStepCostsNoAllocation(t *testing.T) {
	s := NewSession()
	send(t, s, Command{Do: "step", Value: 20 * sim.TickHz})
	s.running = true
	allocs := testing.AllocsPerRun(50, func() { s.Update(never) })
	require.LessOrEqual(t, allocs, 1.0, fmt.Sprint("an update allocates"))
}
