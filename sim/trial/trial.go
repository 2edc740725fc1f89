package trial

import (
	"riddle/sim"
	"riddle/sim/course"
	"riddle/sim/flow"
	"riddle/sim/readout"
	"riddle/sim/setup"
)

// Run runs a new machine through the plan and reads the window. It returns the
// machine as it stands at the end. A machine that plugs ends the run there; if
// that was in the warm-up the window is empty. Progress, if there is any, is
// told the share that is done about once a simulated second.
func Run(s setup.Setup, p Plan, progress func(done float64)) (*sim.Machine, readout.Report, error) {
	if err := p.Validate(s); err != nil {
		return nil, readout.Report{}, err
	}
	r, err := start(s, p, progress)
	if err != nil {
		return nil, readout.Report{}, err
	}
	warm := ticks(p.Warmup)
	r.total = warm + max(ticks(p.Seconds), 1)
	if err := r.until(warm); err != nil {
		return nil, readout.Report{}, err
	}
	r.open()
	if err := r.until(r.total); err != nil {
		return nil, readout.Report{}, err
	}
	return r.m, r.report(), nil
}

// Reach runs a new machine to a time, s after the first tick, or until it
// plugs.
func Reach(s setup.Setup, seconds float64, progress func(done float64)) (*sim.Machine, error) {
	m, _, err := ReachAlong(s, Plan{}, seconds, progress)
	return m, err
}

// ReachAlong does the same with the changes and along the course of a plan,
// whose times it leaves aside. The drive is for whoever goes on from there.
func ReachAlong(s setup.Setup, p Plan, seconds float64, progress func(done float64)) (*sim.Machine, *course.Drive, error) {
	if !(seconds >= 0 && seconds <= MaxSeconds) {
		return nil, nil, bad("at", seconds, "0 to 86400 s")
	}
	r, err := start(s, p, progress)
	if err != nil {
		return nil, nil, err
	}
	r.total = ticks(seconds)
	return r.m, r.drive, r.until(r.total)
}

// run is a machine on its way through a plan.
type run struct {
	m        *sim.Machine
	changes  []Change      // still to come, by time
	drive    *course.Drive // along the field and through the day
	progress func(float64)
	total    int64 // ticks in all
	tick     int64
	peak     int // most dots at once

	before   flow.Tally // at the start of the window
	from     int64      // its first tick
	hectares float64
}

func start(s setup.Setup, p Plan, progress func(float64)) (*run, error) {
	m, err := sim.New(s)
	if err != nil {
		return nil, err
	}
	drive, err := p.drive(s)
	if err != nil {
		return nil, err
	}
	if progress == nil {
		progress = func(float64) {}
	}
	return &run{m: m, changes: inOrder(p.Changes), drive: drive, progress: progress}, nil
}

// until steps the machine to a tick, or until it plugs.
func (r *run) until(last int64) error {
	for r.tick < last && !r.plugged() {
		if err := r.alter(); err != nil {
			return err
		}
		r.drive.Step(r.m)
		s := r.m.Setup()
		r.hectares += readout.HectaresAnHour(s.Settings.GroundSpeed, s.Conditions.HeaderWidth) / (3600 * sim.TickHz)
		r.m.Step()
		r.tick++
		r.peak = max(r.peak, r.m.Live())
		if r.tick%sim.TickHz == 0 {
			r.progress(float64(r.tick) / float64(r.total))
		}
	}
	return nil
}

// alter makes the changes that are due.
func (r *run) alter() error {
	for len(r.changes) > 0 && r.changes[0].At <= float64(r.tick)/sim.TickHz {
		s := r.m.Setup()
		if err := r.changes[0].apply(&s); err != nil {
			return err
		}
		if err := r.m.Adjust(s); err != nil {
			return err
		}
		r.drive.Hold(r.changes[0].Field)
		r.changes = r.changes[1:]
	}
	return nil
}

func (r *run) plugged() bool { return r.m.State().Condition == sim.Plugged }

// open starts the window.
func (r *run) open() {
	r.before, r.from = r.m.Tally(), r.tick
	r.hectares = 0
}

// report reads the window and the whole run.
func (r *run) report() readout.Report {
	state := r.m.State()
	over := readout.Span{
		Setup: r.m.Setup(), Seconds: float64(r.tick-r.from) / sim.TickHz, Hectares: r.hectares,
		Model: sim.Model, State: state.Condition.String(),
	}
	if state.Condition == sim.Plugged {
		over.Plug = &readout.Plug{At: state.At, Where: state.Where, Why: state.Why}
	}
	report := readout.Window(r.before, r.m.Tally(), over)
	hz, peak, digest := float64(sim.TickHz), r.peak, r.m.Digest()
	report.TickHz, report.Peak, report.Digest = &hz, &peak, &digest
	return report
}
