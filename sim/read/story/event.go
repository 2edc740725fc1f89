// Package story keeps the record of what happens to every dot that holds
// grain, and tells it: where a kernel came loose, how many strikes it took,
// how long it lay in which mat, which openings it met, and how it ended. It
// watches the machine from outside, once a step, and never touches it. What it
// tells follows from recorded events alone.
package story

import (
	"riddle/sim"
	"riddle/sim/stage/flow"
)

// What is a kind of event.
type What uint8

const (
	Seen   What = iota // first seen here: nothing is known from before
	Born               // came out of the piece or kernel From; N is the strikes that had taken
	Came               // came to a place; N is the mat there, or the strikes so far
	Landed             // came to lie in a mat; N is its thickness
	Sank               // sank through the mat to the face of the sieve
	Thrown             // met an opening of the sieve and was thrown on
	Lifted             // was lifted out of the mat by the air
	Broke              // was broken by a rasp bar
	Opened             // gave kernels away; N is how many it still holds
	Lost               // left the machine as loss; N holds the cause and how it rode
)

var whatNames = [...]string{"seen", "born", "came", "landed", "sank", "thrown", "lifted", "broke", "opened", "lost"}

// String returns the name of the kind of event.
func (w What) String() string { return whatNames[w] }

// Event is one thing that happened to a dot.
type Event struct {
	Tick  int64 // of the machine
	ID    uint32
	X, Y  float64 // where the dot then was, m, to the millimetre
	What  What
	Place sim.Place // where it then was
	N     int       // thickness of a mat in mm, a number of strikes or of kernels: see What
}

// Seconds returns when it happened, s after the first tick.
func (e *Event) Seconds() float64 { return float64(e.Tick) / sim.TickHz }

// Cause returns how the grain of a Lost event was lost.
func (e *Event) Cause() flow.Cause { return flow.Cause(e.N & 15) }

// Rode returns how the dot of a Lost event travelled as it left.
func (e *Event) Rode() flow.Ride { return flow.Ride(e.N >> 4) }

// record is an event as it is kept.
type record struct {
	prev uint32 // number of the event before it of the same dot, plus one
	tick uint32
	x, y int16 // mm
	what What
	at   sim.Place
	n    uint16
}

func (r *record) event(id uint32) Event {
	return Event{int64(r.tick), id, float64(r.x) / 1000, float64(r.y) / 1000, r.what, r.at, int(r.n)}
}

func millimetres(m float32) int16 { return int16(min(max(m*1000, -32768), 32767)) }
