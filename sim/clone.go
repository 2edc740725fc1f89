package sim

import (
	"riddle/sim/stage/feed"
	"riddle/sim/stage/flow"
	"riddle/sim/stage/ground"
	"riddle/sim/stage/machines"
	"riddle/sim/stage/returns"
	"riddle/sim/stage/shoe"
	"riddle/sim/stage/tank"
)

// Clone returns a second machine that stands as this one does at this moment
// and goes on by itself: given the same, it does the same, bit for bit. It has
// the room of a new machine.
func (m *Machine) Clone() *Machine {
	c, err := Build(m.kind, m.set, m.faults)
	if err != nil {
		panic(err) // the machine has been built with it
	}
	m.CopyTo(c)
	return c
}

// CopyTo makes another machine, or a zero one, stand as this one does. The
// other keeps the room that it has, so that copying into a machine that has
// held as much before allocates nothing; into a zero one it takes hardly more
// than its dots need.
func (m *Machine) CopyTo(to *Machine) {
	to.furnish(m.kind)
	to.set, to.crop, to.cond, to.tick = m.set, m.crop, m.cond, m.tick
	to.faults, to.bad = m.faults, m.bad
	to.state, to.tally, to.engine, to.work, to.nextID = m.state, m.tally, m.engine, m.work, m.nextID
	for i := range m.streams {
		m.streams[i].CopyTo(&to.streams[i])
	}
	m.feed.CopyTo(to.feed, to.streams[feedStream], &to.nextID)
	m.thresh.CopyInto(to.thresh, to.streams[threshStream], &to.nextID, &to.cond)
	m.straw.CopyInto(to.straw, to.streams[strawStream], &to.nextID)
	m.shoe.CopyTo(to.shoe, to.streams[shoeStream])
	m.returns.CopyTo(to.returns)
	m.tank.CopyTo(to.tank, to.streams[tankStream], &to.nextID)
	m.ground.CopyTo(to.ground)
	m.fed.CopyTo(&to.fed)
}

// furnish gives a zero machine, or one of another kind, stages to copy into.
func (m *Machine) furnish(kind *machines.Machine) {
	if m.kind == kind {
		return
	}
	m.kind = kind
	m.feed, m.thresh, m.straw, m.shoe = &feed.Stage{}, kind.Thresh.Empty(), kind.Separate.Empty(), &shoe.Stage{}
	m.returns, m.tank, m.ground = &returns.Stage{}, &tank.Stage{}, &ground.Stage{}
	m.rethresh = func(d flow.Dot) { m.thresh.Enter(d, &m.tally) }
}
