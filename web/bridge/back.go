package bridge

import (
	"slices"

	"riddle/sim"
)

// backBy is how far one goes back at once, s.
const backBy = 10

// earlier returns the tick to which one goes back from here: so far, or as far
// as is remembered.
func (s *Session) earlier() int64 {
	return max(s.machine.Tick()-backBy*sim.TickHz, s.past.Oldest())
}

// back puts the machine to where it stood at an earlier tick, and with it what
// was read of it, the journal and the log. What happened since has not happened.
func (s *Session) back(to int64) {
	if s.Warming() || to > s.machine.Tick() {
		return
	}
	s.unsay(to)
	watch := s.past.Back(s.run, to)
	if watch == nil {
		panic("it is gone back farther than is remembered")
	}
	s.log.back(watch)
	s.story.Join(s.machine)
	s.rideOff()
	s.due = 0
	for s.machine.Tick() < to {
		s.tick()
	}
	s.tell(say("back.said", With{"time": seconds(s.machine.Seconds())}))
	s.changedSetup()
}

// unsay takes out of the log what was done at a tick or after it, and what was
// read of a change since.
func (s *Session) unsay(from int64) {
	for n := len(s.changes); n > 0; n-- {
		c := &s.changes[n-1]
		if s.run.Command(c.first).Tick < from {
			break
		}
		s.changes, s.lastChange = s.changes[:n-1], c.id-1
	}
	n := len(s.changes)
	if n == 0 {
		return
	}
	last := &s.changes[n-1]
	for last.last > last.first && (s.run.Command(last.last).Tick >= from || s.run.Command(last.last).Field != last.field) {
		last.last--
	}
	last.cut = false
	if at, _ := s.at(last); float64(from)/sim.TickHz < at+settleAfter {
		last.after = nil
	}
}

// fork returns a second session at the same moment: the same machine, what was
// read of it, and its journal. The past of the second begins here.
func (s *Session) fork() *Session {
	c := NewSession()
	c.run = s.run.Clone()
	c.machine, c.log = c.run.Machine, s.log
	c.past.Clear()
	c.past.Keep(c.run, &c.log.watch)
	c.changes, c.lastChange = slices.Clone(s.changes), s.lastChange
	c.start, c.scene, c.units, c.price = s.start, s.scene, s.units, s.price
	c.story.Join(c.machine)
	c.changedSetup()
	return c
}
