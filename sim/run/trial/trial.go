package trial

import (
	"riddle/sim"
	"riddle/sim/read/readout"
	"riddle/sim/run/course"
	"riddle/sim/run/journal"
	"riddle/sim/setup"
)

// Run runs a new machine through the plan and reads the window. It returns the
// machine as it stands at the end. A machine that plugs ends the run there; if
// that was in the warm-up the window is empty. Progress, if there is any, is
// told the share that is done about once a simulated second.
func Run(s setup.Setup, p Plan, progress func(done float64)) (*sim.Machine, readout.Report, error) {
	r, report, err := Keep(s, p, progress)
	if err != nil {
		return nil, report, err
	}
	return r.Machine, report, nil
}

// Keep does the same and returns the run with its journal.
func Keep(s setup.Setup, p Plan, progress func(done float64)) (*journal.Run, readout.Report, error) {
	if err := p.Validate(s); err != nil {
		return nil, readout.Report{}, err
	}
	w := p.Window()
	return Play(p.journal(s, w.To), w, progress)
}

// Window is the stretch of a run that is read, in ticks after its start.
type Window struct{ From, To int64 }

// Play makes the run of a journal up to the end of a window, and reads that.
func Play(j journal.Journal, w Window, progress func(done float64)) (*journal.Run, readout.Report, error) {
	r, err := start(j, w.To, progress)
	if err != nil {
		return nil, readout.Report{}, err
	}
	r.until(w.From)
	r.before = r.watch.Now
	r.until(w.To)
	return r.Run, r.report(), nil
}

// Reach runs a new machine to a time, s after the first tick, or until it
// plugs.
func Reach(s setup.Setup, seconds float64, progress func(done float64)) (*sim.Machine, error) {
	m, _, err := ReachAlong(s, Plan{}, seconds, progress)
	return m, err
}

// ReachAlong does the same with the changes and along the course of a plan,
// whose times it leaves aside. The progress is for whoever goes on from there.
func ReachAlong(s setup.Setup, p Plan, seconds float64, progress func(done float64)) (*sim.Machine, *course.Progress, error) {
	if !(seconds >= 0 && seconds <= MaxSeconds) {
		return nil, nil, bad("at", seconds, "0 to 86400 s")
	}
	end := ticks(seconds)
	r, err := start(p.journal(s, end), end, progress)
	if err != nil {
		return nil, nil, err
	}
	r.until(end)
	return r.Machine, r.Progress, nil
}

// run is a journal that is being played and watched.
type run struct {
	*journal.Run
	progress func(float64)
	total    int64 // ticks in all
	peak     int   // most dots at once

	watch  Watch
	before Checkpoint // at the start of the window
}

func start(j journal.Journal, total int64, progress func(float64)) (*run, error) {
	played, err := j.Play()
	if err != nil {
		return nil, err
	}
	if progress == nil {
		progress = func(float64) {}
	}
	r := &run{Run: played, progress: progress, total: total}
	r.watch.Start(played.Machine)
	return r, nil
}

// until steps the machine to a tick, or until it plugs, and makes what is due
// there.
func (r *run) until(last int64) {
	for r.Machine.Tick() < last && !r.Plugged() {
		r.Step()
		r.watch.Keep(r.Machine)
		r.peak = max(r.peak, r.Machine.Live())
		if tick := r.Machine.Tick(); tick%sim.TickHz == 0 {
			r.progress(float64(tick) / float64(r.total))
		}
	}
	r.Due()
}

// report reads the window and the whole run.
func (r *run) report() readout.Report {
	report := Read(&r.before, &r.watch.Now, nil)
	hz, peak, digest := float64(sim.TickHz), r.peak, r.Machine.Digest()
	report.TickHz, report.Peak, report.Digest = &hz, &peak, &digest
	faults := r.Machine.Faults()
	report.Faults = faults.Told()
	return report
}
