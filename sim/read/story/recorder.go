package story

import (
	"slices"

	"riddle/sim"
	"riddle/sim/stage/flow"
)

// Room of a recorder: how many events it remembers, and for how many of the
// last numbers of dots it knows their state. A full machine makes some 30,000
// events a second, so they hold for about the half minute that a kernel can
// take with a turn or two through the returns.
const (
	eventRoom = 1 << 20
	slotRoom  = 1 << 18
)

// slot is what is known of one dot.
type slot struct {
	id, from uint32
	last     uint32 // number of its last event, plus one; 0 if there is none
	state    state
}

// state is what of a dot makes events when it changes, one byte each: place,
// ride, kind, cause, rounds, strikes, and grain in two. In one number it is
// compared at once.
type state uint64

func stateOf(d *flow.Dot, p sim.Place) state {
	return state(p) | state(d.Ride)<<8 | state(d.Kind)<<16 | state(d.Cause)<<24 |
		state(d.Rounds)<<32 | state(d.Strikes)<<40 | state(d.Grain)<<48
}

func (s state) place() sim.Place  { return sim.Place(s & 255) }
func (s state) ride() flow.Ride   { return flow.Ride(s >> 8 & 255) }
func (s state) kind() flow.Kind   { return flow.Kind(s >> 16 & 255) }
func (s state) cause() flow.Cause { return flow.Cause(s >> 24 & 255) }
func (s state) strikes() int      { return int(s >> 40 & 255) }
func (s state) grain() int        { return int(s >> 48) }

// glimpse is the dot that stood at one index of a swarm when it was last looked
// at. Most stand there still, unchanged, so that their slots, which lie far
// apart, need not be read.
type glimpse struct {
	state state
	id    uint32 // 0 if none that matters
}

// Recorder keeps the record. It is not safe for concurrent use.
type Recorder struct {
	snap   sim.Snapshot
	events []record
	slots  []slot
	seen   [sim.Places][]glimpse
	next   uint32 // number of the next event, plus one
	tick   int64
	ends   [Fates]ends
	passes Passes
	watch  watch
}

// NewRecorder returns an empty record. All its room is taken here.
func NewRecorder() *Recorder {
	r := &Recorder{events: make([]record, eventRoom), slots: make([]slot, slotRoom)}
	r.Clear()
	return r
}

// Clear forgets everything: for another machine.
func (r *Recorder) Clear() {
	clear(r.slots)
	for p := range r.seen {
		r.seen[p] = r.seen[p][:0]
	}
	r.next, r.tick, r.ends, r.passes, r.watch = 1, 0, [Fates]ends{}, Passes{}, watch{}
}

// Join begins with a machine in the middle of its work: of the dots that are on
// their way nothing is known from before.
func (r *Recorder) Join(m *sim.Machine) {
	r.Clear()
	m.Glance(&r.snap)
	r.tick = r.snap.Tick
	r.next = eventRoom + 1
	for p := range r.snap.Dots {
		for i := range r.snap.Dots[p] {
			if d := &r.snap.Dots[p][i]; d.Grain > 0 {
				r.slots[d.ID%slotRoom] = slot{id: d.ID, from: d.From, last: forgotten, state: stateOf(d, sim.Place(p))}
			}
		}
	}
}

// forgotten is the number of an event that has long been overwritten where Join
// begins to count.
const forgotten = 1

// Keep takes up what the last step of the machine did. It is to be called
// after every step.
func (r *Recorder) Keep(m *sim.Machine) {
	m.Glance(&r.snap)
	r.take(&r.snap)
}

// seldom lists the places in which nothing can happen to a dot but that it
// came there, so that a look now and then is enough.
var seldom = [sim.Places]bool{sim.Lifting: true, sim.Feeding: true, sim.Conveyor: true, sim.Returning: true, sim.Pan: true,
	sim.Filling: true, sim.Behind: true, sim.UnderWalker: true, sim.PreSieve: true}

// seldomTicks is how often those are looked at.
const seldomTicks = 4

func (r *Recorder) take(s *sim.Snapshot) {
	r.tick = s.Tick
	r.passes.fade()
	for p := range s.Dots {
		place := sim.Place(p)
		if due(place, s.Tick) {
			r.survey(s.Dots[p], place)
		}
	}
	r.follow(s)
}

// due reports whether the dots of a place are looked at in a tick.
func due(p sim.Place, tick int64) bool {
	return p != sim.Standing && p != sim.Unloading && (!seldom[p] || (tick+int64(p))%seldomTicks == 0)
}

// survey looks at those dots of a place that are not as they were.
func (r *Recorder) survey(dots []flow.Dot, p sim.Place) {
	seen := resized(r.seen[p], len(dots))
	r.seen[p] = seen
	for i := range dots {
		d, last := &dots[i], &seen[i]
		if d.Grain == 0 && !(d.ID == r.watch.id && r.watch.on) {
			last.id = 0
			continue
		}
		if now := stateOf(d, p); last.state != now || last.id != d.ID {
			last.state, last.id = now, d.ID
			r.look(d, p, now)
		}
	}
}

// resized returns seen with a length of n; what is new in it has seen nothing.
func resized(seen []glimpse, n int) []glimpse {
	old := len(seen)
	if n <= old {
		return seen[:n]
	}
	seen = slices.Grow(seen, n-old)[:n]
	clear(seen[old:])
	return seen
}

// look compares a dot with what is known of it.
func (r *Recorder) look(d *flow.Dot, p sim.Place, now state) {
	s := &r.slots[d.ID%slotRoom]
	switch {
	case s.last == 0 || s.id != d.ID:
		*s = slot{id: d.ID, from: d.From, state: now}
		r.birth(s, d, p)
	case s.state != now:
		was := s.state
		s.state = now
		r.change(s, d, was, now)
	}
}

// birth notes a dot that was not known.
func (r *Recorder) birth(s *slot, d *flow.Dot, p sim.Place) {
	if d.From == 0 {
		r.note(s, d, Seen, p, int(d.Grain)/flow.Kernel)
	} else {
		r.note(s, d, Born, p, int(d.Strikes))
		r.passes.count(d, sim.Gap, p)
	}
	if d.Kind == flow.Broken && d.Cause == flow.NotLost {
		r.note(s, d, Broke, p, int(d.Strikes))
	}
	if d.Cause != flow.NotLost {
		r.lose(s, d, p, d.Ride)
	}
}

// change notes in what a dot differs from before.
func (r *Recorder) change(s *slot, d *flow.Dot, was, now state) {
	if was.place() != now.place() {
		r.passes.count(d, was.place(), now.place())
	}
	opened := now.kind() == flow.Piece && now.grain() < was.grain()
	if opened && was.place() != sim.Feeding { // else it first has to get there
		r.note(s, d, Opened, sim.Gap, now.grain()/flow.Kernel)
	}
	switch {
	case now.cause() != was.cause():
		r.lose(s, d, now.place(), was.ride())
	case now.place() != was.place():
		r.came(s, d, was, now)
	case now.ride() != was.ride():
		r.rode(s, d, was.ride(), now)
	}
	if now.kind() == flow.Broken && was.kind() != flow.Broken {
		r.note(s, d, Broke, now.place(), now.strikes())
	}
	if opened && was.place() == sim.Feeding {
		r.note(s, d, Opened, now.place(), now.grain()/flow.Kernel)
	}
}

// came notes that a dot is now elsewhere.
func (r *Recorder) came(s *slot, d *flow.Dot, was, now state) {
	n := now.strikes()
	switch {
	case now.place() == sim.Upper || was.place() == sim.Upper:
		n = thickness(r.snap.UpperMat, d.X)
	case now.place() == sim.Walking || was.place() == sim.Walking:
		n = thickness(r.snap.WalkerMat, d.X)
	}
	r.note(s, d, Came, now.place(), n)
	if now.place() == sim.Filling {
		r.end(d, fateInTank(d))
	}
}

// rode notes that a dot now travels otherwise at its place.
func (r *Recorder) rode(s *slot, d *flow.Dot, was flow.Ride, now state) {
	switch {
	case now.place() == sim.Walking && now.ride() == flow.InMat:
		r.note(s, d, Landed, now.place(), thickness(r.snap.WalkerMat, d.X))
	case now.place() != sim.Upper && now.place() != sim.Lower:
	case now.ride() == flow.InMat:
		r.note(s, d, Landed, now.place(), thickness(r.snap.UpperMat, d.X))
	case now.ride() == flow.OnSieve && was == flow.InMat:
		r.note(s, d, Sank, now.place(), 0)
	case now.ride() == flow.Airborne && was == flow.OnSieve:
		r.note(s, d, Thrown, now.place(), 0)
	case now.ride() == flow.Airborne && was == flow.InMat:
		r.note(s, d, Lifted, now.place(), 0)
	}
}

func (r *Recorder) lose(s *slot, d *flow.Dot, p sim.Place, rode flow.Ride) {
	r.note(s, d, Lost, p, int(d.Cause)|int(rode)<<4)
	r.end(d, fateOfCause[d.Cause])
}

// note writes one event down.
func (r *Recorder) note(s *slot, d *flow.Dot, w What, p sim.Place, n int) {
	r.events[r.next%eventRoom] = record{s.last, uint32(r.tick), millimetres(d.X), millimetres(d.Y), w, p, uint16(min(max(n, 0), 65535))}
	s.last = r.next
	if r.next++; r.next == 0 { // 0 means none
		r.next = 1
	}
}

// thickness returns how thick a mat is at x, mm.
func thickness(mat []sim.Cell, x float32) int {
	if len(mat) == 0 {
		return 0
	}
	i, step := 0, (mat[len(mat)-1].X-mat[0].X)/float32(max(len(mat)-1, 1))
	if step > 0 {
		i = min(max(int((x-mat[0].X)/step+0.5), 0), len(mat)-1)
	}
	return int(mat[i].Thick * 1000)
}

// history returns the events of one dot that are still known, oldest first. It
// reports whether its beginning is among them.
func (r *Recorder) history(id uint32) (events []Event, whole bool) {
	s := &r.slots[id%slotRoom]
	if s.id != id || s.last == 0 {
		return nil, false
	}
	for n := s.last; n != 0; {
		if r.next-n > eventRoom-1 {
			return reversed(events), false // overwritten
		}
		e := &r.events[n%eventRoom]
		events = append(events, e.event(id))
		n = e.prev
	}
	return reversed(events), true
}

func reversed(e []Event) []Event {
	for i, j := 0, len(e)-1; i < j; i, j = i+1, j-1 {
		e[i], e[j] = e[j], e[i]
	}
	return e
}
