package bridge

import (
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/require"

	"riddle/sim"
	"riddle/web/runner"
)

// carried takes a session's standing, as the page does, to a new one, and lets
// that come back.
func carried(t *testing.T, s *Session, pair *Pair) (*Session, *Pair) {
	t.Helper()
	other := NewSession()
	var st Standing
	require.NoError(t, json.Unmarshal([]byte(encode(s.standing(pair))), &st))
	p, err := other.comeBack(st)
	require.NoError(t, err)
	require.Equal(t, pair != nil, p != nil)
	require.Equal(t, "lost.coming", other.State().Notice.Key)
	return other, p
}

// arrived fills what comes back, a second time taken away half way.
func arrived(t *testing.T, s *Session, p *Pair) (*Session, *Pair) {
	t.Helper()
	update := func(n int) {
		for i := 0; i < n && (s.coming != nil || p != nil && p.Second.coming != nil); i++ {
			few := 0
			stop := func() bool { few++; return few > 200 }
			if p != nil {
				p.Update(stop)
			} else {
				s.Update(stop)
			}
		}
	}
	update(3)
	s, p = carried(t, s, p)
	update(1e6)
	require.Equal(t, "lost.back", s.State().Notice.Key)
	return s, p
}

// What is lost comes back full: the same digest and tick, with its price, units
// and log, and from there on it goes the same way.
func TestALostMachineComesBack(t *testing.T) {
	s := NewSession()
	act(t, s, Command{Do: "situation", Name: "soybeans-rolling-ground"}, Command{Do: "units", Name: "us"}, Command{Do: "price", Value: 11.37}, Command{Do: "speed", Value: 2},
		step(5*sim.TickHz), set("fan-speed", "700"), set("side-slope", "3"), step(3*sim.TickHz), Command{Do: "restore"}, step(177))
	s.run.Running = true
	other, _ := carried(t, s, nil)
	other, _ = arrived(t, other, nil)
	require.Equal(t, s.run.Machine.Tick(), other.run.Machine.Tick())
	require.Equal(t, s.run.Machine.Digest(), other.run.Machine.Digest())
	require.Equal(t, s.run.Run.Journal(), other.run.Run.Journal())
	require.Equal(t, 11.37, other.price)
	require.Equal(t, s.State().Money, other.State().Money)
	require.Equal(t, encode(s.words().changes()), encode(other.words().changes()))
	require.True(t, other.run.Running)
	require.False(t, other.run.Warming())
	a, b := s.Setup(), other.Setup()
	a.Revision, b.Revision = 0, 0
	require.Equal(t, encode(a), encode(b))
	for _, x := range []*Session{s, other} {
		x.Update(never)
		act(t, x, step(300), Command{Do: "restore"}, step(60))
	}
	require.Equal(t, s.run.Machine.Digest(), other.run.Machine.Digest())
}

// Taken away while it is being filled, it goes on being filled; a plugged one
// stands plugged; a kernel that is followed is followed.
func TestALostMachineComesBackWhereverItStood(t *testing.T) {
	s := NewSession()
	act(t, s, Command{Do: "warm"})
	few := 0
	s.Update(func() bool { few++; return few > 400 })
	other, _ := carried(t, s, nil)
	other, _ = arrived(t, other, nil)
	require.Equal(t, int64(runner.WarmTicks), other.run.Machine.Tick()+int64(other.run.Left()))
	require.True(t, other.run.Warming())

	act(t, s, Command{Do: "crop", Name: "wheat"}, set("yield", "25"), set("straw-moisture", "70"), set("ground-speed", "14"), step(30*sim.TickHz))
	require.True(t, s.run.Plugged())
	other, _ = carried(t, s, nil)
	other, _ = arrived(t, other, nil)
	require.Equal(t, s.run.Machine.Digest(), other.run.Machine.Digest())
	require.Equal(t, s.State().Alarm, other.State().Alarm)

	act(t, s, Command{Do: "crop", Name: "wheat"}, step(5*sim.TickHz), Command{Do: "ride", Name: "next"}, step(30))
	require.NotNil(t, s.State().Ride)
	other, _ = carried(t, s, nil)
	other, _ = arrived(t, other, nil)
	require.Equal(t, s.ride.Riding(), other.ride.Riding())
	require.Equal(t, s.State().Ride.Title, other.State().Ride.Title)
}

// Both machines of a pair come back, also where one of them has plugged before.
func TestALostPairComesBack(t *testing.T) {
	s := NewSession()
	act(t, s, Command{Do: "price", Value: 300}, step(200))
	p := Fork(s)
	p.DoSecond(encode(Command{Do: "set", Name: "ground-speed", Text: "14"}))
	p.Do(encode(Command{Do: "set", Name: "yield", Text: "9"}))
	p.Do(encode(Command{Do: "step", Value: 12 * sim.TickHz}))
	require.True(t, p.Second.run.Plugged())
	require.False(t, p.First.run.Plugged())
	for range 2 { // either may be the first
		other, q := carried(t, p.First, p)
		other, q = arrived(t, other, q)
		require.Equal(t, other, q.First)
		for i, x := range []*Session{p.First, p.Second} {
			y := []*Session{q.First, q.Second}[i]
			require.Equal(t, x.run.Machine.Tick(), y.run.Machine.Tick())
			require.Equal(t, x.run.Machine.Digest(), y.run.Machine.Digest())
			require.Equal(t, x.price, y.price)
			require.Equal(t, x.run.Run.Journal(), y.run.Run.Journal())
		}
		p.Swap()
	}
}

// What cannot be made again begins again as it was set, and says so.
func TestALostRunThatCannotBeKeptBeginsAgain(t *testing.T) {
	s := NewSession()
	act(t, s, Command{Do: "crop", Name: "rice"}, Command{Do: "price", Value: 321}, set("fan-speed", "777"), step(30))
	st := s.standing(nil)
	st.Runs = nil
	for name, st := range map[string]Standing{"none": st, "damaged": {Runs: []string{"{"}, Link: st.Link, Units: st.Units, Speed: st.Speed}} {
		other := NewSession()
		_, err := other.comeBack(st)
		require.NoError(t, err, name)
		require.Equal(t, s.run.Run.Again().Setup, other.run.Machine.Setup())
		require.Equal(t, s.price, other.price)
		require.True(t, other.run.Warming())
		require.Equal(t, "lost.anew", other.State().Notice.Key)
	}
	require.True(t, json.Valid([]byte(encode(st))))
}

// Restoring gives the conditions of both machines back to the field.
func TestRestoreReleasesBothMachines(t *testing.T) {
	s := NewSession()
	act(t, s, Command{Do: "situation", Name: "soybeans-rolling-ground"})
	p, err := NewPair(s, nil)
	require.NoError(t, err)
	for _, c := range []Command{step(120), set("side-slope", "3"), set("yield", "2"), step(120), {Do: "restore"}, step(12 * sim.TickHz)} {
		p.Do(encode(c))
	}
	a, b := p.First, p.Second
	require.NotEqual(t, 3.0, a.run.Machine.Setup().Conditions.SideSlope, "the field has moved it")
	require.Equal(t, a.run.Machine.Setup().Conditions, b.run.Machine.Setup().Conditions)
	require.Equal(t, a.run.Run.Journal().Commands, b.run.Run.Journal().Commands)
	require.Equal(t, a.run.Machine.Digest(), b.run.Machine.Digest())
	require.Equal(t, encode(a.words().changes()), encode(b.words().changes()))
}

// The price goes along in a link and in both files, and is kept once it is set.
func TestThePriceIsKept(t *testing.T) {
	s := NewSession()
	require.NotContains(t, keptLink(s), "price", "nobody has set one")
	r := send(t, s, Command{Do: "price", Value: 222})
	require.NotNil(t, r.Setup, "the page is told that there is something to keep")
	act(t, s, step(60))
	k := s.kept()
	run, err := s.keptRun()
	require.NoError(t, err)
	for _, c := range []Command{{Do: "open.link", Text: k.Link()}, {Do: "open.file", Text: string(k.File())}, {Do: "open.file", Text: string(run)}} {
		other := NewSession()
		act(t, other, c)
		require.Equal(t, s.price, other.price)
		require.InDelta(t, 222, other.State().Money.Price, 1e-9)
		act(t, other, Command{Do: "crop", Name: "corn"})
		require.NotContains(t, keptLink(other), "price", "another crop has its own")
	}
}

func keptLink(s *Session) string { k := s.kept(); return k.Link() }
