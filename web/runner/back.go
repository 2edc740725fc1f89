package runner

import (
	"slices"

	"riddle/sim"
	"riddle/web/speak"
)

// backBy is how far one goes back at once, s.
const backBy = 10

// Earlier returns the tick to which one goes back from here: so far, or as far
// as is remembered.
func (r *Runner) Earlier() int64 {
	return max(r.Machine.Tick()-backBy*sim.TickHz, r.past.Oldest())
}

// Back puts the machine to where it stood at an earlier tick, and with it what
// was read of it, the journal and the log. What happened since has not happened.
func (r *Runner) Back(to int64) {
	if r.Warming() || to > r.Machine.Tick() {
		return
	}
	r.Log.unsay(to)
	watch := r.past.Back(r.Run, to)
	if watch == nil {
		panic("it is gone back farther than is remembered")
	}
	r.Record.Back(watch)
	r.Story.Join(r.Machine)
	r.Jumped()
	r.due = 0
	for r.Machine.Tick() < to {
		r.tick()
	}
	r.Tell(speak.Say("back.said", speak.With{"time": speak.Seconds(r.Machine.Seconds())}))
	r.Changed()
}

// Fork brings to a second runner the same moment: the same machine, what was read
// of it, and its journal. The past of the second begins here.
func (r *Runner) Fork(c *Runner) {
	c.Run = r.Run.Clone()
	c.Machine, c.Record = c.Run.Machine, r.Record
	c.past.Clear()
	c.past.Keep(c.Run, &c.Record.Watch)
	c.Log = Log{c.Run, &c.Record, slices.Clone(r.Log.lines), r.Log.last}
	c.Start, c.Scene = r.Start, r.Scene
	c.Story.Join(c.Machine)
	c.Changed()
}
