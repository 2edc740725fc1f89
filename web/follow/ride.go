// Package follow follows one kernel: which one, its story in the page's words,
// the way to draw, and going back along it.
package follow

import (
	"fmt"
	"sort"
	"strconv"

	"riddle/render"
	"riddle/sim"
	"riddle/sim/read/story"
	"riddle/sim/setup"
	"riddle/sim/stage/section"
	"riddle/sim/trade/quantity"
	"riddle/web/speak"
)

// Ride is the dot whose way is shown, out of the record of what happens to all.
type Ride struct {
	Record *story.Recorder
	Snap   *sim.Snapshot // the present

	on     bool
	id     uint32
	live   bool        // the dot is followed as it goes, not shown at a past time
	at     int64       // the tick at which it is shown
	told   story.Story // as of tick
	way    []story.Spot
	tick   int64
	trail  render.Trail
	joined bool // the trail is that of way
}

// State is a ride as the page shows it.
type State struct {
	Title *speak.Message `json:"title"`
	Done  bool           `json:"done"` // the dot has met its fate
	Live  bool           `json:"live"` // shown as it goes
	From  int64          `json:"from"` // ticks between which its way is known
	To    int64          `json:"to"`
	At    int64          `json:"at"`
	Note  *speak.Message `json:"note"`
	Story []Line         `json:"story"`
}

// Line is a sentence of the story.
type Line struct {
	Text *speak.Message `json:"text"`
	Tick int64          `json:"tick"`
	Past bool           `json:"past"` // it has happened by the time shown
}

// Names are what can be asked for, in the order of the crop: a piece that
// is about to be threshed, then the fates.
func Names() []string {
	order := []story.Fate{story.AtHeader, story.InPiece, story.OverWalkers, story.BlownOver, story.RiddenOver, story.WentRound, story.InTank, story.BrokenInTank, story.PieceInTank}
	list := []string{"next"}
	for _, f := range order {
		list = append(list, f.String())
	}
	return list
}

// Fate takes up a dot that met a fate, or one that is about to be threshed.
func (r *Ride) Fate(name string) error {
	if name == "next" {
		for i := range r.Snap.Dots[sim.Feeding] {
			if d := &r.Snap.Dots[sim.Feeding][i]; d.Grain > 0 && d.X < -1.2 {
				r.On(d.ID)
				return nil
			}
		}
		return &setup.Error{Field: "story", Value: name, Want: "a kernel of that kind, and the feeder house is empty"}
	}
	f, ok := story.FindFate(name)
	if !ok {
		return &setup.Error{Field: "story", Value: name, Want: "one of the stories"}
	}
	id, ok := r.Record.Ask(f)
	if !ok {
		return &setup.Error{Field: "story", Value: name, Want: "a kernel of that kind, and there has been none yet"}
	}
	r.On(id)
	return nil
}

// On shows the way of a dot, and follows it where it is still on its way.
func (r *Ride) On(id uint32) {
	*r = Ride{Record: r.Record, Snap: r.Snap, on: true, id: id, live: true, at: r.Snap.Tick}
	r.Record.Watch(id)
	r.read()
	if r.told.Done {
		r.at = r.last()
	}
}

// To shows the dot where it was at a tick, or follows it again where that
// is the last.
func (r *Ride) To(tick float64) error {
	if !r.on || len(r.way) == 0 {
		return fmt.Errorf("no kernel is being followed")
	}
	r.at = min(max(int64(tick), r.way[0].Tick), r.last())
	r.live = r.at == r.last()
	return nil
}

// Off lets the dot go.
func (r *Ride) Off() {
	*r = Ride{Record: r.Record, Snap: r.Snap}
	r.Record.Unwatch()
}

// Riding is which dot is followed, and where it is shown.
type Riding struct {
	ID   uint32 `json:"id"`
	Live bool   `json:"live"`
	At   int64  `json:"at"`
}

// Riding says what is followed, or nil.
func (r *Ride) Riding() *Riding {
	if !r.on {
		return nil
	}
	return &Riding{r.id, r.live, r.at}
}

// Take takes up what was followed.
func (r *Ride) Take(was *Riding) {
	r.On(was.ID)
	if !was.Live {
		r.live, r.at = false, was.At
	}
}

// Live reports whether the dot is followed as it goes.
func (r *Ride) Live() bool { return r.live }

func (r *Ride) last() int64 {
	if len(r.way) == 0 {
		return r.at
	}
	return r.way[len(r.way)-1].Tick
}

// read takes up what the record now tells of the dot. A piece that has
// given its last kernel away is left for that kernel.
func (r *Ride) read() {
	if d, _, here := r.Record.Watched(); here && d.ID != r.id && r.live {
		r.id = d.ID
	}
	r.told, r.way, r.tick, r.joined = r.Record.Tell(r.id), r.Record.Path(r.id), r.Snap.Tick, false
	if r.live {
		r.at = r.last()
	}
}

// keep brings the ride up to the present, a few times a second.
func (r *Ride) keep() {
	const every = sim.TickHz / 12
	if r.on && !r.told.Done && r.Snap.Tick-r.tick >= every {
		r.read()
	}
}

// Spot returns where the ridden dot is at the time shown.
func (r *Ride) Spot() (q section.Point, ok bool) {
	if !r.on {
		return q, false
	}
	if r.live {
		if d, _, here := r.Record.Watched(); here {
			return section.Point{X: float64(d.X), Y: float64(d.Y)}, true
		}
	}
	at, ok := story.At(r.way, r.at)
	return section.Point{X: at.X, Y: at.Y}, ok
}

// Trail returns the way to draw, or nil.
func (r *Ride) Trail() *render.Trail {
	if !r.on {
		return nil
	}
	r.keep()
	if !r.joined {
		r.trail.Way = r.trail.Way[:0]
		for _, w := range r.way {
			r.trail.Way = append(r.trail.Way, section.Point{X: w.X, Y: w.Y})
		}
		r.joined = true
	}
	r.trail.Gone = sort.Search(len(r.way), func(i int) bool { return r.way[i].Tick > r.at })
	if r.live {
		r.trail.Gone = len(r.way)
	}
	r.trail.At, r.trail.Ring = r.Spot()
	return &r.trail
}

// Tell says how the ride stands, or nil.
func (r *Ride) Tell(u speak.Units) *State {
	r.keep()
	if !r.on || len(r.way) == 0 {
		return nil
	}
	st := &State{Title: r.title(), Done: r.told.Done, Live: r.live, From: r.way[0].Tick, To: r.last(), At: r.at}
	for _, x := range r.told.Sentences {
		st.Story = append(st.Story, Line{sentence(u, x), x.Tick, x.Tick <= r.at})
	}
	switch {
	case !r.live:
		st.Note = speak.Say("ride.past", speak.With{"then": speak.Seconds(float64(r.at) / sim.TickHz), "now": speak.Seconds(r.Snap.Seconds)})
	case len(r.told.Sentences) == 0:
		st.Note = speak.Say("ride.unknown")
	default:
		st.Note = speak.Say("ride.how")
	}
	return st
}

// sentence puts a sentence of a story into the page's units.
func sentence(u speak.Units, x story.Sentence) *speak.Message {
	with := speak.With{}
	for slot, v := range x.With {
		switch {
		case v.Word != "":
			with[slot] = speak.Say(v.Word)
		case v.Unit == "s":
			with[slot] = speak.Seconds(v.N)
		case v.Unit == "m":
			with[slot] = u.Of(v.N, quantity.Width)
		case v.Unit == "mm":
			with[slot] = u.Thick(v.N / 1000)
		default:
			with[slot] = v.N
		}
	}
	return speak.Say(x.Key, with)
}

func (r *Ride) title() *speak.Message {
	d, p, here := r.Record.Watched()
	if here {
		return speak.Say("ride.here", speak.With{"kind": speak.Say("kind." + speak.KindID(d.Kind)), "place": speak.Say("story.place." + strconv.Itoa(int(p)))})
	}
	if n := len(r.told.Events); n > 0 {
		return speak.Say("ride.way", speak.With{"from": speak.Seconds(r.told.Events[0].Seconds()), "to": speak.Seconds(r.told.Events[n-1].Seconds())})
	}
	return speak.Say("ride.dot")
}
