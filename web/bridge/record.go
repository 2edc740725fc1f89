package bridge

import (
	"math"

	"riddle/sim"
	"riddle/sim/read/readout"
	"riddle/sim/run/trial"
	"riddle/sim/stage/flow"
)

// Windows over which the page reads the machine, s of simulated time.
const (
	shortWindow = 10
	longWindow  = 60
	nowWindow   = 2
	beat        = 2
)

// recall is how far back the record reaches, s: the strip chart shows it.
const recall = 600

// record remembers one mark for each simulated second that it reaches back, and
// the present one.
type record struct {
	watch    trial.Watch
	marks    [recall + shortWindow + 2]trial.Mark
	kept     int // marks ever kept
	delivers int // the first of them in which grain came out as it went in; 0 if there is none yet
	lost     int // so many of the first have been written over
}

// clear starts the record at a new machine.
func (r *record) clear(m *sim.Machine) {
	r.kept, r.delivers, r.lost = 0, 0, 0
	r.watch.Start(m)
	r.put()
}

// keep notes one tick of the machine.
func (r *record) keep(m *sim.Machine) {
	before := r.watch.Now.Seconds
	r.watch.Keep(m)
	if math.Floor(before) != math.Floor(r.watch.Now.Seconds) {
		r.put()
	}
}

func (r *record) put() {
	now := &r.watch.Now
	if r.delivers == 0 && !readout.Filling(&now.Tally) {
		r.delivers = r.kept
	}
	r.marks[r.kept%len(r.marks)] = *now
	r.kept++
}

// at returns a mark by its number.
func (r *record) at(i int) *trial.Mark { return &r.marks[i%len(r.marks)] }

// oldest is the number of the first mark that is still there.
func (r *record) oldest() int { return max(r.lost, r.kept-len(r.marks)) }

// back forgets all that was noted after a moment.
func (r *record) back(to *trial.Watch) {
	r.lost = r.oldest() // those that newer ones were written over do not come back
	r.watch = *to
	r.kept = int(to.Now.Seconds) + 1
	if r.delivers >= r.kept {
		r.delivers = 0
	}
}

// begin returns the mark at which a window of so many seconds begins that ends
// in another: the latest that lies as far back, or the first there is. A window
// does not reach back to when the machine was filling, where there is a later
// beginning.
func (r *record) begin(end *trial.Mark, seconds float64) *trial.Mark {
	first := r.oldest()
	if d := r.delivers; d > first && r.at(d).Seconds < end.Seconds {
		first = d
	}
	for i := r.kept - 1; i > first; i-- {
		if m := r.at(i); m.Seconds <= end.Seconds-seconds {
			return m
		}
	}
	return r.at(first)
}

// span is a stretch of the record that is read.
type span struct {
	before, after *trial.Mark
	report        readout.Report
}

// window reads the last seconds of the record.
func (s *Session) window(seconds float64) span { return s.until(&s.log.watch.Now, seconds) }

// until reads the seconds up to a mark.
func (s *Session) until(end *trial.Mark, seconds float64) span {
	begin := s.log.begin(end, seconds)
	return span{begin, end, trial.Read(begin, end, s.prices())}
}

// sinceBeat reads what came since the last beat; the tallies of the page fill
// anew at every beat.
func (s *Session) sinceBeat() span {
	return s.window(math.Mod(s.machine.Seconds(), beat))
}

// kernels counts the whole kernels that the causes took in the span.
func (w *span) kernels(causes ...flow.Cause) int64 {
	var g flow.Grain
	for _, c := range causes {
		g += w.after.Tally.Lost[c] - w.before.Tally.Lost[c]
	}
	return g / flow.Kernel
}
