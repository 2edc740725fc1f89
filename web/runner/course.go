package runner

import (
	"math"

	"riddle/sim"
	"riddle/sim/setup"
)

// follow tells the page, once a simulated second, where conditions have changed
// by where and when the machine is.
func (r *Runner) follow() {
	r.sinceTold++
	if r.sinceTold < sim.TickHz {
		return
	}
	r.sinceTold = 0
	if place, now := r.Run.Progress.Place(r.Machine), r.Machine.Setup().Conditions; now != r.told || place != r.toldPlace {
		r.told, r.toldPlace = now, place
		r.Revision++
	} else if _, _, day := r.Run.Progress.Air(r.Machine); day {
		r.Revision++
	}
}

// Again puts a new machine at the edge of the field that was started from, and
// leaves what the user has set.
func (r *Runner) Again(seed uint64) error {
	start := r.Run.Again()
	start.Setup.Seed = seed
	return r.begin(start)
}

// Restore brings settings and conditions back to the start, where the course
// takes its own up again.
func (r *Runner) Restore() error {
	to, now := r.Start, r.Machine.Setup()
	to.Seed = now.Seed
	if err := r.Run.Release(); err != nil {
		return err
	}
	for i := range setup.Fields {
		if f := &setup.Fields[i]; r.Run.Progress.Moves(f.Name) {
			if err := f.Set(&to, f.Get(&now)); err != nil {
				return err
			}
		}
	}
	return r.ChangeTo(to)
}

// Near returns the present setup with what the course has moved by less than a
// step as it was in base: so little does not make another machine.
func (r *Runner) Near(base setup.Setup) setup.Setup {
	now := r.Machine.Setup()
	for i := range setup.Fields {
		f := &setup.Fields[i]
		if r.Run.Progress.Moves(f.Name) && math.Abs(f.Get(&now)-f.Get(&base)) < f.Step {
			if err := f.Set(&now, f.Get(&base)); err != nil {
				return r.Machine.Setup() // base is of another crop
			}
		}
	}
	return now
}
