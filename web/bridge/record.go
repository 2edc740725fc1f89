package bridge

import (
	"math"

	"riddle/sim"
	"riddle/sim/flow"
	"riddle/sim/readout"
	"riddle/sim/setup"
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

// mark is what had been counted at one moment.
type mark struct {
	seconds  float64
	tally    flow.Tally
	hectares float64 // harvested
	set      setup.Setup
}

// record remembers one mark for each simulated second that it reaches back, and
// the present one.
type record struct {
	now   mark
	marks [recall + shortWindow + 2]mark
	kept  int // marks ever kept
}

// clear starts the record at a new machine.
func (r *record) clear(m *sim.Machine) {
	r.kept = 0
	r.now = mark{tally: m.Tally(), set: m.Setup()}
	r.put()
}

// keep notes one tick of the machine.
func (r *record) keep(m *sim.Machine) {
	set := m.Setup()
	before := r.now.seconds
	r.now.seconds, r.now.tally, r.now.set = m.Seconds(), m.Tally(), set
	r.now.hectares += readout.HectaresAnHour(set.Settings.GroundSpeed, set.Conditions.HeaderWidth) * (r.now.seconds - before) / 3600
	if math.Floor(before) != math.Floor(r.now.seconds) {
		r.put()
	}
}

func (r *record) put() {
	r.marks[r.kept%len(r.marks)] = r.now
	r.kept++
}

// since returns the latest mark that lies at least the given time back, or the
// first one there is.
func (r *record) since(seconds float64) *mark {
	oldest := max(0, r.kept-len(r.marks))
	for i := r.kept - 1; i > oldest; i-- {
		if m := &r.marks[i%len(r.marks)]; m.seconds <= r.now.seconds-seconds {
			return m
		}
	}
	return &r.marks[oldest%len(r.marks)]
}

// span is a stretch of the record that is read.
type span struct {
	before, after *mark
	report        readout.Report
}

// window reads the last seconds of the record.
func (s *Session) window(seconds float64) span {
	return s.between(s.log.since(seconds), &s.log.now)
}

// between reads the record from one mark to another.
func (s *Session) between(before, after *mark) span {
	length := after.seconds - before.seconds
	over := readout.Span{
		Setup: s.machine.Setup(), Seconds: length, Hectares: after.hectares - before.hectares,
		Model: sim.Model, State: s.machine.State().Condition.String(),
		CylinderRPM: s.snap.CylinderRPM, CylinderKW: s.snap.CylinderKW, EngineKW: s.snap.EngineKW,
	}
	if a, b := &after.tally.Work, &before.tally.Work; a.Ticks > b.Ticks {
		n := float64(a.Ticks - b.Ticks)
		over.CylinderRPM, over.CylinderKW = (a.RPM-b.RPM)/n, (a.KW-b.KW)/n
	}
	if st := s.machine.State(); s.plugged() {
		over.Plug = &readout.Plug{At: st.At, Where: st.Where, Why: st.Why}
	}
	return span{before, after, readout.Window(before.tally, after.tally, over)}
}

// sinceBeat reads what came since the last beat; the tallies of the page fill
// anew at every beat.
func (s *Session) sinceBeat() span {
	return s.window(math.Mod(s.machine.Seconds(), beat))
}

// lost returns the grain that the causes took in the span.
func (w *span) lost(causes ...flow.Cause) (g flow.Grain) {
	for _, c := range causes {
		g += w.after.tally.Lost[c] - w.before.tally.Lost[c]
	}
	return g
}

// empty reports whether no grain came out of the machine in the span; then no
// loss is a share of anything.
func (w *span) empty() bool { return w.after.tally.Tank.Grain == w.before.tally.Tank.Grain }

// filling reports whether the span begins before the first grain came out.
func (w *span) filling() bool { return w.before.tally.Tank.Grain == 0 }

// kernels is lost in whole kernels.
func (w *span) kernels(causes ...flow.Cause) int64 { return w.lost(causes...) / flow.Kernel }
