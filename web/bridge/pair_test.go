package bridge

import (
	"encoding/json"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"riddle/sim"
	"riddle/web/reading"
	"riddle/web/runner"
)

// to carries out a command to both machines of a pair, or to the second.
func to(t *testing.T, do func(string) string, c Command) Reply {
	t.Helper()
	text, err := json.Marshal(c)
	require.NoError(t, err)
	var r Reply
	require.NoError(t, json.Unmarshal([]byte(do(string(text))), &r))
	return r
}

func pairOf(t *testing.T) *Pair {
	t.Helper()
	s := NewSession()
	send(t, s, Command{Do: "step", Value: 77})
	p, err := NewPair(s, nil)
	require.NoError(t, err)
	return p
}

// Two machines set alike are the same machine, bit for bit, and each is the
// machine that it would be alone.
func TestPairIsLockedInStep(t *testing.T) {
	p := pairOf(t)
	require.Zero(t, p.First.run.Machine.Seconds(), "both begin at the edge of the field")
	for p.First.run.Warming() {
		p.Update(never)
	}
	require.EqualValues(t, runner.WarmTicks, p.Second.Snapshot().Tick)
	require.Equal(t, p.First.run.Machine.Digest(), p.Second.run.Machine.Digest())

	require.Empty(t, to(t, p.DoSecond, Command{Do: "set", Name: "fan-speed", Text: "1300"}).Error)
	to(t, p.Do, Command{Do: "start"})
	for i := range 300 {
		calls := 0
		p.Update(func() bool { calls++; return i%3 == 0 && calls > 1 }) // short of time now and then
		require.Equal(t, p.First.Snapshot().Tick, p.Second.Snapshot().Tick)
	}
	alone, err := sim.New(p.First.run.Start)
	require.NoError(t, err)
	for alone.Seconds() < p.First.run.Machine.Seconds() {
		alone.Step()
	}
	require.Equal(t, alone.Digest(), p.First.run.Machine.Digest(), "the second machine does not touch the first")
	require.NotEqual(t, alone.Digest(), p.Second.run.Machine.Digest())
}

func TestPairSharesAllButSettings(t *testing.T) {
	p := pairOf(t)
	require.Empty(t, to(t, p.DoSecond, Command{Do: "set", Name: "fan-speed", Text: "700"}).Error)
	require.Empty(t, to(t, p.Do, Command{Do: "set", Name: "grain-moisture", Text: "19"}).Error)
	require.Equal(t, 19.0, p.Second.run.Machine.Setup().Conditions.GrainMoisture)
	require.Equal(t, 700.0, p.Second.run.Machine.Setup().Settings.Fan)
	require.Empty(t, to(t, p.Do, Command{Do: "set", Name: "fan-speed", Text: "800"}).Error)
	require.Equal(t, 700.0, p.Second.run.Machine.Setup().Settings.Fan, "a setting of the first is its own")

	require.Empty(t, to(t, p.Do, Command{Do: "seed", Text: "9"}).Error)
	require.EqualValues(t, 9, p.Second.run.Machine.Setup().Seed)
	require.Equal(t, 700.0, p.Second.run.Machine.Setup().Settings.Fan)
	require.Empty(t, to(t, p.Do, Command{Do: "step", Value: 50}).Error)
	require.Equal(t, p.First.Snapshot().Tick, p.Second.Snapshot().Tick)
	require.Empty(t, to(t, p.Do, Command{Do: "reset"}).Error)
	require.Zero(t, p.Second.Snapshot().Tick)
	require.Empty(t, to(t, p.Do, Command{Do: "crop", Name: "corn"}).Error)
	require.Equal(t, p.First.run.Machine.Setup(), p.Second.run.Machine.Setup(), "in another crop both start alike")
	require.Empty(t, to(t, p.Do, Command{Do: "units", Name: "us"}).Error)
	require.Equal(t, p.First.system, p.Second.system)

	for _, c := range []Command{{Do: "set", Name: "yield", Text: "3"}, {Do: "crop", Name: "wheat"}, {Do: "seed", Text: "3"}, {Do: "start"}} {
		require.NotEmpty(t, to(t, p.DoSecond, c).Error, "%v", c)
	}
	require.NotEmpty(t, to(t, p.Do, Command{Do: "step", Value: -3}).Error)
}

func TestPairSwapsAndCopies(t *testing.T) {
	p := pairOf(t)
	to(t, p.DoSecond, Command{Do: "set", Name: "fan-speed", Text: "700"})
	to(t, p.Do, Command{Do: "step", Value: 200})
	a, b := p.First.run.Machine.Digest(), p.Second.run.Machine.Digest()
	p.Swap()
	require.Equal(t, b, p.First.run.Machine.Digest(), "the machine moves with all that is in it")
	require.Equal(t, a, p.Second.run.Machine.Digest())
	require.Equal(t, 700.0, p.First.run.Machine.Setup().Settings.Fan)
	to(t, p.Do, Command{Do: "step", Value: 1})
	require.EqualValues(t, 201, p.Second.Snapshot().Tick, "a swap is no new beginning")
	require.NoError(t, p.Copy(false))
	require.Equal(t, p.First.run.Machine.Setup(), p.Second.run.Machine.Setup())
}

// Each difference is the second less the first, and is called sure only beyond
// three standard errors.
func TestPairComparesEveryReading(t *testing.T) {
	p := pairOf(t)
	to(t, p.DoSecond, Command{Do: "set", Name: "fan-speed", Text: "1400"})
	to(t, p.Do, Command{Do: "step", Value: 40 * sim.TickHz})
	c := p.Compare()
	require.Len(t, c.Rows, len(reading.Columns))
	rows := map[string]reading.Comparison{}
	for _, r := range c.Rows {
		rows[r.Key] = r
		if r.More.V != nil {
			require.InDelta(t, *r.Second.V-*r.First.V, *r.More.V, 1e-12, r.Key)
		}
		if r.Sure != nil && *r.Sure {
			require.Greater(t, math.Abs(*r.More.V), 3*math.Hypot(*r.First.SE, *r.Second.SE))
		}
	}
	w := p.Second.read().Window(reading.LongWindow)
	require.InDelta(t, *w.Report.Loss.Shoe, *rows["loss.shoe"].Second.V, 1e-12)
	require.True(t, *rows["loss.blown"].Sure, "a fan at 1400 rpm blows wheat over")
	require.Positive(t, *rows["loss.blown"].More.V)
}

// A link holds both, and brings both back.
func TestPairIsKeptInALink(t *testing.T) {
	p := pairOf(t)
	to(t, p.DoSecond, Command{Do: "set", Name: "fan-speed", Text: "700"})
	k := p.kept()
	s := NewSession()
	require.Empty(t, send(t, s, Command{Do: "open.link", Text: k.Link()}).Error)
	require.NotNil(t, s.brought)
	again, err := NewPair(s, s.brought)
	require.NoError(t, err)
	require.Equal(t, p.First.run.Machine.Setup(), again.First.run.Machine.Setup())
	require.Equal(t, p.Second.run.Machine.Setup(), again.Second.run.Machine.Setup())
}

// Where one machine plugs, the other goes on.
func TestPlugOfOneLeavesTheOther(t *testing.T) {
	s := NewSession()
	require.Empty(t, send(t, s, Command{Do: "situation", Name: "wheat-overload"}).Error)
	p, err := NewPair(s, nil)
	require.NoError(t, err)
	require.Empty(t, to(t, p.DoSecond, Command{Do: "set", Name: "ground-speed", Text: "2"}).Error)
	to(t, p.Do, Command{Do: "step", Value: 60 * sim.TickHz})
	c := p.Compare()
	require.Equal(t, "plugged", c.State[0])
	require.NotNil(t, c.Alarm[0])
	require.Nil(t, c.Alarm[1])
	require.EqualValues(t, 60*sim.TickHz, p.Second.Snapshot().Tick)
}
