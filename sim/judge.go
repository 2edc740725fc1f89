package sim

import (
	"riddle/sim/stage/engine"
	"riddle/sim/stage/flow"
)

const (
	// slowAt is the share of its set speed below which the cylinder is seen to
	// slow down, by its belt or by the engine, and slowKW the power from which it
	// is close to: 0.85 of what its belt passes. Calibrated.
	slowAt, slowKW = 0.92, 78.0
	// DriveKW is what the cylinder's belt passes at most, kW.
	DriveKW = slowKW / 0.85
	// LimitKW is what the engine has at full load, kW, and loaded the share of it
	// from which the machine is close to that. Chosen.
	LimitKW = engine.Limit
	loaded  = 0.95
)

// Plug is a way in which the machine can plug: the system, and why.
type Plug struct{ Where, Why string }

// Plugs lists every way in which the machine can plug.
var Plugs = [...]Plug{
	{"cylinder", "More crop reached the cylinder than its drive could pull through: the belt slipped, and the cylinder slowed and stalled."},
	{"walkers", "The straw mat on the walkers filled the hood: straw could no longer get out the back."},
	{"beater", "Straw was not stripped off the cylinder: the outlet under the beater filled up."},
	{"returns", "More came off the sieves than the returns elevator can lift: its trough and auger filled up."},
	{"conveyors", "Grain and chaff were not carried to the shoe: the conveyors under the concave filled up."},
	{"feeder", "Crop was not pulled in: the throat of the feeder house filled up."},
	{"tank", "The grain tank is full: unload it before going on."},
	{"clean grain elevator", "Clean grain was not taken up: its trough and auger filled up."},
	{"engine", "All drives together needed more power than the engine has: it was pulled down until it stalled."},
}

// Places in Plugs.
const (
	CylinderPlug = iota
	WalkerPlug
	BeaterPlug
	ReturnsPlug
	ConveyorPlug
	FeederPlug
	TankPlug
	ElevatorPlug
	EnginePlug
)

// judge sees whether the machine runs, slows down or has plugged.
func (m *Machine) judge() {
	m.state.Condition = Running
	drive := m.thresh.State(&m.set).Drive
	if Slow(drive.X*m.engine.X, &m.work.took) {
		m.state.Condition = Slowing
	}
	hood, outlet := m.straw.Full()
	switch {
	case drive.Stalled():
		m.plug(CylinderPlug)
	case hood:
		m.plug(WalkerPlug)
	case outlet:
		m.plug(BeaterPlug)
	case m.returns.Full():
		m.plug(ReturnsPlug)
	case m.shoe.Full():
		m.plug(ConveyorPlug)
	case m.feed.Full():
		m.plug(FeederPlug)
	case m.tank.Share(&m.tally) >= 1:
		m.plug(TankPlug)
	case m.tank.Blocked():
		m.plug(ElevatorPlug)
	case m.engine.Stalled():
		m.plug(EnginePlug)
	}
}

func (m *Machine) plug(way int) {
	m.state = State{Condition: Plugged, At: m.Seconds(), Where: Plugs[way].Where, Why: Plugs[way].Why}
}

// Slow reports whether a cylinder at a share of its set speed, or parts that take
// so much, are close to what the machine can pull.
func Slow(share float64, took *flow.Power) bool {
	return share < slowAt || took.Cylinder > slowKW || took.Total() > loaded*LimitKW
}
