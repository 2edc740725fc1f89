package runner

import "riddle/sim/setup"

// ChangeTo brings the running machine to other settings and conditions: each
// that differs is a command.
func (r *Runner) ChangeTo(to setup.Setup) error {
	was := r.Machine.Setup()
	if err := to.Validate(); err != nil {
		return err
	}
	for i := range setup.Fields {
		f := &setup.Fields[i]
		from, to := f.Get(&was), f.Get(&to)
		if from == to || !f.On(r.Machine.Crop()) {
			continue
		}
		if err := r.Run.Set(f, to); err != nil {
			return err
		}
		r.Log.note(len(r.Run.Commands())-1, f, from)
	}
	r.claimed = nil // it is another run now
	r.Changed()
	return nil
}

// Undo puts every setting back to what it was before a line of the log.
func (r *Runner) Undo(id int) error {
	to, err := r.Log.before(id, r.Machine.Setup())
	if err != nil {
		return err
	}
	return r.ChangeTo(to)
}
