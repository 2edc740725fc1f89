// Package returns brings what rode over the lower sieve back to the cylinder:
// trough, auger and paddle elevator, with a delay and a capacity.
package returns

import (
	"math"

	"riddle/sim/setup"
	"riddle/sim/stage/design"
	"riddle/sim/stage/flow"
	"riddle/sim/stage/section"
)

const (
	// speed of auger and elevator, m/s: with it the way to the cylinder takes
	// about 3.5 s. Calibrated.
	speed = 1.45
	// Capacity is the most that the elevator lifts, kg/s over the whole machine.
	// Calibrated.
	Capacity = 3.0
	// troughHolds is what trough and auger hold before they are full, kg over the
	// whole machine. Calibrated: two seconds of the elevator's capacity.
	troughHolds = 6.0
	troughSpeed = 0.6 // of the slide into the auger, m/s. Calibrated.
	// burst is how many ticks' capacity the elevator makes up for when more comes.
	// Chosen.
	burst = 20
	// paddleWide of the elevator and troughDeep of its trough when full, m, over
	// which the load is drawn. Geometry.
	paddleWide, troughDeep = 0.10, 0.15
)

// Stage is the returns.
type Stage struct {
	Trough, Returning flow.Swarm
	Held              float64 // in the trough, kg over the whole machine

	crop   *design.Fit
	path   *flow.Path
	bowl   flow.Bowl
	budget float64 // that the elevator may still take, kg in the slice
}

// New returns empty returns. In a machine that has none nothing comes to them.
func New(c *design.Fit) *Stage {
	s := &Stage{Trough: flow.NewSwarm(16384), Returning: flow.NewSwarm(16384), crop: c}
	if r := c.Plan.Returns; r != nil {
		s.bowl, s.path = flow.NewBowl(r.Trough), flow.NewPath(r.Path...)
	}
	return s
}

// Full reports whether trough and auger hold all they can.
func (s *Stage) Full() bool { return s.Held > troughHolds }

// Step carries for dt seconds and delivers what arrives at the cylinder.
func (s *Stage) Step(set *setup.Setup, dt float32, t *flow.Tally, deliver func(flow.Dot)) {
	if s.path == nil {
		return
	}
	ds := float32(speed * dt)
	scale := section.InnerWidth / (s.crop.Slice / flow.MM)
	step := Capacity / scale * float64(dt)
	if set.Stopped.Has(setup.ReturnsPart) {
		ds, step = 0, 0
	}
	s.slide(dt, step, scale)
	for i := 0; i < len(s.Returning.Dots); i++ {
		d := &s.Returning.Dots[i]
		d.Along += ds
		if d.Along < s.path.Length {
			s.path.Place(d, float32((d.Level-0.5)*paddleWide))
			continue
		}
		d.Rounds = min(d.Rounds, math.MaxUint8-1) + 1
		t.Returns.Back += int64(d.Grain)
		deliver(*d)
		s.Returning.Remove(i)
		i--
	}
}

// slide moves the load of the trough to its auger and lets the elevator take
// what it can: step kg in this tick.
func (s *Stage) slide(dt float32, step, scale float64) {
	kernel := s.crop.KernelKg() / flow.Kernel
	s.budget = min(s.budget+step, burst*step)
	r := s.crop.Plan.Returns
	auger := float32(r.Auger.Centre.X)
	rim := float32(r.Trough[len(r.Trough)-1].Y) // over it nothing lies
	move := float32(troughSpeed * dt)
	held := 0.0
	for i := 0; i < len(s.Trough.Dots); i++ {
		d := &s.Trough.Dots[i]
		kg := float64(float64(d.Mass)*flow.Microgram) + float64(float64(d.Grain)*kernel)
		near := d.X-auger < move && auger-d.X < move
		if near && s.budget >= kg {
			s.budget -= kg
			d.Along, d.Ride = 0, flow.Carried
			s.Trough.Move(i, &s.Returning)
			i--
			continue
		}
		held += kg
		switch {
		case near:
		case d.X < auger:
			d.X += move
		default:
			d.X -= move
		}
		d.Y = s.bowl.At(d.X) + flow.Bed
		d.Y = min(d.Y+float32(d.Level*float32(min(s.Held/troughHolds, 1))*troughDeep), max(d.Y, rim))
	}
	s.Held = held * scale
}
