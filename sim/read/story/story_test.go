package story

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"riddle/sim"
	"riddle/sim/setup"
	"riddle/sim/stage/flow"
)

// sight is what a witness saw of a dot at one tick.
type sight struct {
	tick int64
	at   sim.Place
	dot  flow.Dot
}

// witness writes down every dot with grain at every tick at which anything of
// it but its place in metres is another: slow, plain, and apart from the
// recorder.
type witness [][]sight // by number

func (w witness) look(s *sim.Snapshot) {
	for p := range s.Dots {
		for _, d := range s.Dots[p] {
			if d.Grain == 0 || sim.Place(p) == sim.Standing {
				continue
			}
			seen := w[d.ID]
			if n := len(seen); n > 0 {
				l := seen[n-1]
				if l.at == sim.Place(p) && l.dot.Ride == d.Ride && l.dot.Kind == d.Kind && l.dot.Grain == d.Grain && l.dot.Cause == d.Cause && l.dot.Strikes == d.Strikes {
					continue
				}
			}
			w[d.ID] = append(seen, sight{s.Tick, sim.Place(p), d})
		}
	}
}

// watched runs a machine under the eyes of a recorder and a witness.
func watched(t *testing.T, seconds int, alter func(*setup.Setup)) (*sim.Machine, *Recorder, witness) {
	t.Helper()
	s, err := setup.Default("wheat")
	require.NoError(t, err)
	alter(&s)
	m, err := sim.New(s)
	require.NoError(t, err)
	r, w := NewRecorder(), make(witness, 1<<18)
	var snap sim.Snapshot
	for range seconds * sim.TickHz {
		m.Step()
		r.Keep(m)
		m.Glance(&snap)
		w.look(&snap)
	}
	return m, r, w
}

// Each fate has a story, and each sentence of it tells events that a witness
// saw as well.
func TestEveryFateHasATrueStory(t *testing.T) {
	_, r, w := watched(t, 27, func(s *setup.Setup) {
		s.Settings.Fan *= 1.08
		s.Settings.Clearance *= 1.2
		s.Conditions.GrainMoisture += 4
	})
	for f := range Fates {
		t.Run(f.String(), func(t *testing.T) {
			for range 4 {
				id, ok := r.Ask(f)
				require.True(t, ok, "none of %d", r.Count(f))
				s := r.Tell(id)
				require.True(t, s.Whole)
				require.True(t, s.Done)
				checkSentences(t, &s)
				checkEvents(t, &s, w)
				checkFate(t, f, &s, w[id])
				checkNumbers(t, &s, w)
			}
		})
	}
}

// checkSentences: the sentences go through the events in their order, each
// tells one at least, and no event of a place goes untold.
func checkSentences(t *testing.T, s *Story) {
	t.Helper()
	require.NotEmpty(t, s.Sentences)
	for _, x := range s.Sentences {
		text := x.English()
		require.NotEmpty(t, text, x.Key)
		require.NotContains(t, text, "{", "every slot is filled")
	}
	told := make([]bool, len(s.Events))
	last := 0
	for _, x := range s.Sentences {
		require.Less(t, x.From, x.To, x.English())
		require.LessOrEqual(t, x.To, len(s.Events), x.English())
		require.GreaterOrEqual(t, x.To, last, x.English())
		last = x.To
		for i := x.From; i < x.To; i++ {
			told[i] = true
		}
	}
	for i, ok := range told {
		switch e := &s.Events[i]; {
		case e.What == Opened: // others that came out of the same piece
		case e.What == Seen && e.Place == sim.Behind, e.What == Born && e.Place == sim.Behind: // told as the loss
		case e.What == Came && passedOver[e.Place]:
		default:
			assert.True(t, ok, "%v at %v is told by no sentence", e.What, e.Place)
		}
	}
	assert.Len(t, s.Sentences, len(distinct(s.Sentences)), "no sentence stands twice")
}

// passedOver are places that the next sentence implies.
var passedOver = map[sim.Place]bool{sim.Feeding: true, sim.Cutting: true, sim.Conveyor: true, sim.UnderWalker: true, sim.Between: true,
	sim.Dropping: true, sim.Collecting: true, sim.Behind: true}

func distinct(all []Sentence) map[string]bool {
	m := map[string]bool{}
	for _, s := range all {
		m[s.English()+fmt.Sprint(s.Tick)] = true
	}
	return m
}

// checkEvents: the witness saw each dot at the place of each of its events, at
// that tick or within the ticks between two looks.
func checkEvents(t *testing.T, s *Story, w witness) {
	t.Helper()
	last := int64(0)
	for _, e := range s.Events {
		require.GreaterOrEqual(t, e.Tick, last)
		last = e.Tick
		if e.What == Opened {
			continue
		}
		found := false
		for _, x := range w[e.ID] {
			found = found || x.at == e.Place && x.tick <= e.Tick && x.tick > e.Tick-2*seldomTicks
		}
		assert.True(t, found, "%v of %d at %v, tick %d, was seen by nobody: %v", e.What, e.ID, e.Place, e.Tick, w[e.ID])
	}
}

// checkFate: what the witness saw last of the dot is what the fate says.
func checkFate(t *testing.T, f Fate, s *Story, seen []sight) {
	t.Helper()
	end := seen[len(seen)-1]
	causes := map[Fate]flow.Cause{AtHeader: flow.Header, InPiece: flow.Unthreshed, OverWalkers: flow.Walker, BlownOver: flow.Blown, RiddenOver: flow.Ridden}
	text := s.Sentences[len(s.Sentences)-1].English()
	if cause, lost := causes[f]; lost {
		assert.Equal(t, cause, end.dot.Cause)
		assert.Contains(t, text, map[flow.Cause]string{flow.Header: "header loss", flow.Unthreshed: "unthreshed", flow.Walker: "walkers", flow.Blown: "blown", flow.Ridden: "ridden"}[cause])
		return
	}
	assert.Equal(t, sim.Filling, end.at)
	assert.Contains(t, text, "into the tank")
	assert.Equal(t, f == PieceInTank, end.dot.Kind == flow.Piece)
	assert.Equal(t, f == WentRound, end.dot.Rounds > 0 && end.dot.Kind != flow.Piece)
	if f == BrokenInTank || f == InTank {
		assert.Equal(t, f == BrokenInTank, end.dot.Kind == flow.Broken)
	}
}

// checkNumbers: strikes, openings and turns are as many as the witness counts.
func checkNumbers(t *testing.T, s *Story, w witness) {
	t.Helper()
	id := s.Events[len(s.Events)-1].ID
	met := map[sim.Place]int{}
	for i, x := range w[id] {
		if i > 0 && x.at == w[id][i-1].at && x.dot.Ride == flow.Airborne && w[id][i-1].dot.Ride == flow.OnSieve {
			met[x.at]++
		}
	}
	thrown, rounds := map[sim.Place]int{}, 0
	for _, e := range s.Events {
		if e.ID != id {
			continue
		}
		switch {
		case e.What == Thrown:
			thrown[e.Place]++
		case e.What == Came && e.Place == sim.Returning:
			rounds++
		case e.What == Born:
			assert.EqualValues(t, w[id][0].dot.Strikes, e.N)
		}
	}
	for _, p := range []sim.Place{sim.Upper, sim.Lower} {
		assert.Equal(t, met[p], thrown[p], "%v", p)
	}
	assert.EqualValues(t, w[id][len(w[id])-1].dot.Rounds-w[id][0].dot.Rounds, rounds)
}

// The kernel's number, the piece that it came out of and the piece's grain
// agree: a piece has lost what its kernels hold.
func TestAKernelComesOutOfThePieceThatLostIt(t *testing.T) {
	_, _, w := watched(t, 12, func(*setup.Setup) {})
	children := map[uint32]int{}
	for _, seen := range w {
		if len(seen) == 0 {
			continue
		}
		if d := seen[0].dot; d.From != 0 && d.Cause == flow.NotLost {
			from := d.From
			if up := w[from][0].dot; up.Kind != flow.Piece { // a part of a kernel of the piece
				from = up.From
			}
			children[from] += int(d.Grain)
		}
	}
	checked := 0
	for id, seen := range w {
		if len(seen) == 0 {
			continue
		}
		first, last := seen[0], seen[len(seen)-1]
		if first.dot.Kind != flow.Piece || last.at <= sim.Gap || first.at != sim.Cutting {
			continue
		}
		checked++
		assert.EqualValues(t, first.dot.Grain-last.dot.Grain, children[uint32(id)], "piece %d", id)
	}
	require.Greater(t, checked, 20)
}

func TestRecordingChangesNothingAndTakesNoRoom(t *testing.T) {
	m, r, _ := watched(t, 14, func(*setup.Setup) {})
	s, err := setup.Default("wheat")
	require.NoError(t, err)
	alone, err := sim.New(s)
	require.NoError(t, err)
	for range 14 * sim.TickHz {
		alone.Step()
	}
	assert.Equal(t, alone.Digest(), m.Digest())
	r.Watch(5)
	assert.Zero(t, testing.AllocsPerRun(50, func() { r.Keep(m) }))
}
