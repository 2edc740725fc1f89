package trial

import (
	"math"

	"riddle/sim"
	"riddle/sim/read/readout"
	"riddle/sim/stage/flow"
)

// Recall is how far back a record reaches, s, and spare how many more marks it
// keeps, so that a window can end at the oldest of those. Chosen for the page.
const (
	Recall = 600
	spare  = 12
)

// Record remembers one mark for each simulated second that it reaches back, and
// the present one.
type Record struct {
	Watch    Watch
	marks    [Recall + spare]Checkpoint
	Kept     int // marks ever kept
	delivers int // the first of them in which grain came out as it went in; 0 if there is none yet
	lost     int // so many of the first have been written over
}

// Clear starts the record at a new machine.
func (r *Record) Clear(m *sim.Machine) {
	r.Kept, r.delivers, r.lost = 0, 0, 0
	r.Watch.Start(m)
	r.put()
}

// Keep notes one tick of the machine.
func (r *Record) Keep(m *sim.Machine) {
	before := r.Watch.Now.Seconds
	r.Watch.Keep(m)
	if math.Floor(before) != math.Floor(r.Watch.Now.Seconds) {
		r.put()
	}
}

func (r *Record) put() {
	now := &r.Watch.Now
	if r.delivers == 0 && !readout.Filling(&now.Tally) {
		r.delivers = r.Kept
	}
	r.marks[r.Kept%len(r.marks)] = *now
	r.Kept++
}

// At returns a mark by its number.
func (r *Record) At(i int) *Checkpoint { return &r.marks[i%len(r.marks)] }

// Oldest is the number of the first mark that is still there.
func (r *Record) Oldest() int { return max(r.lost, r.Kept-len(r.marks)) }

// Back forgets all that was noted after a moment.
func (r *Record) Back(to *Watch) {
	r.lost = r.Oldest() // those that newer ones were written over do not come back
	r.Watch = *to
	r.Kept = int(to.Now.Seconds) + 1
	if r.delivers >= r.Kept {
		r.delivers = 0
	}
}

// Begin returns the mark at which a window of so many seconds begins that ends
// in another: the latest that lies as far back, or the first there is. A window
// does not reach back to when the machine was filling, where there is a later
// beginning.
func (r *Record) Begin(end *Checkpoint, seconds float64) *Checkpoint {
	first := r.Oldest()
	if d := r.delivers; d > first && r.At(d).Seconds < end.Seconds {
		first = d
	}
	for i := r.Kept - 1; i > first; i-- {
		if m := r.At(i); m.Seconds <= end.Seconds-seconds {
			return m
		}
	}
	return r.At(first)
}

// Stretch is a stretch of a record that is read.
type Stretch struct {
	Before, After *Checkpoint
	Report        readout.Report
}

// Last reads the last seconds of the record, at prices.
func (r *Record) Last(seconds float64, prices *readout.Prices) Stretch {
	return r.Until(&r.Watch.Now, seconds, prices)
}

// Until reads the seconds up to a mark, at prices.
func (r *Record) Until(end *Checkpoint, seconds float64, prices *readout.Prices) Stretch {
	begin := r.Begin(end, seconds)
	return Stretch{begin, end, Read(begin, end, prices)}
}

// Window is the stretch in ticks.
func (s *Stretch) Window() Window {
	return Window{From: ticks(s.Before.Seconds), To: ticks(s.After.Seconds)}
}

// Kernels counts the whole kernels that the causes took in the stretch.
func (s *Stretch) Kernels(causes ...flow.Cause) int64 {
	var g flow.Grain
	for _, c := range causes {
		g += s.After.Tally.Lost[c] - s.Before.Tally.Lost[c]
	}
	return g / flow.Kernel
}
