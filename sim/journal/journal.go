// Package journal is what a run is: its start, and a list of commands, each with
// the tick at which it came. Nothing else has a say in how a machine goes, so
// that whoever has the journal can make the same machine again. Page, pair,
// command, trials and files share this one record; nothing in it is merged or
// left out.
package journal

import (
	"slices"

	"riddle/sim"
	"riddle/sim/course"
	"riddle/sim/setup"
)

// Start is all that fixes a run before its first tick.
type Start struct {
	Situation string         // its name, for the reader; empty where there is none
	From      setup.Setup    // where practice or the situation starts from; Release goes by it
	Setup     setup.Setup    // as the machine stands at the edge of the field
	Course    *course.Course // field and day along the way, or nil
	Held      []string       // conditions that the course is to leave alone
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
	Machine *sim.Machine
	Drive   *course.Drive // along the course

	journal Journal
}

// Begin puts a new machine at the edge of the field.
func (s Start) Begin() (*Run, error) {
	drive, err := s.Course.On(s.Setup)
	if err != nil {
		return nil, err
	}
	m, err := sim.New(s.Setup)
	if err != nil {
		return nil, err
	}
	for _, name := range s.Held {
		drive.Hold(name)
	}
	s.Held = drive.Held() // what is none of the course needs no holding
	return &Run{Machine: m, Drive: drive, journal: Journal{Start: s}}, nil
}

// Plugged reports whether the machine stands for good.
func (r *Run) Plugged() bool { return r.Machine.State().Condition == sim.Plugged }

// Step makes one tick. A plugged machine makes none.
func (r *Run) Step() {
	if r.Plugged() {
		return
	}
	r.Drive.Step(r.Machine)
	r.Machine.Step()
}

// Set alters a setting or a condition by hand; the course does not touch it
// again. On an error nothing changes.
func (r *Run) Set(f *setup.Field, v float64) error {
	to := r.Machine.Setup()
	if err := f.Set(&to, v); err != nil {
		return err
	}
	if err := r.Machine.Adjust(to); err != nil {
		return err
	}
	r.Drive.Hold(f.Name)
	r.put(f, v)
	return nil
}

// Release gives the conditions that were taken in hand back to the course,
// which goes on from the values of Start.From. Without a course it does nothing.
func (r *Run) Release() error {
	if r.Drive == nil {
		return nil
	}
	drive, err := r.journal.Start.Course.On(r.journal.Start.From)
	if err != nil {
		return err
	}
	r.Drive = drive
	r.put(nil, 0)
	return nil
}

// Do carries out a command of a journal, at whatever tick it is.
func (r *Run) Do(c Command) error {
	if c.Field == nil {
		return r.Release()
	}
	return r.Set(c.Field, c.Value)
}

func (r *Run) put(f *setup.Field, v float64) {
	r.journal.Commands = append(r.journal.Commands, Command{r.Machine.Tick(), f, v})
}

// Start returns the start of the run.
func (r *Run) Start() *Start { return &r.journal.Start }

// Commands returns what has been done so far, to be read only.
func (r *Run) Commands() []Command { return r.journal.Commands }

// Journal returns the journal as it stands. It stays as it is while the run
// goes on.
func (r *Run) Journal() Journal {
	return Journal{Start: r.journal.Start, Commands: slices.Clone(r.journal.Commands)}
}

// Again returns the start of a new run of the same machine as it is set now:
// what the course has moved is back at its own start, what was taken in hand
// stays.
func (r *Run) Again() Start {
	s := r.journal.Start
	s.Setup, s.Held = r.Drive.Back(r.Machine.Setup()), r.Drive.Held()
	return s
}

// Clone returns a second run that stands at the same moment with the same
// journal and goes on by itself.
func (r *Run) Clone() *Run {
	return &Run{Machine: r.Machine.Clone(), Drive: r.Drive.Clone(), journal: r.Journal()}
}

// Forget takes back the last commands of the journal, so that count are left:
// for who puts machine and drive back to where they were before them.
func (r *Run) Forget(count int) { r.journal.Commands = r.journal.Commands[:count] }

// Player makes the run of a journal again.
type Player struct {
	*Run
	due []Command // still to come
}

// Play begins the run of a journal.
func (j Journal) Play() (*Player, error) {
	r, err := j.Start.Begin()
	return &Player{r, j.Commands}, err
}

// Due carries out the commands of the present tick, and any before it. It is
// to be called before each step, and once after the last.
func (p *Player) Due() error {
	for len(p.due) > 0 && p.due[0].Tick <= p.Machine.Tick() {
		if err := p.Do(p.due[0]); err != nil {
			return err
		}
		p.due = p.due[1:]
	}
	return nil
}
