package bridge

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"riddle/sim"
	"riddle/sim/read/story"
	"riddle/sim/stage/flow"
	keep "riddle/web/share"
)

// act carries out commands that must be taken.
func act(t *testing.T, s *Session, list ...Command) {
	t.Helper()
	for _, c := range list {
		require.Empty(t, send(t, s, c).Error, "%v", c)
	}
}

func set(name, text string) Command { return Command{Do: "set", Name: name, Text: text} }
func step(ticks float64) Command    { return Command{Do: "step", Value: ticks} }

// shown is all that the page shows of a machine, save what it has told.
func shown(s *Session) string {
	st := s.State()
	st.Notice, st.NoticeID, st.Logged, st.Revision = nil, 0, 0, 0
	setup := s.Setup()
	setup.Revision = 0
	return encode(st) + encode(setup) + encode(s.Chart(0)) + s.CSV()
}

// replays holds that the file of a session's run makes the same machine again,
// and reads as the page does.
func replays(t *testing.T, s *Session) {
	t.Helper()
	text, err := s.keptRun()
	require.NoError(t, err)
	r, err := keep.Replay(text, nil)
	require.NoError(t, err)
	require.Equal(t, keep.Same, r.Verdict, r.Reason)
	require.Equal(t, s.machine.Digest(), r.Claimed)
	want := s.window(longWindow).report
	want.TickHz, want.Peak, want.Digest, want.Money = r.Report.TickHz, r.Report.Peak, r.Report.Digest, r.Report.Money // not read on the page; its own prices
	require.Equal(t, encode(want), encode(r.Report))
}

// Back 10 s, everything is as it was then: the machine bit for bit, every
// reading, the chart, the log, the file of readings. From there the same goes on
// to the same, and something else to something else.
func TestBackIsAsItWas(t *testing.T) {
	begin := func() *Session {
		s := NewSession()
		act(t, s, Command{Do: "situation", Name: "soybeans-rolling-ground"}, step(20*sim.TickHz), set("fan-speed", "1200"), step(25.7*sim.TickHz),
			set("upper-sieve", "12"), step(60), set("side-slope", "2"))
		return s
	}
	later := []Command{step(1.3 * sim.TickHz), set("upper-sieve", "9"), set("upper-sieve", "10"), step(8.7 * sim.TickHz)}
	then, s := begin(), begin()
	act(t, s, later...)
	plain := s.machine.Digest()
	act(t, s, Command{Do: "undo", Value: 2}, Command{Do: "ride", Name: "next"})
	require.NotEqual(t, shown(then), shown(s))

	act(t, s, Command{Do: "back"})
	require.Equal(t, then.machine.Tick(), s.machine.Tick(), "to the tick")
	require.Len(t, s.run.Commands(), 2, "what was done at that very moment is open again")
	act(t, s, set("side-slope", "2"))
	require.Equal(t, then.machine.Digest(), s.machine.Digest())
	was, is := shown(then), shown(s)
	for i := range was {
		if i >= len(is) || was[i] != is[i] {
			t.Fatalf("shown otherwise: %s\n%s", was[max(0, i-100):i+100], is[max(0, i-100):min(len(is), i+100)])
		}
	}
	require.Len(t, s.Changes(), 3)
	require.NotNil(t, s.Changes()[0].After, "the fan had settled")
	require.False(t, s.Changes()[2].Cut)

	replays(t, s)
	act(t, s, later...)
	require.Equal(t, plain, s.machine.Digest())
	replays(t, s)
	act(t, s, Command{Do: "back"}, set("side-slope", "-2"))
	act(t, s, later...)
	require.NotEqual(t, plain, s.machine.Digest())
	replays(t, s)
}

// At the edge of the field there is nothing before, a machine that is being
// filled is not held up, and one that has plugged runs again.
func TestBackAtTheEnds(t *testing.T) {
	s := NewSession()
	act(t, s, Command{Do: "back"})
	require.Zero(t, s.machine.Tick())
	act(t, s, step(4*sim.TickHz), Command{Do: "back"})
	require.Zero(t, s.machine.Tick())
	act(t, s, Command{Do: "warm"})
	calls := 0
	s.Update(func() bool { calls++; return calls > 50 })
	require.True(t, s.Warming())
	tick := s.machine.Tick()
	act(t, s, Command{Do: "back"})
	require.Equal(t, tick, s.machine.Tick())

	act(t, s, Command{Do: "situation", Name: "wheat-overload"}, step(60*sim.TickHz))
	require.True(t, s.plugged())
	at := s.machine.Tick()
	act(t, s, Command{Do: "back"})
	require.Equal(t, max(0, at-10*sim.TickHz), s.machine.Tick())
	require.False(t, s.plugged())
	require.Nil(t, s.State().Alarm)
	act(t, s, set("ground-speed", "2"), step(20*sim.TickHz))
	require.False(t, s.plugged(), "this time it was seen in time")
	replays(t, s)
}

// More than ten minutes on, marks that were written over do not come back. The
// tank holds eleven minutes of canola.
func TestBackFindsNoLostMarks(t *testing.T) {
	if testing.Short() {
		t.Skip("runs eleven minutes")
	}
	s := NewSession()
	act(t, s, Command{Do: "crop", Name: "canola"}, step(600*sim.TickHz), step(60*sim.TickHz), Command{Do: "back"})
	first := s.log.oldest()
	for i := first; i < s.log.kept; i++ {
		require.Equal(t, float64(i), s.log.at(i).Seconds)
	}
	require.Equal(t, 650, s.log.kept-1)
}

// What is told after going back happened: no kernel is born anew, and what
// passes is counted from there on.
func TestStoriesAfterGoingBack(t *testing.T) {
	s := NewSession()
	act(t, s, step(40*sim.TickHz), Command{Do: "back"})
	before := map[uint32]bool{}
	for p := range s.snap.Dots {
		for _, d := range s.snap.Dots[p] {
			before[d.ID] = d.Grain > 0
		}
	}
	act(t, s, step(2*sim.TickHz))
	known := 0
	for _, d := range s.snap.Dots[sim.Upper] {
		if d.Grain == 0 || !before[d.ID] {
			continue
		}
		told := s.story.Tell(d.ID)
		require.False(t, told.Whole, "its beginning is not in the record")
		for _, e := range told.Events {
			require.NotEqual(t, story.Born, e.What)
			require.NotEqual(t, story.Seen, e.What)
			known++
		}
	}
	require.Greater(t, known, 100)
	lost := s.machine.Tally().Lost[flow.Walker]
	require.Positive(t, lost)
	act(t, s, step(20*sim.TickHz), Command{Do: "ride", Name: story.InTank.String()})
	require.NotEmpty(t, s.ride.told.Sentences)
}

// Forked, the two stand at the same moment with the same readings; what is then
// done to one is in its journal alone.
func TestForkAtTheSameMoment(t *testing.T) {
	s := NewSession()
	act(t, s, Command{Do: "situation", Name: "wheat-green-patch"}, step(30*sim.TickHz), set("fan-speed", "1000"), step(3*sim.TickHz))
	before := shown(s)
	p := Fork(s)
	require.Equal(t, before, shown(p.First))
	require.Equal(t, before, shown(p.Second))
	require.Empty(t, to(t, p.Do, step(200)).Error)
	require.Equal(t, p.First.machine.Digest(), p.Second.machine.Digest())
	require.Empty(t, to(t, p.DoSecond, set("fan-speed", "1500")).Error)
	require.Empty(t, to(t, p.Do, step(5*sim.TickHz)).Error)
	require.NotEqual(t, p.First.machine.Digest(), p.Second.machine.Digest())
	require.Len(t, p.First.run.Commands(), 1)
	require.Len(t, p.Second.run.Commands(), 2)
	replays(t, p.First)
	replays(t, p.Second)

	require.Empty(t, to(t, p.Do, Command{Do: "back"}).Error)
	require.EqualValues(t, 33*sim.TickHz, p.First.machine.Tick(), "no farther than to where the second began")
	require.Equal(t, p.First.machine.Digest(), p.Second.machine.Digest())
	require.Empty(t, to(t, p.Do, Command{Do: "reset"}).Error)
	require.Equal(t, p.First.machine.Digest(), p.Second.machine.Digest(), "at the edge of the field alike")
}

// A pair that began at the edge of the field replays too, with what both share.
func TestThePairReplays(t *testing.T) {
	p := pairOf(t)
	for _, c := range []Command{set("fan-speed", "800"), step(400), set("grain-moisture", "18"), step(1000)} {
		require.Empty(t, to(t, p.Do, c).Error)
	}
	require.Empty(t, to(t, p.DoSecond, set("fan-speed", "1300")).Error)
	require.Empty(t, to(t, p.Do, step(300)).Error)
	replays(t, p.First)
	replays(t, p.Second)
	p.Swap()
	require.NoError(t, p.Copy(true))
	require.Empty(t, to(t, p.Do, step(3)).Error)
	replays(t, p.First)
	require.Empty(t, to(t, p.Do, Command{Do: "restore"}).Error)
	replays(t, p.First)
	replays(t, p.Second)
}

// Restoring along a field gives its conditions back to it; the run says so.
func TestRestoreReplays(t *testing.T) {
	s := NewSession()
	act(t, s, Command{Do: "situation", Name: "wheat-evening-dew"}, set("straw-moisture", "30"), step(100), Command{Do: "reset"}, step(900),
		Command{Do: "restore"}, step(900), Command{Do: "seed", Text: "12"}, step(77))
	replays(t, s)
	k := s.kept()
	act(t, s, Command{Do: "open.link", Text: k.Link()}, step(200), Command{Do: "restore"}, step(30))
	replays(t, s)
}

// The file of a run, kept by the command or saved from a page, opens on the
// page: the machine goes the same way, with the same log, and goes on from its
// end; whether it comes to the end that is claimed is said.
func TestTheFileOfARunOpens(t *testing.T) {
	s := NewSession()
	act(t, s, Command{Do: "situation", Name: "soybeans-rolling-ground"}, step(13*sim.TickHz), set("fan-speed", "800"), set("fan-speed", "700"), step(5*sim.TickHz),
		Command{Do: "restore"}, step(4*sim.TickHz), set("yield", "2"))
	text, err := s.keptRun()
	require.NoError(t, err)
	other := NewSession()
	act(t, other, Command{Do: "crop", Name: "corn"}, Command{Do: "start"}, Command{Do: "open.file", Text: "\ufeff" + string(text)})
	require.True(t, other.Warming())
	for other.Warming() {
		other.Update(func() bool { return false })
	}
	require.Equal(t, s.machine.Digest(), other.machine.Digest())
	require.Equal(t, "keep.run.same", other.State().Notice.Key)
	require.False(t, other.running, "it stands where the run ended")
	require.Equal(t, encode(s.Changes()), encode(other.Changes()))
	require.Equal(t, shown(s), shown(other))
	require.Equal(t, s.run.Journal().Commands, other.run.Journal().Commands)
	again, err := other.keptRun()
	require.NoError(t, err)
	require.Equal(t, string(text), string(again))
	for _, x := range []*Session{s, other} {
		act(t, x, Command{Do: "back"}, step(100))
	}
	require.Equal(t, s.machine.Digest(), other.machine.Digest())
	require.Equal(t, encode(s.Changes()), encode(other.Changes()))

	k, err := keep.ReadRun(text)
	require.NoError(t, err)
	k.Digest = k.Digest[1:] + "0"
	forged, err := k.File()
	require.NoError(t, err)
	act(t, other, Command{Do: "open.file", Text: string(forged)})
	for other.Warming() {
		other.Update(never)
	}
	require.Equal(t, "keep.run.altered", other.State().Notice.Key)
	digest := other.machine.Digest()
	for code, bad := range map[string]string{"broken": string(text[:900]), "newer": strings.Replace(string(text), keep.RunForm, "riddle.journal/9", 1)} {
		require.Equal(t, "keep.fault."+code, send(t, other, Command{Do: "open.file", Text: bad}).Say.Key)
		require.Equal(t, digest, other.machine.Digest())
	}
}
