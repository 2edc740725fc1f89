package runner

import (
	"strconv"

	"riddle/sim"
	"riddle/sim/setup"
	"riddle/web/reading"
)

// SettleAfter is how long after a change its effect is read, s: the short
// window then lies wholly behind the change and the way through the machine.
const SettleAfter = 25

// sameHand is within how much simulated time moves of one control count as
// one change, s.
const sameHand = 2

// mostChanges bounds the log; the oldest go first. The journal keeps them all.
const mostChanges = 200

// Change is a line of the log: one move of a control, of one or more commands of
// the journal, and what was read before and after it.
type Change struct {
	ID          int
	first, last int // of its commands in the journal
	Field       *setup.Field
	From        float64 // in base units
	Before      reading.Glance
	After       *reading.Glance // nil until it has settled
	Cut         bool            // something else was changed before it had settled
	Unsure      bool            // itself changed before the one before it had settled
}

// Changes lists the log; it is the runner's own.
func (r *Runner) Changes() []Change { return r.changes }

// At returns when a change was made, s after the first tick, and to what.
func (r *Runner) At(c *Change) (seconds, to float64) {
	last := r.Run.Command(c.last)
	return float64(last.Tick) / sim.TickHz, last.Value
}

// note writes a command of the journal, by its number, into the log. Moves of
// one hand are one line there.
func (r *Runner) note(command int, f *setup.Field, from float64) {
	n := len(r.changes)
	c := Change{first: command, last: command, Field: f, From: from, Before: reading.GlanceAt(&r.Record)}
	if n > 0 {
		last := &r.changes[n-1]
		now, to := r.At(&c)
		at, _ := r.At(last)
		if last.Field == f && last.After == nil && now-at < sameHand {
			last.last = command
			if last.From == to {
				r.changes = r.changes[:n-1]
			}
			return
		}
		last.Cut = last.After == nil && now-at < SettleAfter
		c.Unsure = last.Cut
		if at == now { // at one stroke with it
			c.Unsure = last.Unsure
		}
	}
	r.lastChange++
	c.ID = r.lastChange
	r.changes = append(r.changes, c)
	if len(r.changes) > mostChanges {
		r.changes = r.changes[1:]
	}
}

// observe reads what the last change did once it has settled. That the machine
// plugged is told by its alarm.
func (r *Runner) observe() {
	n := len(r.changes)
	if n == 0 {
		return
	}
	last := &r.changes[n-1]
	if last.After != nil {
		return
	}
	if at, _ := r.At(last); r.Machine.Seconds() < at+SettleAfter {
		return
	}
	now := reading.GlanceAt(&r.Record)
	last.After = &now
	settled := *last
	r.Notice = Notice{ID: r.Notice.ID + 1, Change: &settled}
}

// Undo puts every setting back to what it was before a line of the log.
func (r *Runner) Undo(id int) error {
	to := r.Machine.Setup()
	found := false
	for i := len(r.changes) - 1; i >= 0 && r.changes[i].ID >= id; i-- {
		c := &r.changes[i]
		if err := c.Field.Set(&to, c.From); err != nil {
			return err
		}
		found = found || c.ID == id
	}
	if !found {
		return &setup.Error{Field: "undo", Value: strconv.Itoa(id), Want: "a line of the log"}
	}
	return r.ChangeTo(to)
}

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
		r.note(len(r.Run.Commands())-1, f, from)
	}
	r.claimed = nil // it is another run now
	r.Changed()
	return nil
}
