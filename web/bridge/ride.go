package bridge

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
)

// ride is the dot whose way is shown.
type ride struct {
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

// RideState is a ride as the page shows it.
type RideState struct {
	Title *Message   `json:"title"`
	Done  bool       `json:"done"` // the dot has met its fate
	Live  bool       `json:"live"` // shown as it goes
	From  int64      `json:"from"` // ticks between which its way is known
	To    int64      `json:"to"`
	At    int64      `json:"at"`
	Note  *Message   `json:"note"`
	Story []RideLine `json:"story"`
}

// RideLine is a sentence of the story.
type RideLine struct {
	Text *Message `json:"text"`
	Tick int64    `json:"tick"`
	Past bool     `json:"past"` // it has happened by the time shown
}

// storyNames are what can be asked for, in the order of the crop: a piece that
// is about to be threshed, then the fates.
func storyNames() []string {
	order := []story.Fate{story.AtHeader, story.InPiece, story.OverWalkers, story.BlownOver, story.RiddenOver, story.WentRound, story.InTank, story.BrokenInTank, story.PieceInTank}
	list := []string{"next"}
	for _, f := range order {
		list = append(list, f.String())
	}
	return list
}

// rideFate takes up a dot that met a fate, or one that is about to be threshed.
func (s *Session) rideFate(name string) error {
	if name == "next" {
		for i := range s.snap.Dots[sim.Feeding] {
			if d := &s.snap.Dots[sim.Feeding][i]; d.Grain > 0 && d.X < -1.2 {
				s.rideOn(d.ID)
				return nil
			}
		}
		return &setup.Error{Field: "story", Value: name, Want: "a kernel of that kind, and the feeder house is empty"}
	}
	f, ok := story.FindFate(name)
	if !ok {
		return &setup.Error{Field: "story", Value: name, Want: "one of the stories"}
	}
	id, ok := s.story.Ask(f)
	if !ok {
		return &setup.Error{Field: "story", Value: name, Want: "a kernel of that kind, and there has been none yet"}
	}
	s.rideOn(id)
	return nil
}

// rideOn shows the way of a dot, and follows it where it is still on its way.
func (s *Session) rideOn(id uint32) {
	s.ride = ride{on: true, id: id, live: true, at: s.snap.Tick}
	s.story.Watch(id)
	s.readRide()
	if s.ride.told.Done {
		s.ride.at = s.ride.last()
	}
}

// rideTo shows the dot where it was at a tick, or follows it again where that
// is the last.
func (s *Session) rideTo(tick float64) error {
	r := &s.ride
	if !r.on || len(r.way) == 0 {
		return fmt.Errorf("no kernel is being followed")
	}
	r.at = min(max(int64(tick), r.way[0].Tick), r.last())
	r.live = r.at == r.last()
	if !r.live {
		s.running = false
	}
	return nil
}

func (s *Session) rideOff() {
	s.ride = ride{}
	s.story.Unwatch()
}

func (r *ride) last() int64 {
	if len(r.way) == 0 {
		return r.at
	}
	return r.way[len(r.way)-1].Tick
}

// readRide takes up what the record now tells of the dot. A piece that has
// given its last kernel away is left for that kernel.
func (s *Session) readRide() {
	r := &s.ride
	if d, _, here := s.story.Watched(); here && d.ID != r.id && r.live {
		r.id = d.ID
	}
	r.told, r.way, r.tick, r.joined = s.story.Tell(r.id), s.story.Path(r.id), s.snap.Tick, false
	if r.live {
		r.at = r.last()
	}
}

// keepRide brings the ride up to the present, a few times a second.
func (s *Session) keepRide() {
	const every = sim.TickHz / 12
	if r := &s.ride; r.on && !r.told.Done && s.snap.Tick-r.tick >= every {
		s.readRide()
	}
}

// spot returns where the ridden dot is at the time shown.
func (s *Session) rideSpot() (q section.Point, ok bool) {
	r := &s.ride
	if !r.on {
		return q, false
	}
	if r.live {
		if d, _, here := s.story.Watched(); here {
			return section.Point{X: float64(d.X), Y: float64(d.Y)}, true
		}
	}
	at, ok := story.At(r.way, r.at)
	return section.Point{X: at.X, Y: at.Y}, ok
}

// trail returns the way to draw, or nil.
func (s *Session) trail() *render.Trail {
	r := &s.ride
	if !r.on {
		return nil
	}
	s.keepRide()
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
	r.trail.At, r.trail.Ring = s.rideSpot()
	return &r.trail
}

// rideState says how the ride stands, or nil.
func (s *Session) rideState() *RideState {
	s.keepRide()
	r := &s.ride
	if !r.on || len(r.way) == 0 {
		return nil
	}
	st := &RideState{Title: s.rideTitle(), Done: r.told.Done, Live: r.live, From: r.way[0].Tick, To: r.last(), At: r.at}
	for _, x := range r.told.Sentences {
		st.Story = append(st.Story, RideLine{s.sentence(x), x.Tick, x.Tick <= r.at})
	}
	switch {
	case !r.live:
		st.Note = say("ride.past", With{"then": seconds(float64(r.at) / sim.TickHz), "now": seconds(s.snap.Seconds)})
	case len(r.told.Sentences) == 0:
		st.Note = say("ride.unknown")
	default:
		st.Note = say("ride.how")
	}
	return st
}

// sentence puts a sentence of a story into the page's units.
func (s *Session) sentence(x story.Sentence) *Message {
	with := With{}
	for slot, v := range x.With {
		switch {
		case v.Word != "":
			with[slot] = say(v.Word)
		case v.Unit == "s":
			with[slot] = seconds(v.N)
		case v.Unit == "m":
			with[slot] = s.qv(v.N, quantity.Width)
		case v.Unit == "mm":
			with[slot] = s.thick(v.N / 1000)
		default:
			with[slot] = v.N
		}
	}
	return say(x.Key, with)
}

func (s *Session) rideTitle() *Message {
	d, p, here := s.story.Watched()
	if here {
		return say("ride.here", With{"kind": say("kind." + kindID(d.Kind)), "place": say("story.place." + strconv.Itoa(int(p)))})
	}
	if n := len(s.ride.told.Events); n > 0 {
		return say("ride.way", With{"from": seconds(s.ride.told.Events[0].Seconds()), "to": seconds(s.ride.told.Events[n-1].Seconds())})
	}
	return say("ride.dot")
}
