package story

import (
	"riddle/sim"
	"riddle/sim/stage/flow"
	"riddle/sim/trade/crop"
)

// Sentence is a sentence of a story, by the key of its words and the values in
// it, and the events that it tells: From up to, and not with, To.
type Sentence struct {
	Key      string
	With     With
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

// Tell returns the story of a dot.
func (r *Recorder) Tell(id uint32) Story {
	events, whole := r.lineage(id)
	s := Story{ID: id, Whole: whole, Events: events}
	if len(events) == 0 {
		return s
	}
	t := teller{crop: r.snap.Crop, all: events}
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
	all  []Event
	i    int // the next event to be told
	out  []Sentence
	done bool
	turn int // how often it came back from the returns
}

func (t *teller) tell() {
	if e := &t.all[0]; e.What == Born || e.Place > sim.Feeding && e.Place != sim.Behind {
		t.say(1, "begins", With{"time": at(e), "place": place(e.Place)})
		t.i = 0
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
		t.say(1, "now", With{"place": place(e.Place), "time": at(e)})
	}
}

// say adds a sentence that tells the next n events and goes on past them.
func (t *teller) say(n int, key string, with With) {
	to := min(t.i+n, len(t.all))
	t.out = append(t.out, Sentence{Key: "story." + key, With: with, Tick: t.all[max(to-1, 0)].Tick, From: t.i, To: to})
	t.i = to
}

// leg tells what begins with an event.
func (t *teller) leg(e *Event) {
	switch e.What {
	case Seen:
		t.cut(e)
	case Born:
		t.born(e)
	case Broke:
		t.broke(e)
	case Lost:
		t.lost(e)
	case Opened:
		t.opened()
	case Came:
		t.came(e)
	}
}

// came tells of a place that the dot came to.
func (t *teller) came(e *Event) {
	switch e.Place {
	case sim.Feeding:
		t.fed(e)
	case sim.Gap:
		key := "gap"
		if t.turn > 0 {
			key = "gap.again"
		}
		t.say(1, key, With{"time": at(e)})
	case sim.UnderGrate:
		t.say(1, "through", With{"third": third(e.X)})
	case sim.Plate:
		t.say(1, "over", nil)
	case sim.Walking:
		t.walk()
	case sim.Pan:
		t.say(1, "pan", nil)
	case sim.Step:
		t.say(1, "step", With{"time": at(e)})
	case sim.PreSieve:
		t.overPre()
	case sim.Upper:
		t.upper()
	case sim.Lower:
		t.lower()
	case sim.Trough:
		t.say(1, "returns", nil)
	case sim.Returning:
		t.turn++
		t.say(1, "again", With{"n": count(t.turn)})
	case sim.Lifting:
		t.say(1, "lift", nil)
	case sim.Filling:
		t.done = true
		t.say(1, "tank"+t.asWhat(), With{"time": at(e)})
	}
}

// asWhat says what fell into the tank, where that is no sound kernel.
func (t *teller) asWhat() string {
	own := t.all[len(t.all)-1].ID
	if t.all[0].ID == own && t.all[0].What == Seen {
		return ".unthreshed"
	}
	for i := range t.all {
		if t.all[i].What == Broke && t.all[i].ID == own {
			return ".broken"
		}
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

// took says how long it is from one event to another.
func took(a, b *Event) Value { return span(float64(b.Tick-a.Tick) / sim.TickHz) }

// rodeOut says how a kernel left over the rear edge of the upper sieve.
func rodeOut(e *Event) string {
	switch {
	case e.Rode() == flow.InMat:
		return "lost.mat"
	case e.Cause() == flow.Ridden:
		return "lost.sieve"
	case e.Rode() == flow.Airborne:
		return "lost.flying"
	}
	return "lost.thrown"
}
