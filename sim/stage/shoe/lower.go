package shoe

import (
	"riddle/sim/num"
	"riddle/sim/setup"
	"riddle/sim/stage/flow"
	"riddle/sim/stage/section"
	"riddle/sim/trade/crop"
)

// fallBetween lets what passed the upper sieve, or left a pan, fall through
// the air between the sieves. It lands on the lower sieve, behind it in the
// returns trough, or is blown out.
func (s *Stage) fallBetween(set *setup.Setup, dt float32, out Outlets, t *flow.Tally) {
	kernel := s.crop.KernelKg() / flow.Kernel
	for i := 0; i < len(s.Between.Dots); i++ {
		d := &s.Between.Dots[i]
		switch s.glideBetween(d, dt) {
		case flying:
			continue
		case overBack:
			s.leave(d, flow.Blown, out, t)
			s.Between.Remove(i)
		case onGround:
			s.leave(d, flow.Ridden, out, t)
			s.Between.Remove(i)
		case inTrough:
			s.toReturns(d, t)
			s.Between.Move(i, out.Returns)
		case onPan:
			d.Ride = flow.Carried
			s.Between.Move(i, &s.Collecting)
		case onLower:
			s.grainTick += float64(float64(d.Grain) * kernel)
			s.mogTick += float64(float64(d.Mass) * flow.Microgram)
			s.landLower(d)
			s.Between.Move(i, &s.Lower)
		}
		i--
	}
}

// landing is where a fall between the sieves ends.
type landing uint8

const (
	flying   landing = iota
	onLower          // on the lower sieve
	onPan            // on the pan under the pre-sieve
	inTrough         // in the returns trough
	overBack         // over the back of the returns, out of the machine
	onGround         // down behind the lower sieve of a machine that has no returns
)

// glideBetween moves a dot below the upper sieve by one step of the air.
func (s *Stage) glideBetween(d *flow.Dot, dt float32) landing {
	front, rear := s.lowerFace.From, s.lowerFace.To
	v := float32(betweenAir * s.upper[s.UpperMat.Cell(d.X)].v)
	if d.X > rear {
		v *= behindAir // the air spreads behind the sieves
	}
	d.Fly(float32(v*blastCos), float32(v*blastSin), dt, s.pull)
	switch {
	case s.crop.Plan.Returns != nil && d.X >= s.back.From && d.Y > s.back.At(d.X):
		return overBack
	case d.X > rear:
		roof := &s.upperFace
		if d.X > s.tail.From {
			roof = &s.tail
		}
		if top := roof.At(d.X) - headroom; d.Y > top {
			d.Y, d.VY = top, min(d.VY, 0)
		}
		if s.crop.Plan.Returns == nil {
			if d.Y <= s.back.At(d.X) {
				return onGround
			}
			return flying
		}
		if d.X > s.back.From {
			d.X, d.VX = s.back.From, 0
		}
		if d.Y <= s.troughs.At(d.X)+flow.Bed {
			return inTrough
		}
	case d.X < front:
		if top := s.panFace.At(d.X) + lying; d.Y <= top {
			d.Y = top
			return onPan
		}
	default:
		if ceiling := s.upperFace.At(d.X) - headroom; d.Y > ceiling {
			d.Y, d.VY = ceiling, min(d.VY, 0)
		}
		if d.Y <= s.lowerFace.At(d.X) {
			return onLower
		}
	}
	return flying
}

// behindAir is the blast behind the lower sieve over that between the sieves.
// Calibrated.
const behindAir = 0.5

// lowerAt returns the stretch of the lower sieve at x.
func (s *Stage) lowerAt(x float32) *lowerCell {
	i := int((x - s.lowerFace.From) * float32(lowerCells/s.crop.Plan.LowerLength))
	return &s.lower[min(max(i, 0), lowerCells-1)]
}

func (s *Stage) landLower(d *flow.Dot) {
	d.VX, d.VY = 0, 0
	if d.Kind.IsMOG() {
		d.Ride, d.Level = flow.InMat, s.rng.Float()
		return
	}
	d.Ride, d.Level = flow.OnSieve, 0
	d.Since = s.period * s.rng.Float()
}

// sieveLower moves everything on and over the lower sieve.
func (s *Stage) sieveLower(set *setup.Setup, cond *crop.Condition, dt float32, out Outlets, t *flow.Tally) {
	shake := float32(-section.ShakeAmplitude * num.Sin(s.Phase) * 0.5)
	rear := s.lowerFace.To
	o := set.Settings.Lower
	if set.Stopped.Has(setup.LowerPart) {
		o = 0
	}
	grain := s.grainOn * s.side / s.rated
	mog := s.mogOn * s.side / s.crop.LowerLoad
	for i := 0; i < len(s.Lower.Dots); i++ {
		d := &s.Lower.Dots[i]
		l := s.lowerAt(d.X)
		through := false
		switch {
		case d.Ride == flow.Airborne:
			s.flyLower(d, l, dt)
		case d.Kind.IsMOG():
			through = s.rideLower(d, l, cond, shake, dt)
		default:
			d.Since += dt
			d.X += float32(s.carry * dt)
			d.Y = s.lowerFace.At(d.X) + shake
			if d.Since < s.period {
				break
			}
			if s.rng.Happens(float32(PassLower(o, float64(d.Size), float64(l.vn), float64(d.Vt), grain, mog))) {
				through = true
				break
			}
			d.Since = s.again(d.Since)
			d.Y = s.lowerFace.At(d.X)
			d.Ride, d.VX = flow.Airborne, s.carry
			d.VY = s.launch * s.rng.Between(1-throwSpread, 1+throwSpread)
		}
		if through {
			t.Shoe.Lower += int64(d.Grain)
			d.Ride, d.VX, d.VY = flow.Airborne, fallOn, 0
			d.Y = s.lowerFace.At(d.X) - fallUnder
			s.Lower.Move(i, &s.Dropping)
			i--
		} else if d.X >= rear {
			if d.Ride != flow.Airborne {
				d.VX, d.VY = s.carry, 0
			}
			d.Ride = flow.Airborne
			s.Lower.Move(i, &s.Between)
			i--
		}
	}
}

// fallOn is the speed to the rear with which what passed the lower sieve begins
// to fall, m/s. Chosen.
const fallOn = 0.1

func (s *Stage) flyLower(d *flow.Dot, l *lowerCell, dt float32) {
	if !s.glideLower(d, l, dt) {
		return
	}
	if d.Kind.IsMOG() {
		d.Ride = flow.InMat
	} else {
		d.Ride = flow.OnSieve
	}
}

// glideLower moves a dot over the lower sieve by one step of the air. It
// reports whether it came down.
func (s *Stage) glideLower(d *flow.Dot, l *lowerCell, dt float32) bool {
	face := s.lowerFace.At(d.X)
	v := fade(d.Y-face) * l.v
	d.Fly(float32(v*blastCos), float32(v*blastSin), dt, s.pull)
	d.Since += dt
	if top := s.upperFace.At(d.X) - headroom; d.Y > top {
		d.Y, d.VY = top, min(d.VY, 0)
	}
	if d.Y > face {
		return false
	}
	d.Y = face
	return true
}

// lowerLayer is the depth over which MOG on the lower sieve is spread, m. Chosen.
const lowerLayer = 0.006

func (s *Stage) rideLower(d *flow.Dot, l *lowerCell, cond *crop.Condition, shake, dt float32) bool {
	k := class(d.Kind)
	ds := float32(s.carry * dt)
	d.X += ds
	d.Y = s.lowerFace.At(d.X) + shake + float32(d.Level*lowerLayer)
	r := s.rng.Float()
	lift := float32(l.lift[k] * ds)
	if r < lift {
		cl := s.classes()[k]
		d.Vt = broadside * max(leastVt, s.rng.NormalBelow(cl.Vt*cond.MOG, cl.Spread, l.veq))
		d.Y = s.lowerFace.At(d.X)
		d.Ride, d.VX, d.VY, d.Since = flow.Airborne, s.carry, liftSpeed, 0
		return false
	}
	return r < lift+float32(l.drop[k]*ds)
}

// leave lets a dot go out behind the sieves: blown over the back of the returns, or,
// where there are none, off the rear of the lower sieve.
func (s *Stage) leave(d *flow.Dot, cause flow.Cause, out Outlets, t *flow.Tally) {
	t.Shoe.MOGOver += int64(d.Mass)
	if d.Grain > 0 {
		d.Cause = cause
		if d.Kind == flow.Piece {
			d.Cause = flow.Unthreshed
			t.Unthreshed.Shoe += int64(d.Grain)
		}
		t.Lost[d.Cause] += int64(d.Grain)
	}
	out.Lost.Add(*d)
}

// toReturns counts what falls into the returns trough.
func (s *Stage) toReturns(d *flow.Dot, t *flow.Tally) {
	if d.Kind == flow.Piece {
		t.Returns.Unthreshed += int64(d.Grain)
	} else {
		t.Returns.Free += int64(d.Grain)
	}
	t.Returns.MOG += int64(d.Mass)
	d.Ride, d.VX, d.VY = flow.Carried, 0, 0
}

// dropGrain lets what passed the lower sieve fall into the clean grain trough.
func (s *Stage) dropGrain(dt float32, out Outlets, t *flow.Tally) {
	for i := 0; i < len(s.Dropping.Dots); i++ {
		d := &s.Dropping.Dots[i]
		d.Fly(0, 0, dt, s.pull)
		if d.Y <= s.troughs.At(d.X)+flow.Bed {
			d.Ride, d.VX, d.VY = flow.Carried, 0, 0
			s.Dropping.Move(i, out.Grain)
			i--
		}
	}
}
