package bridge

import (
	"math"

	"riddle/sim"
	"riddle/sim/setup"
)

// settleAfter is how long after a change its effect is read, s: the short
// window then lies wholly behind the change and the way through the machine.
const settleAfter = 25

// sameHand is within how much simulated time moves of one control count as
// one change, s.
const sameHand = 2

// mostChanges bounds the log; the oldest go first. The journal keeps them all.
const mostChanges = 200

// change is a line of the log: one move of a control, of one or more commands of
// the journal, and what was read before and after it.
type change struct {
	id          int
	first, last int // of its commands in the journal
	field       *setup.Field
	from        float64 // in base units
	before      glance
	after       *glance // nil until it has settled
	cut         bool    // something else was changed before it had settled
	unsure      bool    // itself changed before the one before it had settled
}

// at returns when a change was made, s after the first tick, and to what.
func (s *Session) at(c *change) (seconds, to float64) {
	last := s.run.Command(c.last)
	return float64(last.Tick) / sim.TickHz, last.Value
}

// glance is what was read at one moment over the short window.
type glance struct {
	losses losses
	broken *float64
}

func (s *Session) glance() glance {
	w := s.window(shortWindow)
	return glance{w.losses(), w.report.Tank.Broken}
}

// note writes a command of the journal, by its number, into the log. Moves of
// one hand are one line there.
func (s *Session) note(command int, f *setup.Field, from float64) {
	n := len(s.changes)
	c := change{first: command, last: command, field: f, from: from, before: s.glance()}
	if n > 0 {
		last := &s.changes[n-1]
		now, to := s.at(&c)
		at, _ := s.at(last)
		if last.field == f && last.after == nil && now-at < sameHand {
			last.last = command
			if last.from == to {
				s.changes = s.changes[:n-1]
			}
			return
		}
		last.cut = last.after == nil && now-at < settleAfter
		c.unsure = last.cut
		if at == now { // at one stroke with it
			c.unsure = last.unsure
		}
	}
	s.lastChange++
	c.id = s.lastChange
	s.changes = append(s.changes, c)
	if len(s.changes) > mostChanges {
		s.changes = s.changes[1:]
	}
}

// observe reads what the last change did once it has settled. That the machine
// plugged is told by its alarm.
func (s *Session) observe() {
	n := len(s.changes)
	if n == 0 {
		return
	}
	last := &s.changes[n-1]
	if last.after != nil {
		return
	}
	if at, _ := s.at(last); s.machine.Seconds() < at+settleAfter {
		return
	}
	now := s.glance()
	last.after = &now
	s.tell(say("notice", With{"change": s.changeText(last), "s": settleAfter, "moved": last.moved()}))
}

// moved says what a change that has settled did. Nothing is said without a
// reading before and one after.
func (c *change) moved() any {
	a, b := &c.before.losses, &c.after.losses
	const total = rows - 1
	switch {
	case c.unsure:
		return say("moved.unsettled")
	case a.value[total] == nil:
		return say("moved.before")
	case b.value[total] == nil:
		return say("moved.after")
	}
	return a.against(b)
}

func (s *Session) changeText(c *change) *Message {
	_, to := s.at(c)
	return say("change", With{"name": say("field." + c.field.Name), "from": s.valueOf(c.field, c.from), "to": s.valueOf(c.field, to)})
}

// valueOf shows a value of a field.
func (s *Session) valueOf(f *setup.Field, v float64) any {
	if f.Switch() {
		if v != 0 {
			return say("on")
		}
		return say("off")
	}
	out, n := s.qv(v, f.Unit), s.units.Notches(f.Unit, s.machine.Crop().Name, f.Step)
	out.D, out.Parts = n.Digits, n.Parts
	return out
}

// against says which losses moved by more than chance would move them.
func (a *losses) against(b *losses) any {
	var moved []*Message
	for i := range rows {
		if a.value[i] == nil || b.value[i] == nil || a.spread[i] == nil || b.spread[i] == nil {
			continue
		}
		se := math.Hypot(*a.spread[i], *b.spread[i])
		if math.Abs(*b.value[i]-*a.value[i]) > 3*se {
			moved = append(moved, say("moved", With{"loss": say("loss." + lossRows[i].id + ".short"), "from": share(a.value[i], nil), "to": share(b.value[i], nil)}))
		}
	}
	if len(moved) == 0 {
		return say("moved.none")
	}
	return moved
}

// Change is a line of the log as the page shows it.
type Change struct {
	ID     int      `json:"id"`
	At     float64  `json:"at"`
	Field  string   `json:"field"`
	From   any      `json:"from"`
	To     any      `json:"to"`
	Before []Part   `json:"before"` // readings at the change
	After  []Part   `json:"after"`  // once it had settled, or nothing
	Cut    bool     `json:"cut"`
	Text   *Message `json:"text"`
}

// Changes lists the log.
func (s *Session) Changes() []Change {
	list := make([]Change, len(s.changes))
	for i := range s.changes {
		c := &s.changes[i]
		at, to := s.at(c)
		list[i] = Change{
			ID: c.id, At: at, Field: c.field.Name, From: s.valueOf(c.field, c.from), To: s.valueOf(c.field, to),
			Before: c.before.parts(), Cut: c.cut, Text: s.changeText(c),
		}
		if c.after != nil {
			list[i].After = c.after.parts()
		}
	}
	return list
}

func (g *glance) parts() (list []Part) {
	for i, r := range lossRows {
		if !r.inner {
			list = append(list, Part{"loss." + r.id, share(g.losses.value[i], g.losses.spread[i])})
		}
	}
	return append(list, Part{"tank.broken", share(g.broken, nil)})
}

// undo puts every setting back to what it was before a line of the log.
func (s *Session) undo(id int) error {
	to := s.machine.Setup()
	found := false
	for i := len(s.changes) - 1; i >= 0 && s.changes[i].id >= id; i-- {
		c := &s.changes[i]
		if err := c.field.Set(&to, c.from); err != nil {
			return err
		}
		found = found || c.id == id
	}
	if !found {
		return &setup.Error{Field: "undo", Value: trim(float64(id)), Want: "a line of the log"}
	}
	return s.changeTo(to)
}

// changeTo brings the running machine to other settings and conditions: each
// that differs is a command.
func (s *Session) changeTo(to setup.Setup) error {
	was := s.machine.Setup()
	if err := to.Validate(); err != nil {
		return err
	}
	for i := range setup.Fields {
		f := &setup.Fields[i]
		from, to := f.Get(&was), f.Get(&to)
		if from == to || !f.On(s.machine.Crop()) {
			continue
		}
		if err := s.run.Set(f, to); err != nil {
			return err
		}
		s.note(len(s.run.Commands())-1, f, from)
	}
	s.claimed, s.coming = nil, nil // it is another run now
	s.changedSetup()
	return nil
}
