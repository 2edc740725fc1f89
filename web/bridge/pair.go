package bridge

import (
	"math"

	"riddle/sim/run/trial"
	"riddle/sim/setup"
	"riddle/web/reading"
	"riddle/web/runner"
	keep "riddle/web/share"
	"riddle/web/speak"
)

// Pair is two machines side by side: the same crop, field, day and seed, each
// with settings of its own, stepped in turn tick by tick. What both share is
// asked of the first; the second follows.
type Pair struct {
	First, Second *Session
	begun         int // of the first, when the second was last put beside it
}

// NewPair puts the machine of a session back to the edge of the field, and a
// second one beside it: with the settings given, or else with the same.
func NewPair(first *Session, settings *setup.Settings) (*Pair, error) {
	p := &Pair{First: first, Second: NewSession()}
	if err := first.run.Again(first.run.Machine.Setup().Seed); err != nil {
		return nil, err
	}
	set := first.run.Machine.Setup()
	if settings != nil {
		set.Settings = *settings
	}
	if err := p.beside(set); err != nil {
		return nil, err
	}
	first.run.WarmUp(runner.WarmTicks)
	p.follow()
	return p, nil
}

// Fork puts a second machine beside that of a session that stands as it does at
// this moment, with all that has been read of it, and goes on by itself from
// there.
func Fork(first *Session) *Pair {
	p := &Pair{First: first, Second: first.fork(), begun: first.run.Begun}
	p.follow()
	return p
}

// team steps both.
func (p *Pair) team() runner.Team { return runner.Team{p.First.run, p.Second.run} }

// back takes both machines back to the same moment.
func (p *Pair) back() {
	a, b := p.First.run, p.Second.run
	to := max(a.Earlier(), b.Earlier())
	a.Back(to)
	b.Back(to)
}

// beside puts a new second machine to where the first one stands.
func (p *Pair) beside(set setup.Setup) error {
	if err := p.Second.run.Beside(p.First.run, set); err != nil {
		return err
	}
	p.begun = p.First.run.Begun
	return nil
}

// do carries out a command to both machines, or to the first where it is one of
// its settings.
func (p *Pair) do(c command) error {
	switch c := c.(type) {
	case *Back:
		p.back()
		return nil
	case *Step:
		return p.team().Steps(c.Ticks)
	}
	was := p.First.run.Machine.Setup()
	err := c.do(p.First)
	if p.First.run.Begun != p.begun {
		p.begin()
	} else {
		if _, is := c.(*Restore); is {
			p.release()
		}
		p.share(&was)
	}
	p.follow()
	return err
}

// begin puts the second machine to where the first one has just been put, with
// its own settings where the crop is still the same.
func (p *Pair) begin() {
	set, mine := p.First.run.Machine.Setup(), p.Second.run.Machine.Setup()
	if set.Crop == mine.Crop {
		set.Settings = mine.Settings
	}
	if err := p.beside(set); err != nil {
		panic(err) // the first took crop and conditions, the second the settings
	}
}

// release gives the conditions of the second machine back to field and day, as
// restoring has just done in the first.
func (p *Pair) release() {
	if err := p.Second.run.Run.Release(); err != nil {
		panic(err) // the first took it
	}
}

// share brings to the second machine the conditions that have been changed in
// the first.
func (p *Pair) share(was *setup.Setup) {
	now, to := p.First.run.Machine.Setup(), p.Second.run.Machine.Setup()
	for i := range setup.Fields {
		f := &setup.Fields[i]
		if v := f.Get(&now); f.Condition && v != f.Get(was) {
			if err := f.Set(&to, v); err != nil {
				panic(err) // the first took it
			}
		}
	}
	if err := p.Second.run.ChangeTo(to); err != nil {
		panic(err) // every value has been taken by one of the two
	}
}

// follow brings to the second machine what is not of a machine: pace, units,
// price.
func (p *Pair) follow() {
	p.Second.system, p.Second.price = p.First.system, p.First.price
	p.team().Follow()
}

// doSecond carries out a command to the second machine: one of its settings,
// nothing that both share.
func (p *Pair) doSecond(c command) error {
	name := ""
	switch c := c.(type) {
	case *Set:
		name = c.Name
	case *Nudge:
		name = c.Name
	}
	if f := setup.Find(name); f == nil || f.Condition {
		return &setup.Error{Field: name, Value: name, Want: "a setting; crop, field and seed are those of the first machine"}
	}
	return c.do(p.Second)
}

// Swap changes the places of the two machines, with all that is in them.
func (p *Pair) Swap() {
	p.First, p.Second = p.Second, p.First
	a, b := p.First.run, p.Second.run
	p.begun = a.Begun
	latest := max(a.Revision, b.Revision) + 1
	a.Revision, b.Revision = latest, latest
}

// Copy sets one machine as the other: the first as the second, or the other
// way round.
func (p *Pair) Copy(toFirst bool) error {
	from, to := p.First.run, p.Second.run
	if toFirst {
		from, to = to, from
	}
	set := to.Machine.Setup()
	set.Settings = from.Machine.Setup().Settings
	return to.ChangeTo(set)
}

// Update makes the steps that one update of the engine brings, of both
// machines alike: what does not fit into the frame is missing from both.
func (p *Pair) Update(spent func() bool) (steps int) { return p.team().Update(spent) }

// kept is what a link or a file holds of the pair.
func (p *Pair) kept() keep.Kept {
	k := p.First.kept()
	mine := p.Second.run.Machine.Setup().Settings
	k.Second = &mine
	return k
}

// Compare is how the two machines read.
type Compare struct {
	Seconds [2]float64           `json:"seconds"` // after the first tick
	State   [2]string            `json:"state"`
	Alarm   [2]*Alarm            `json:"alarm"`
	Span    float64              `json:"span"` // over which both are read, s
	Rows    []reading.Comparison `json:"rows"`
	Grade   [2]*speak.Message    `json:"grade"`
	Money   [2]reading.Money     `json:"money"`
	Setups  [2]int               `json:"setups"` // revisions of the setups
	Stacked bool                 `json:"stacked"`
}

// Compare reads both machines over the long window.
func (p *Pair) Compare() Compare {
	var c Compare
	var read [2]trial.Stretch
	for i, s := range [...]*Session{p.First, p.Second} {
		rd := s.read()
		read[i] = rd.Window(reading.LongWindow)
		r := &read[i].Report
		c.Seconds[i], c.State[i], c.Alarm[i], c.Setups[i] = s.run.Machine.Seconds(), s.run.Machine.State().Condition.String(), s.words().alarm(), s.run.Revision
		if g := rd.Grade(r); g != nil {
			c.Grade[i] = g.Text
		}
		c.Money[i] = rd.Money(r)
	}
	c.Span = math.Floor(min(read[0].Report.WindowS, read[1].Report.WindowS))
	c.Rows = reading.Compare(p.First.units(), &read[0], &read[1])
	return c
}
