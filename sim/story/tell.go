package story

import (
	"riddle/sim"
	"riddle/sim/crop"
	"riddle/sim/flow"
)

// Sentence is a sentence of a story and the events that it tells: From up to,
// and not with, To.
type Sentence struct {
	Text     string
	Tick     int64 // of the last event that it tells
	From, To int
}

// Story is what happened to one dot, from the cutter bar on.
type Story struct {
	ID        uint32
	Whole     bool // its beginning is in the record
	Done      bool // it has met its fate
	Events    []Event
	Sentences []Sentence
}

// Tell returns the story of a dot. Its lengths are in metres, or in feet and
// inches for the United States.
func (r *Recorder) Tell(id uint32, us bool) Story {
	events, whole := r.lineage(id)
	s := Story{ID: id, Whole: whole, Events: events}
	if len(events) == 0 {
		return s
	}
	t := teller{crop: r.snap.Crop, all: events, us: us}
	t.tell()
	s.Sentences, s.Done = t.out, t.done
	return s
}

// lineage returns the events of a dot and, before its birth, of what it came
// out of.
func (r *Recorder) lineage(id uint32) (events []Event, whole bool) {
	const most = 4 // a part of a kernel of a piece, and one more
	for range most {
		own, known := r.history(id)
		if len(events) > 0 {
			own = before(own, events[0].Tick)
		}
		events = append(own, events...)
		if !known || len(own) == 0 {
			return events, false
		}
		if own[0].What == Seen {
			return events, own[0].Place <= sim.Feeding || own[0].Place == sim.Behind
		}
		id = r.slots[id%slotRoom].from
	}
	return events, false
}

// before returns the events up to a tick.
func before(e []Event, tick int64) []Event {
	for i := range e {
		if e[i].Tick > tick {
			return e[:i]
		}
	}
	return e
}

// teller puts events into sentences, one leg of the way after another.
type teller struct {
	crop *crop.Crop
	us   bool
	all  []Event
	i    int // the next event to be told
	out  []Sentence
	done bool
	turn int // how often it came back from the returns
}

func (t *teller) tell() {
	if e := &t.all[0]; e.What == Born || e.Place > sim.Feeding && e.Place != sim.Behind {
		t.say(0, "The record begins at "+t.at(e)+", "+where(e.Place)+".")
	}
	for t.i < len(t.all) {
		from := t.i
		t.leg(&t.all[t.i])
		if t.i == from {
			t.i++
		}
	}
	if !t.done {
		e := &t.all[len(t.all)-1]
		t.i = len(t.all) - 1
		t.say(1, "So far its last trace: "+where(e.Place)+", "+t.at(e)+".")
	}
}

// say adds a sentence that tells the next n events and goes on past them.
func (t *teller) say(n int, text string) {
	to := min(t.i+n, len(t.all))
	t.out = append(t.out, Sentence{Text: text, Tick: t.all[max(to-1, 0)].Tick, From: t.i, To: to})
	t.i = to
}

// leg tells what begins with an event.
func (t *teller) leg(e *Event) {
	switch {
	case e.What == Seen:
		t.cut(e)
	case e.What == Born:
		t.born(e)
	case e.What == Broke:
		t.broke(e)
	case e.What == Lost:
		t.lost(e)
	case e.What == Opened:
		t.opened()
	case e.What == Came:
		t.came(e)
	}
}

// came tells of a place that the dot came to.
func (t *teller) came(e *Event) {
	switch e.Place {
	case sim.Gap:
		t.entered(e)
	case sim.UnderGrate:
		t.say(1, "It fell through the concave, in its "+third(e.X)+" third.")
	case sim.Plate:
		t.say(1, "It found no way through the concave and went on with the straw; the beater threw it on the walkers.")
	case sim.Walking:
		t.walk()
	case sim.Pan:
		t.say(1, "The return pan shook it forward to the conveyors.")
	case sim.Step:
		t.say(1, "At "+t.at(e)+" it fell off the conveyors, through the blast, onto the shoe.")
	case sim.PreSieve:
		t.overPre()
	case sim.Upper:
		t.upper()
	case sim.Lower:
		t.lower()
	case sim.Trough:
		t.say(1, "It fell into the returns.")
	case sim.Returning:
		t.turn++
		t.say(1, "Auger and elevator of the returns took it back to the cylinder, for the "+ordinal(t.turn)+" time.")
	case sim.Lifting:
		t.say(1, "It fell into the clean grain trough, and auger and elevator lifted it.")
	case sim.Filling:
		t.done = true
		t.say(1, "At "+t.at(e)+" it fell into the tank"+t.asWhat()+".")
	}
}

// asWhat says what fell into the tank, where that is no sound kernel.
func (t *teller) asWhat() string {
	broken, piece := false, t.all[t.i].ID == t.all[0].ID && t.all[0].What == Seen
	for i := range t.all {
		broken = broken || t.all[i].What == Broke && t.all[i].ID == t.all[len(t.all)-1].ID
	}
	switch {
	case piece:
		return ", unthreshed"
	case broken:
		return ", broken"
	}
	return ""
}

// next returns the next event from index i on of a kind other than Opened, and
// its index.
func (t *teller) next(i int) (*Event, int) {
	for ; i < len(t.all); i++ {
		if t.all[i].What != Opened {
			return &t.all[i], i
		}
	}
	return nil, i
}

// seconds returns how long it is from one event to another, s.
func seconds(a, b *Event) float64 { return float64(b.Tick-a.Tick) / sim.TickHz }

// rodeOut says how a kernel that left over the rear of the shoe went.
func rodeOut(e *Event) string {
	switch {
	case e.Rode() == flow.InMat:
		return "held in the mat, which the air had not opened"
	case e.Cause() == flow.Ridden:
		return "on the sieve, under the mat"
	case e.Rode() == flow.Airborne:
		return "flying, with nothing to hold it down"
	}
	return "thrown up by the sieve, in the open air"
}
