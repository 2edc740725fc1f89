package story

import (
	"riddle/sim"
	"riddle/sim/stage/flow"
)

// watchRoom is how many places of the watched dot are kept; a place is taken
// every watchTicks.
const (
	watchRoom  = 4096
	watchTicks = 3
)

// watch is the one dot that is followed on its way.
type watch struct {
	on   bool
	id   uint32
	dot  flow.Dot // as it was last seen
	at   sim.Place
	seen int64 // tick at which it was
	way  [watchRoom]waypoint
	n    int
}

// waypoint is where the watched dot was.
type waypoint struct {
	tick int64
	x, y float32
}

// Watch follows a dot from now on. A piece is followed into the first kernel
// that comes out of it once it holds no more.
func (r *Recorder) Watch(id uint32) {
	r.watch.on, r.watch.id, r.watch.n, r.watch.seen = true, id, 0, -1
	r.follow(&r.snap)
}

// Unwatch ends the following.
func (r *Recorder) Unwatch() { r.watch.on = false }

// Watched returns the dot that is followed as it was last seen, its place, and
// whether it still is in sight.
func (r *Recorder) Watched() (d flow.Dot, p sim.Place, here bool) {
	return r.watch.dot, r.watch.at, r.watch.on && r.watch.seen == r.tick
}

// follow finds the watched dot in a snapshot.
func (r *Recorder) follow(s *sim.Snapshot) {
	w := &r.watch
	if !w.on {
		return
	}
	if !w.find(s) && w.seen >= 0 && w.dot.Kind == flow.Piece && w.at == sim.Gap {
		if id, ok := childOf(s, w.id); ok {
			w.id = id
			w.find(s)
		}
	}
	if w.seen == s.Tick && (w.n == 0 || s.Tick%watchTicks == 0) && w.n < watchRoom {
		w.way[w.n] = waypoint{s.Tick, w.dot.X, w.dot.Y}
		w.n++
	}
}

// find looks for the dot: first where it was, then everywhere.
func (w *watch) find(s *sim.Snapshot) bool {
	if w.in(s, w.at) {
		return true
	}
	for p := range s.Dots {
		if sim.Place(p) != w.at && w.in(s, sim.Place(p)) {
			return true
		}
	}
	return false
}

func (w *watch) in(s *sim.Snapshot, p sim.Place) bool {
	for i := range s.Dots[p] {
		if s.Dots[p][i].ID == w.id {
			w.dot, w.at, w.seen = s.Dots[p][i], p, s.Tick
			return true
		}
	}
	return false
}

// childOf returns a kernel that has just come out of a piece.
func childOf(s *sim.Snapshot, piece uint32) (id uint32, ok bool) {
	for _, p := range [...]sim.Place{sim.Gap, sim.UnderGrate, sim.Plate} {
		for i := range s.Dots[p] {
			if d := &s.Dots[p][i]; d.From == piece && d.Grain > 0 && d.ID != piece {
				return d.ID, true
			}
		}
	}
	return 0, false
}
