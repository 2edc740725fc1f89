package runner

import (
	"strconv"

	"riddle/sim"
	"riddle/sim/run/journal"
	"riddle/sim/run/trial"
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

// Log is what the journal says, for the eye.
type Log struct {
	run    *journal.Run
	record *trial.Record
	lines  []Change
	last   int // number of the last one
}

// clear begins the log of a run.
func (l *Log) clear(run *journal.Run, record *trial.Record) {
	l.run, l.record, l.lines = run, record, nil
}

// Changes lists the log; it is the log's own.
func (l *Log) Changes() []Change { return l.lines }

// At returns when a change was made, s after the first tick, and to what.
func (l *Log) At(c *Change) (seconds, to float64) {
	last := l.run.Command(c.last)
	return float64(last.Tick) / sim.TickHz, last.Value
}

// Revision changes whenever the log does.
func (l *Log) Revision() int {
	n := l.last * 3
	if k := len(l.lines); k > 0 && l.lines[k-1].After != nil {
		n++
	}
	return n
}

// holds reports whether a command stands in the log already, by its number.
func (l *Log) holds(command int) bool {
	n := len(l.lines)
	return n > 0 && l.lines[n-1].last >= command
}

// note writes a command of the journal, by its number, into the log. Moves of
// one hand are one line there.
func (l *Log) note(command int, f *setup.Field, from float64) {
	n := len(l.lines)
	c := Change{first: command, last: command, Field: f, From: from, Before: reading.GlanceAt(l.record)}
	if n > 0 {
		last := &l.lines[n-1]
		now, to := l.At(&c)
		at, _ := l.At(last)
		if last.Field == f && last.After == nil && now-at < sameHand {
			last.last = command
			if last.From == to {
				l.lines = l.lines[:n-1]
			}
			return
		}
		last.Cut = last.After == nil && now-at < SettleAfter
		c.Unsure = last.Cut
		if at == now { // at one stroke with it
			c.Unsure = last.Unsure
		}
	}
	l.last++
	c.ID = l.last
	l.lines = append(l.lines, c)
	if len(l.lines) > mostChanges {
		l.lines = l.lines[1:]
	}
}

// observe reads what the last change did once it has settled, and then returns it.
// That the machine plugged is told by its alarm.
func (l *Log) observe() *Change {
	n := len(l.lines)
	if n == 0 {
		return nil
	}
	last := &l.lines[n-1]
	if last.After != nil {
		return nil
	}
	if at, _ := l.At(last); l.run.Machine.Seconds() < at+SettleAfter {
		return nil
	}
	now := reading.GlanceAt(l.record)
	last.After = &now
	settled := *last
	return &settled
}

// unsay takes out of the log what was done at a tick or after it, and what was
// read of a change since.
func (l *Log) unsay(from int64) {
	for n := len(l.lines); n > 0; n-- {
		c := &l.lines[n-1]
		if l.run.Command(c.first).Tick < from {
			break
		}
		l.lines, l.last = l.lines[:n-1], c.ID-1
	}
	n := len(l.lines)
	if n == 0 {
		return
	}
	last := &l.lines[n-1]
	for last.last > last.first && (l.run.Command(last.last).Tick >= from || l.run.Command(last.last).Field != last.Field) {
		last.last--
	}
	last.Cut = false
	if at, _ := l.At(last); float64(from)/sim.TickHz < at+SettleAfter {
		last.After = nil
	}
}

// before returns a setup as it was before a line of the log.
func (l *Log) before(id int, set setup.Setup) (setup.Setup, error) {
	found := false
	for i := len(l.lines) - 1; i >= 0 && l.lines[i].ID >= id; i-- {
		c := &l.lines[i]
		if err := c.Field.Set(&set, c.From); err != nil {
			return set, err
		}
		found = found || c.ID == id
	}
	if !found {
		return set, &setup.Error{Field: "undo", Value: strconv.Itoa(id), Want: "a line of the log"}
	}
	return set, nil
}
