package shoe

import (
	"riddle/sim/num"
	"riddle/sim/setup"
	"riddle/sim/stage/flow"
	"riddle/sim/stage/section"
	"riddle/sim/trade/crop"
)

const (
	lying         = 0.004 // m over conveyors, pre-sieve and pan at which the lowest of what they carry has its middle. Chosen.
	conveyorLayer = 0.05  // m over which what lies on the conveyors is spread. Chosen.
	preLayer      = 0.03  // m, the same on the pre-sieve. Chosen.
	panLayer      = 0.01  // m, the same on the pan under it. Chosen.
	// headroom is how far a dot in flight keeps under the pan or sieve over it, and
	// fallUnder how far under a sieve's face what it lets through begins to fall, m.
	// Chosen.
	headroom, fallUnder = 0.02, 0.01
)

// convey carries grain and chaff on the conveyors to the front of the shoe and
// lets it fall over the step.
func (s *Stage) convey(set *setup.Setup, cond *crop.Condition, dt float32, t *flow.Tally) {
	ds := float32(conveyorSpeed*(1+float64(augerFall*s.pull.Fall()))) * dt
	if set.Stopped.Has(setup.ConveyorPart) {
		ds = 0
	}
	edge := s.floor.To
	kernel := float32(s.crop.KernelKg() / flow.Kernel)
	mass := float32(0)
	for i := 0; i < len(s.Conveyor.Dots); i++ {
		d := &s.Conveyor.Dots[i]
		d.X += ds
		d.Y = s.floor.At(d.X) + lying + float32(d.Level*conveyorLayer)
		mass += float32(float32(d.Mass)*flow.Microgram) + float32(float32(d.Grain)*kernel)
		if d.X < edge {
			continue
		}
		t.Shoe.Grain += int64(d.Grain)
		t.Shoe.MOG += int64(d.Mass)
		s.tip(d, cond)
		s.Conveyor.Move(i, &s.Falling)
		i--
	}
	s.conveyorLoad = mass / float32(s.crop.Plan.ConveyorFloor.Length()*s.crop.Slice/flow.MM)
}

// tip sends a dot over the end of the conveyors into the blast. Grain falls by
// itself; of MOG a share falls loose, the rest in clumps that the air cannot
// open.
func (s *Stage) tip(d *flow.Dot, cond *crop.Condition) {
	d.VX, d.VY = conveyorSpeed, 0
	d.Ride = flow.Airborne
	if d.Kind.IsMOG() {
		if s.rng.Happens(stepShare) {
			d.Vt = s.attitude(d.Kind, cond)
		} else {
			d.Ride = flow.InClump
		}
	}
}

// overStep lets what fell off the conveyors fly until it meets the pre-sieve
// or the upper sieve.
func (s *Stage) overStep(cond *crop.Condition, dt float32) {
	for i := 0; i < len(s.Falling.Dots); i++ {
		d := &s.Falling.Dots[i]
		if d.Ride == flow.InClump {
			vt := d.Vt
			d.Vt = clumpVt
			d.Fly(0, 0, dt, s.pull)
			d.Vt = vt
		} else {
			s.fly(d, dt)
		}
		over, down := s.beneath(d)
		switch {
		case over:
			if d.Kind.IsMOG() && d.Ride != flow.InClump {
				s.liftTick[0] += float64(float64(d.Mass) * flow.Microgram)
			}
			d.Ride, d.Level, d.Arrives = flow.Airborne, 0, true
			s.Falling.Move(i, &s.Upper)
			i--
		case down && s.crop.Plan.PreSieve == nil:
			d.Y, d.Ride, d.Level = s.panFace.At(d.X)+lying, flow.Carried, s.rng.Float()
			s.Falling.Move(i, &s.Collecting)
			i--
		case down:
			d.X = max(d.X, s.preFace.From)
			s.settle(d, cond)
			s.Falling.Move(i, &s.Pre)
			i--
		}
	}
}

// fly moves a dot by one step through the full blast at the shoe's front.
func (s *Stage) fly(d *flow.Dot, dt float32) {
	d.Fly(float32(s.Air.V[0]*blastCos), float32(s.Air.V[0]*blastSin), dt, s.pull)
}

// beneath holds a falling dot under the walkers' pan and sees whether it is
// past the pre-sieve, over the upper sieve, or down on the pre-sieve; where there
// is none, on the pan under it.
func (s *Stage) beneath(d *flow.Dot) (over, down bool) {
	if top := s.ceiling.At(d.X) - headroom; d.Y > top {
		d.Y, d.VY = top, min(d.VY, 0)
	}
	if s.crop.Plan.PreSieve == nil {
		over = d.X >= s.upperFace.From && d.Y > s.upperFace.At(d.X)-frontDrop
		return over, !over && d.Y <= s.panFace.At(d.X)+lying
	}
	over = d.X >= s.preFace.To
	return over, !over && d.Y <= s.preFace.At(max(d.X, s.preFace.From))+flow.Bed
}

// settle lets a dot come to rest in the layer: some of the grain lies at its
// bottom, the rest is held in the mat.
func (s *Stage) settle(d *flow.Dot, cond *crop.Condition) {
	d.Level, d.VX, d.VY = s.rng.Float(), 0, 0
	d.Ride = flow.InMat
	share := 0.0
	switch {
	case d.Kind == flow.Piece:
		share = settledPiece
	case d.Kind.IsKernel():
		share = settled
	}
	if share > 0 && s.rng.Happens(float32(share*cond.Damp)) {
		d.Ride, d.Level = flow.OnSieve, 0
		d.Since = s.period * s.rng.Float()
	}
}

// preRates returns the rates at which a pre-sieve open by o mm, of a length in m, takes MOG of each
// class, 1/m, and grain that lies on it, 1/m for each mm that the opening is
// wider than the kernel.
func preRates(o, length float64) (mog [3]float64, grain float64) {
	for j, share := range preMOG {
		mog[j] = share * num.Pow(o/section.PrePitch, preMOGPower) / length
	}
	return mog, preGrain / section.PrePitch / length
}

// preSieve carries the layer over the pre-sieve; what it lets through falls on
// the pan under the pre-sieve.
func (s *Stage) preSieve(set *setup.Setup, cond *crop.Condition, dt float32, t *flow.Tally) {
	sieve := s.crop.Plan.PreSieve
	if sieve == nil {
		return
	}
	o := set.Settings.PreSieve
	if set.Stopped.Has(setup.PreSievePart) {
		o = 0
	}
	end := s.preFace.To
	ds := float32(s.carry * dt)
	mogRate, grainRate := preRates(o, sieve.Length())
	var mog [3]float32
	for j, rate := range mogRate {
		mog[j] = float32(rate) * ds
	}
	grain := float32(grainRate) * ds
	for i := 0; i < len(s.Pre.Dots); i++ {
		d := &s.Pre.Dots[i]
		d.X += ds
		d.Y = s.preFace.At(d.X) + lying + float32(d.Level*preLayer)
		rate := float32(0)
		switch {
		case o == 0:
		case d.Kind.IsMOG():
			rate = mog[class(d.Kind)]
		case d.Ride == flow.OnSieve:
			rate = grain * max(float32(o)-d.Size, 0)
		}
		if rate > 0 && s.rng.HappensAt(rate) {
			t.Shoe.PreSieve += int64(d.Grain)
			if d.Kind.IsMOG() { // it falls as it happens to lie
				d.Vt = s.attitude(d.Kind, cond)
			}
			d.Ride, d.VX, d.VY = flow.Airborne, s.carry, 0
			d.Y = s.preFace.At(d.X) - fallUnder
			s.Pre.Move(i, &s.Collecting)
			i--
			continue
		}
		if d.X >= end {
			s.Pre.Move(i, &s.Upper)
			i--
		}
	}
}

// collect carries what fell on the pan under the pre-sieve to the lower sieve.
func (s *Stage) collect(dt float32) {
	end := s.panFace.To
	for i := 0; i < len(s.Collecting.Dots); i++ {
		d := &s.Collecting.Dots[i]
		if d.Ride == flow.Airborne {
			d.Fly(0, 0, dt, s.pull)
			if top := s.panFace.At(d.X) + lying; d.Y <= top {
				d.Y, d.Ride, d.Level = top, flow.Carried, s.rng.Float()
			}
		} else {
			d.X += float32(s.carry * dt)
			d.Y = s.panFace.At(d.X) + lying + float32(d.Level*panLayer)
		}
		if d.X >= end {
			s.offPan(d)
			s.Collecting.Move(i, &s.Between)
			i--
		}
	}
}

// offPan lets a dot go over the rear edge of the pan into the air between the
// sieves, which takes chaff along.
func (s *Stage) offPan(d *flow.Dot) {
	d.Ride, d.VX, d.VY = flow.Airborne, s.carry, 0
}
