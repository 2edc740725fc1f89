package bridge

import (
	"riddle/sim"
	"riddle/sim/flow"
	"riddle/sim/readout"
)

// Windows over which the page reads the machine, s of simulated time.
const (
	shortWindow = 10
	longWindow  = 60
)

// mark is what had been counted at one moment.
type mark struct {
	seconds  float64
	tally    flow.Tally
	hectares float64 // harvested
	turned   float64 // integral of the cylinder's speed, rpm s
	worked   float64 // integral of its power, kJ
}

// record remembers one mark for each simulated second of the long window, and
// the present one.
type record struct {
	now   mark
	marks [longWindow + 2]mark
	kept  int // marks ever kept
}

// clear starts the record at a new machine.
func (r *record) clear(snap *sim.Snapshot) {
	r.kept = 0
	r.now = mark{seconds: snap.Seconds, tally: snap.Tally}
	r.put()
}

// keep notes one step of the machine.
func (r *record) keep(snap *sim.Snapshot) {
	dt := snap.Seconds - r.now.seconds
	set := &snap.Setup
	r.now.seconds, r.now.tally = snap.Seconds, snap.Tally
	r.now.hectares += readout.HectaresAnHour(set.Settings.GroundSpeed, set.Conditions.HeaderWidth) * dt / 3600
	r.now.turned += snap.CylinderRPM * dt
	r.now.worked += snap.CylinderKW * dt
	if snap.Tick%sim.TickHz == 0 {
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
	before, after := s.log.since(seconds), &s.log.now
	length := after.seconds - before.seconds
	over := readout.Span{
		Setup: s.snap.Setup, Seconds: length, Hectares: after.hectares - before.hectares,
		Model: sim.Model, State: s.snap.State.Condition.String(),
		CylinderRPM: s.snap.CylinderRPM, CylinderKW: s.snap.CylinderKW,
	}
	if length > 0 {
		over.CylinderRPM = (after.turned - before.turned) / length
		over.CylinderKW = (after.worked - before.worked) / length
	}
	if st := s.snap.State; s.plugged() {
		over.Plug = &readout.Plug{At: st.At, Where: st.Where, Why: st.Why}
	}
	return span{before, after, readout.Window(before.tally, after.tally, over)}
}

// lost returns how many whole kernels the causes took in the span.
func (w *span) lost(causes ...flow.Cause) (kernels int64) {
	for _, c := range causes {
		kernels += w.after.tally.Lost[c] - w.before.tally.Lost[c]
	}
	return kernels / flow.Quarters
}
