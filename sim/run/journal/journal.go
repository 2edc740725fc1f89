// Package journal defines a run: its start, and a list of commands, each with
// the tick at which it came. Nothing else affects the machine, so
// anyone with the journal can reproduce it exactly. Page, pair,
// command, trials and files share this one record; nothing in it is merged or
// left out.
package journal

import (
	"slices"

	"riddle/sim"
	"riddle/sim/run/course"
	"riddle/sim/setup"
	"riddle/sim/stage/fault"
)

// Start is all that fixes a run before its first tick.
type Start struct {
	Situation string         // its name, for the reader; empty where there is none
	From      setup.Setup    // where practice or the situation starts from; Release goes by it
	Setup     setup.Setup    // as the machine stands at the edge of the field
	Course    *course.Course // field and day along the way, or nil
	Held      []string       // conditions that the course is to leave alone
	Faults    fault.Set      // that the machine has from the start
}

// Command is one thing that was done to a running machine.
type Command struct {
	Tick  int64        // steps that the machine had made by then
	Field *setup.Field // what was set; nil is Release
	Value float64      // in the field's unit; of a switch 1 is on, 0 off
}

// Journal is a run. Its commands are in the order in which they came.
type Journal struct {
	Start    Start
	Commands []Command
}

// Run is a machine on its way, and the journal of how it came there. It is not
// safe for concurrent use.
type Run struct {
	Machine  *sim.Machine
	Progress *course.Progress // along the course

	journal Journal
	done    int // commands that have been carried out; the others are still to come
}

// Begin puts a new machine at the edge of the field.
func (s Start) Begin() (*Run, error) {
	drive, err := s.Course.On(s.Setup)
	if err != nil {
		return nil, err
	}
	m, err := sim.NewWith(s.Setup, s.Faults)
	if err != nil {
		return nil, err
	}
	for _, name := range s.Held {
		drive.Hold(name)
	}
	s.Held = drive.Held() // what is none of the course needs no holding
	return &Run{Machine: m, Progress: drive, journal: Journal{Start: s}}, nil
}

// Play begins the run of a journal again: its commands are to come.
func (j Journal) Play() (*Run, error) {
	r, err := j.Start.Begin()
	if err != nil {
		return nil, err
	}
	r.journal.Commands = slices.Clone(j.Commands)
	return r, nil
}

// Plugged reports whether the machine stands for good.
func (r *Run) Plugged() bool { return r.Machine.State().Condition == sim.Plugged }

// Step makes one tick, and before it what the journal says of this moment. A
// plugged machine makes none.
func (r *Run) Step() {
	if r.Plugged() {
		return
	}
	r.Due()
	r.Progress.Step(r.Machine)
	r.Machine.Step()
}

// Due carries out what the journal says of the present tick. Step does so by
// itself; it is left to be done after the last tick.
func (r *Run) Due() {
	for r.Next() {
		if err := r.carryOut(r.journal.Commands[r.done]); err != nil {
			panic(err) // what is in a journal has been tried
		}
		r.done++
	}
}

// Set alters a setting or a condition by hand; the course does not touch it
// again. On an error nothing changes. What was still to come is dropped: from
// here on this is another run.
func (r *Run) Set(f *setup.Field, v float64) error {
	return r.put(Command{r.Machine.Tick(), f, v})
}

// Release gives the conditions that were taken in hand back to the course,
// which goes on from the values of Start.From. Without a course it does nothing.
func (r *Run) Release() error {
	if r.Progress == nil {
		return nil
	}
	return r.put(Command{Tick: r.Machine.Tick()})
}

func (r *Run) put(c Command) error {
	if err := r.carryOut(c); err != nil {
		return err
	}
	r.journal.Commands = append(r.journal.Commands[:r.done], c)
	r.done++
	return nil
}

func (r *Run) carryOut(c Command) error {
	if c.Field == nil {
		return r.release()
	}
	to := r.Machine.Setup()
	if err := c.Field.Set(&to, c.Value); err != nil {
		return err
	}
	if err := r.Machine.Adjust(to); err != nil {
		return err
	}
	r.Progress.Hold(c.Field.Name)
	return nil
}

func (r *Run) release() error {
	drive, err := r.journal.Start.Course.On(r.journal.Start.From)
	if err == nil {
		r.Progress = drive
	}
	return err
}

// Start returns the start of the run.
func (r *Run) Start() *Start { return &r.journal.Start }

// Commands returns what has been done so far, to be read only.
func (r *Run) Commands() []Command { return r.journal.Commands[:r.done] }

// Next reports whether a command is to be carried out at the present tick.
func (r *Run) Next() bool {
	return r.done < len(r.journal.Commands) && r.journal.Commands[r.done].Tick <= r.Machine.Tick()
}

// Command returns a command by its number, also one that is still to come.
func (r *Run) Command(i int) Command { return r.journal.Commands[i] }

// Journal returns the journal as it stands. It stays as it is while the run
// goes on.
func (r *Run) Journal() Journal {
	return Journal{Start: r.journal.Start, Commands: slices.Clone(r.Commands())}
}

// Again returns the start of a new run of the same machine as it is set now:
// what the course has moved is back at its own start, what was taken in hand
// stays.
func (r *Run) Again() Start {
	s := r.journal.Start
	s.Setup, s.Held = r.Progress.Back(r.Machine.Setup()), r.Progress.Held()
	return s
}

// Clone returns a second run that stands at the same moment with the same
// journal and goes on by itself.
func (r *Run) Clone() *Run {
	return &Run{Machine: r.Machine.Clone(), Progress: r.Progress.Clone(), journal: r.Journal(), done: r.done}
}

// Moment is a run as it stood at a tick. Its room is used again.
type Moment struct {
	machine sim.Machine
	drive   course.Progress
	done    int
}

// Tick returns the tick of the moment.
func (m *Moment) Tick() int64 { return m.machine.Tick() }

// Keep notes the present moment.
func (r *Run) Keep(in *Moment) {
	r.Machine.CopyTo(&in.machine)
	r.Progress.CopyTo(&in.drive)
	in.done = r.done
}

// Return goes back to a moment of the same run. What was done before the tick
// named, which is that of the moment or a later one, is still to come and is
// done again by stepping there; what was done at it or after is forgotten.
func (r *Run) Return(to *Moment, until int64) {
	to.machine.CopyTo(r.Machine)
	if r.Progress != nil {
		to.drive.CopyTo(r.Progress)
	}
	r.done = to.done
	n := to.done
	for n < len(r.journal.Commands) && r.journal.Commands[n].Tick < until {
		n++
	}
	r.journal.Commands = r.journal.Commands[:n]
}
