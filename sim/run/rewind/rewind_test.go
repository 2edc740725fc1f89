package rewind

import (
	"math/rand/v2"
	"runtime"
	"testing"
	"unsafe"

	"github.com/stretchr/testify/require"

	"riddle/sim"
	"riddle/sim/run/course"
	"riddle/sim/run/journal"
	"riddle/sim/setup"
	"riddle/sim/stage/flow"
)

func begin(t testing.TB, name string) *journal.Run {
	t.Helper()
	s, err := setup.Default(name)
	require.NoError(t, err)
	field := &course.Course{Round: 12, Stretches: []course.Stretch{{
		Name: "patch", From: 2, To: 7, Edge: 1, Values: []course.Value{{Field: setup.Find("green-weeds"), To: 15}, {Field: setup.Find("side-slope"), To: 5}},
	}}}
	r, err := journal.Start{From: s, Setup: s, Course: field}.Begin()
	require.NoError(t, err)
	return r
}

// act does something to a run, drawn at random: also a release.
func act(draw *rand.Rand, r *journal.Run) {
	if draw.IntN(5) == 0 {
		if err := r.Release(); err != nil {
			panic(err)
		}
		return
	}
	f := &setup.Fields[draw.IntN(len(setup.Fields))]
	if f.On(r.Machine.Crop()) {
		if err := r.Set(f, f.From+(f.To-f.From)*draw.Float64()*0.3); err != nil && !f.Switch() {
			panic(err)
		}
	}
}

// Wherever a run goes back to, it is what it was there, with its journal; and it
// goes on as if nothing had come between.
func TestBackAndForth(t *testing.T) {
	draw := rand.New(rand.NewPCG(3, 9))
	r, ring := begin(t, "wheat"), &Ring[int64]{}
	step := func() {
		r.Step()
		tick := r.Machine.Tick()
		ring.Keep(r, &tick)
	}
	zero := int64(0)
	ring.Keep(r, &zero)
	digests, lengths := map[int64]string{0: r.Machine.Digest()}, map[int64]int{}
	at := func() { digests[r.Machine.Tick()], lengths[r.Machine.Tick()] = r.Machine.Digest(), len(r.Commands()) }
	for range 6 * sim.TickHz {
		step()
		if tick := r.Machine.Tick(); tick%60 == 7 || tick%Every == 0 {
			at()
		}
		if draw.IntN(50) == 0 || r.Machine.Tick()%(2*Every) == 0 { // also where a moment is kept
			act(draw, r)
		}
	}
	whole := r.Journal()
	for _, to := range []int64{607, 480, 367, 240, 67, 0} {
		with := ring.Back(r, to)
		require.NotNil(t, with)
		require.Equal(t, r.Machine.Tick(), *with)
		require.Less(t, to-*with, int64(Every))
		for r.Machine.Tick() < to {
			step()
		}
		require.Equal(t, digests[to], r.Machine.Digest(), to)
		require.Equal(t, lengths[to], len(r.Commands()), "the journal goes back as well")
		require.Equal(t, whole.Commands[:lengths[to]], r.Journal().Commands)
	}
	again, err := whole.Play()
	require.NoError(t, err)
	for again.Machine.Tick() < 6*sim.TickHz {
		again.Step()
	}
	again.Due()
	for _, c := range whole.Commands { // once more by hand, from where it went back to
		for r.Machine.Tick() < c.Tick {
			step()
		}
		if c.Field == nil {
			require.NoError(t, r.Release())
		} else {
			require.NoError(t, r.Set(c.Field, c.Value))
		}
	}
	for r.Machine.Tick() < 6*sim.TickHz {
		step()
	}
	require.Equal(t, again.Machine.Digest(), r.Machine.Digest())
	require.Equal(t, whole, r.Journal())
}

// Another future than the one that was is another run, and one that is cloned
// at a moment is the same until something else is done to it.
func TestForkAtAMoment(t *testing.T) {
	r := begin(t, "corn")
	draw := rand.New(rand.NewPCG(1, 1))
	for i := range 500 {
		if i%90 == 30 {
			act(draw, r)
		}
		r.Step()
	}
	other := r.Clone()
	for range 100 {
		r.Step()
		other.Step()
	}
	require.Equal(t, r.Machine.Digest(), other.Machine.Digest())
	require.Equal(t, r.Journal(), other.Journal())
	require.NoError(t, r.Release())
	n := len(r.Commands())
	other = r.Clone()
	require.NoError(t, other.Set(setup.Find("fan-speed"), 1500))
	require.NoError(t, other.Set(setup.Find("side-slope"), -3))
	require.True(t, r.Progress.Moves("side-slope"), "what one takes in hand the other does not")
	for range 240 {
		r.Step()
		other.Step()
	}
	require.NotEqual(t, r.Machine.Digest(), other.Machine.Digest())
	require.Len(t, r.Commands(), n)
	again, err := other.Journal().Play()
	require.NoError(t, err)
	for again.Machine.Tick() < other.Machine.Tick() {
		again.Step()
	}
	require.Equal(t, other.Machine.Digest(), again.Machine.Digest())
}

// Only so far, and not into a future that was left.
func TestHowFarBack(t *testing.T) {
	r, ring := begin(t, "wheat"), &Ring[struct{}]{}
	keep := func() { ring.Keep(r, &struct{}{}) }
	require.Nil(t, ring.Back(r, 0))
	keep()
	for range Reach + 3*Every + 17 {
		r.Step()
		keep()
		require.LessOrEqual(t, ring.Oldest(), max(0, r.Machine.Tick()-Reach))
	}
	now := r.Machine.Tick()
	require.LessOrEqual(t, int64(10*sim.TickHz), int64(Reach))
	require.Nil(t, ring.Back(r, ring.Oldest()-1))
	require.Nil(t, ring.Back(r, now+1))
	require.Equal(t, now, r.Machine.Tick(), "it stays where it cannot go")
	require.NotNil(t, ring.Back(r, now-3*Every))
	require.Nil(t, ring.Back(r, now), "that future has not been")
	ring.Clear()
	require.Nil(t, ring.Back(r, r.Machine.Tick()))
}

// A moment is as small as the comment of the ring says, in the crop with most
// dots, and is kept without taking room once the machine is full.
func TestRoomOfAMoment(t *testing.T) {
	s, err := setup.Default("soybeans")
	require.NoError(t, err)
	r, err := journal.Start{From: s, Setup: s}.Begin()
	require.NoError(t, err)
	kept := &journal.Moment{}
	for range 20 * sim.TickHz {
		r.Step()
	}
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	r.Keep(kept)
	runtime.ReadMemStats(&after)
	room := after.TotalAlloc - before.TotalAlloc
	t.Logf("%d dots, %d bytes", r.Machine.Live(), room)
	require.Less(t, room, uint64(2_350_000))
	require.Greater(t, room, uint64(r.Machine.Live())*uint64(unsafe.Sizeof(flow.Dot{})), "it holds them all")
	require.Zero(t, testing.AllocsPerRun(50, func() {
		for range 12 {
			r.Step()
		}
		r.Keep(kept)
	}))
}
