// Package machines holds the machines that there are: each a plan, the room that
// threshes and the room that parts grain from straw. Whoever steps, forecasts or
// draws a machine knows these two by the faces below and by nothing else.
package machines

import (
	"riddle/sim/setup"
	"riddle/sim/stage/design"
	"riddle/sim/stage/fault"
	"riddle/sim/stage/flow"
	"riddle/sim/stage/straw"
	"riddle/sim/stage/thresh"
	"riddle/sim/trade/crop"
)

// Machine is one machine as a value.
type Machine struct {
	Plan     *design.Plan
	Thresh   Threshing
	Separate Separation
}

// Threshing is how a machine threshes: the room that does it step by step, and
// what the room's laws come to in the mean.
type Threshing struct {
	New    func(c *design.Fit, rng flow.Stream, nextID *uint32) Thresher
	Empty  func() Thresher // to copy into
	Expect func(c *design.Fit, set *setup.Setup, cond *crop.Condition, engine, feed float64, grate *fault.Grate) thresh.Expected
	Steady func(c *design.Fit, set *setup.Setup, cond *crop.Condition, engine, feed float64, grate *fault.Grate) thresh.Drive
}

// Thresher opens heads and lets what falls through go to the conveyors, the rest
// over to the separator.
type Thresher interface {
	SetFaults(grate fault.Grate) // has wires closed
	Enter(d flow.Dot, t *flow.Tally)
	Step(set *setup.Setup, cond *crop.Condition, engine float64, dt float32, conveyor, over *flow.Swarm, t *flow.Tally)
	CopyInto(to any, rng flow.Stream, nextID *uint32, cond *crop.Condition)
	Rooms() thresh.Rooms
	State(set *setup.Setup) thresh.State
}

// Separation is how a machine separates grain from straw, as Threshing is how it
// threshes.
type Separation struct {
	New    func(c *design.Fit, rng flow.Stream, nextID *uint32) Separator
	Empty  func() Separator // to copy into
	Expect func(c *design.Fit, set *setup.Setup, cond *crop.Condition, phi, engine float64, pace fault.Extra, in straw.Load) straw.Expected
}

// Separator takes what the thresher sends over, lets grain and chaff fall onto the
// conveyors, and the straw leave.
type Separator interface {
	SetFaults(pace fault.Extra) // has it turn faster than the machine, or slower
	Step(set *setup.Setup, cond *crop.Condition, phi, engine float64, dt float32, conveyor, lost *flow.Swarm, t *flow.Tally)
	CopyInto(to any, rng flow.Stream, nextID *uint32)
	Rooms() straw.Rooms
	Full() (hood, outlet bool)
	Turned() straw.Angles
	Bed() *flow.Mat         // straw on its way to the rear
	Thick(cell int) float32 // of it, m
}

// Walkers is the machine with a cylinder and straw walkers.
var Walkers = &Machine{Plan: design.WithWalkers, Thresh: Cylinder, Separate: StrawWalkers}

// Cylinder threshes with a cylinder over its concave.
var Cylinder = Threshing{
	New: func(c *design.Fit, rng flow.Stream, nextID *uint32) Thresher { return thresh.New(c, rng, nextID) }, Empty: func() Thresher { return &thresh.Stage{} },
	Expect: thresh.Expect, Steady: thresh.SteadyDrive,
}

// StrawWalkers separates on straw walkers.
var StrawWalkers = Separation{
	New: func(c *design.Fit, rng flow.Stream, nextID *uint32) Separator { return straw.New(c, rng, nextID) }, Empty: func() Separator { return &straw.Stage{} },
	Expect: straw.Expect,
}

// In returns the machine as it meets a crop. One that it is not calibrated for is
// an error, and so is a plan that cannot be built.
func (m *Machine) In(name string) (*design.Fit, error) {
	if err := m.Plan.Check(); err != nil {
		return nil, err
	}
	if c := crop.Find(name); c != nil {
		if fit := m.Plan.In(c); fit != nil {
			return fit, nil
		}
	}
	return nil, &setup.Error{Field: "crop", Value: name, Want: "a crop that the machine \"" + m.Plan.Name + "\" is calibrated for"}
}
