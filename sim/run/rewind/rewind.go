// Package rewind keeps the last seconds of a run, so that it can be put back
// to any tick in them and go on from there.
package rewind

import (
	"riddle/sim"
	"riddle/sim/run/journal"
)

// Every is how many ticks lie between two moments that are kept, and moments how
// many are: what lies between is stepped again, which takes at most a fraction
// of a second, and at least Reach ticks back can be reached. Chosen.
const (
	Every   = 2 * sim.TickHz
	moments = 11
	Reach   = (moments - 1) * Every
)

// Ring keeps the last moments of one run, and with each of them something of
// its keeper's. Its zero value is empty.
//
// Its room is bounded: a moment takes 60 bytes a dot, an eighth more, and some
// 200 kB. That is 2.3 MB in the crop with most dots, soybeans at their start
// (31,400 dots), and 3.7 MB at 1.6 times that ground speed (51,200); the ring
// takes eleven times as much, 26 and 40 MB. It takes it while the machine fills,
// and the same room again after that.
type Ring[T any] struct {
	kept  [moments]moment[T]
	first int // the oldest
	count int
}

type moment[T any] struct {
	journal.Moment
	with T
}

// Clear forgets everything: for another run. The room stays.
func (r *Ring[T]) Clear() { r.first, r.count = 0, 0 }

// Keep is to be told of a run at its start and after each of its ticks; it keeps
// a moment when one is due, or when there is none yet.
func (r *Ring[T]) Keep(run *journal.Run, with *T) {
	tick := run.Machine.Tick()
	if r.count > 0 && (tick%Every != 0 || tick <= r.at(r.count-1).Tick()) {
		return
	}
	if r.count == moments {
		r.first = (r.first + 1) % moments
		r.count--
	}
	m := r.at(r.count)
	run.Keep(&m.Moment)
	m.with = *with
	r.count++
}

// Oldest returns the earliest tick that can be reached.
func (r *Ring[T]) Oldest() int64 { return r.at(0).Tick() }

// Back puts a run back to the last moment that is kept at or before a tick, and
// returns what was kept with it. Stepping on to the tick brings the run to where
// it stood then, and the journal with it. It returns nil where the tick lies
// before all moments, or after the run's own.
func (r *Ring[T]) Back(run *journal.Run, tick int64) *T {
	if r.count == 0 || tick < r.Oldest() || tick > run.Machine.Tick() {
		return nil
	}
	for r.at(r.count-1).Tick() > tick {
		r.count--
	}
	m := r.at(r.count - 1)
	run.Return(&m.Moment, tick)
	return &m.with
}

// at returns a moment by its number, the oldest being 0.
func (r *Ring[T]) at(i int) *moment[T] { return &r.kept[(r.first+i)%moments] }
