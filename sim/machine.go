// Package sim is the whole machine: crop in at the header, grain in the tank,
// straw and chaff behind, and every kernel accounted for.
package sim

import (
	"riddle/sim/setup"
	"riddle/sim/stage/design"
	"riddle/sim/stage/engine"
	"riddle/sim/stage/fault"
	"riddle/sim/stage/feed"
	"riddle/sim/stage/flow"
	"riddle/sim/stage/ground"
	"riddle/sim/stage/machines"
	"riddle/sim/stage/returns"
	"riddle/sim/stage/shoe"
	"riddle/sim/stage/tank"
	"riddle/sim/trade/crop"
)

// TickHz is the number of steps a second of simulated time.
const TickHz = flow.TickHz

// tick is the length of a step, s.
const tick = float32(flow.Tick)

// Model is the version of the laws; a report or a result made under another
// version cannot be compared bit for bit.
const Model = "riddle-laws/5"

// Machine is one machine in one field. It is not safe for concurrent use.
type Machine struct {
	set   setup.Setup
	crop  *design.Fit
	kind  *machines.Machine
	next  setup.Setup // under trial, so that Adjust makes nothing
	cond  crop.Condition
	tick  int64
	state State
	tally flow.Tally

	faults fault.Set
	bad    fault.State // that they leave the parts in

	engine  engine.Engine
	work    work
	feed    *feed.Stage
	thresh  machines.Thresher
	straw   machines.Separator
	shoe    *shoe.Stage
	returns *returns.Stage
	tank    *tank.Stage
	ground  *ground.Stage

	streams  [streamCount]flow.Stream
	fed      flow.Swarm // from feeder to cylinder, within a step
	nextID   uint32
	rethresh func(flow.Dot)
}

// Each stage has its own stream of random numbers.
const (
	feedStream = iota
	threshStream
	strawStream
	shoeStream
	tankStream
	streamCount
)

// New builds the machine with straw walkers, which stands empty at the edge of the
// field.
func New(s setup.Setup) (*Machine, error) { return NewWith(s, fault.Set{}) }

// NewWith builds the machine with straw walkers and faults. Parts that the setup
// stops count as faults too.
func NewWith(s setup.Setup, faults fault.Set) (*Machine, error) {
	return Build(machines.Walkers, s, faults)
}

// Build builds a machine of any kind, with faults.
func Build(kind *machines.Machine, s setup.Setup, faults fault.Set) (*Machine, error) {
	if err := s.Validate(); err != nil {
		return nil, err
	}
	c, err := kind.In(s.Crop)
	if err != nil {
		return nil, err
	}
	m := &Machine{kind: kind, crop: c, fed: flow.NewSwarm(4096), engine: engine.New(), ground: ground.New(c.Plan)}
	for i := range m.streams {
		m.streams[i] = flow.NewStream(s.Seed, uint64(i))
	}
	m.feed = feed.New(c, m.streams[feedStream], &m.nextID)
	m.thresh = kind.Thresh.New(c, m.streams[threshStream], &m.nextID)
	m.straw = kind.Separate.New(c, m.streams[strawStream], &m.nextID)
	m.shoe = shoe.New(c, m.streams[shoeStream])
	m.returns = returns.New(c)
	m.tank = tank.New(c, m.streams[tankStream], &m.nextID)
	m.rethresh = func(d flow.Dot) { m.thresh.Enter(d, &m.tally) }
	m.setFaults(faults.And(fault.OfParts(s.Stopped)))
	m.take(s)
	return m, nil
}

// Adjust changes settings and conditions from the next step on. Crop and seed
// stay as they are; on an error nothing changes.
func (m *Machine) Adjust(s setup.Setup) error {
	m.next = s
	m.next.Crop, m.next.Seed = m.set.Crop, m.set.Seed
	if err := m.next.Validate(); err != nil {
		return err
	}
	m.take(m.next)
	return nil
}

// setFaults puts the faults into the parts.
func (m *Machine) setFaults(faults fault.Set) {
	m.faults, m.bad = faults, faults.State()
	m.thresh.SetFaults(m.bad.Grate)
	m.straw.SetFaults(m.bad.Walkers)
}

func (m *Machine) take(s setup.Setup) {
	m.set = s
	m.set.Stopped |= m.bad.Stopped
	c := &m.set.Conditions
	m.cond = m.crop.In(c.GrainMoisture, c.StrawMoisture, c.GreenWeeds, c.LightGrain)
}

// Setup returns what the machine is set to, without its faults.
func (m *Machine) Setup() setup.Setup {
	s := m.set
	s.Stopped &^= m.bad.Stopped
	return s
}

// Faults returns what is wrong with the machine.
func (m *Machine) Faults() fault.Set { return m.faults }

// Step advances the machine by one tick, in the order in which the crop meets
// it. A plugged machine stands still.
func (m *Machine) Step() {
	if m.state.Condition == Plugged {
		return
	}
	m.tick++
	lost, t := &m.ground.Lost, &m.tally

	m.feed.Step(&m.set, &m.cond, tick, &m.fed, lost, t)
	m.enterCylinder()
	m.thresh.Step(&m.set, &m.cond, m.engine.X, tick, &m.shoe.Conveyor, m.straw.Rooms().Plate, t)
	m.straw.Step(&m.set, &m.cond, m.thresh.State(&m.set).Through, m.engine.X, tick, &m.shoe.Conveyor, lost, t)
	m.shoe.Clean(&m.set, &m.cond, m.engine.X, tick, shoe.Outlets{Grain: &m.tank.Lifting, Returns: &m.returns.Trough, Lost: lost}, t)
	m.returns.Step(&m.set, tick, t, m.rethresh)
	m.tank.Step(&m.set, tick, t)
	m.ground.Step(float32(m.set.Settings.GroundSpeed/3.6), tick, flow.PullOn(m.set.Conditions.ForeSlope))
	m.drive()

	m.judge()
}

func (m *Machine) enterCylinder() {
	for _, d := range m.fed.Dots {
		m.thresh.Enter(d, &m.tally)
	}
	m.fed.Dots = m.fed.Dots[:0]
}

// Tick returns the number of steps that the machine has made.
func (m *Machine) Tick() int64 { return m.tick }

// Seconds returns the simulated time since the first tick.
func (m *Machine) Seconds() float64 { return float64(m.tick) / TickHz }

// Travelled returns how far the cutter bar has come since the first tick, m.
func (m *Machine) Travelled() float64 { return m.feed.Ground }

// State returns how the machine is doing.
func (m *Machine) State() State { return m.state }

// Tally returns what has passed each gate since the first tick.
func (m *Machine) Tally() flow.Tally { return m.tally }

// Crop returns the crop that the machine works in.
func (m *Machine) Crop() *crop.Crop { return m.crop.Crop }
