package shoe

import (
	"riddle/sim/crop"
	"riddle/sim/flow"
	"riddle/sim/num"
	"riddle/sim/section"
	"riddle/sim/setup"
)

// fallBetween lets what passed the upper sieve, or left a pan, fall through
// the air between the sieves. It lands on the lower sieve, behind it in the
// returns trough, or is blown out.
func (s *Stage) fallBetween(set *setup.Setup, dt float32, out Outlets, t *flow.Tally) {
	front, rear := float32(section.LowerSieve.A.X), float32(section.LowerSieve.B.X)
	back := float32(section.ReturnsTrough[3].X)
	kernel := s.crop.KernelKg() / flow.Quarters
	for i := 0; i < len(s.Between.Dots); i++ {
		d := &s.Between.Dots[i]
		u := &s.upper[s.UpperMat.Cell(d.X)]
		v := float32(betweenAir * u.v)
		if d.X > rear {
			v *= 0.5 // the air spreads behind the sieves
		}
		d.Fly(float32(v*blastCos), float32(v*blastSin), dt)
		switch {
		case d.X >= back && d.Y > float32(section.ReturnsTrough[3].Y):
			s.blownOut(d, out, t)
			s.Between.Remove(i)
			i--
		case d.X > rear:
			if top := s.tail.At(d.X) - 0.02; d.Y > top && d.X > float32(section.TailPlate.A.X) {
				d.Y, d.VY = top, min(d.VY, 0)
			}
			if d.X > back {
				d.X, d.VX = back, 0
			}
			if d.Y <= s.troughs.At(d.X)+0.01 {
				s.toReturns(d, t)
				s.Between.Move(i, out.Returns)
				i--
			}
		case d.X < front:
			if top := s.panFace.At(d.X) + 0.004; d.Y <= top {
				d.Y, d.Ride = top, flow.Carried
				s.Between.Move(i, &s.Collecting)
				i--
			}
		default:
			ceiling := s.upperFace.At(d.X) - 0.02
			if d.Y > ceiling {
				d.Y, d.VY = ceiling, min(d.VY, 0)
			}
			if d.Y > s.lowerFace.At(d.X) {
				continue
			}
			s.grainTick += float64(float64(d.Grain) * kernel)
			s.mogTick += float64(float64(d.Mass) * 1e-9)
			s.landLower(d)
			s.Between.Move(i, &s.Lower)
			i--
		}
	}
}

func (s *Stage) landLower(d *flow.Dot) {
	d.VX, d.VY = 0, 0
	if d.Kind.IsMOG() {
		d.Ride, d.H = flow.InMat, s.rng.Float()
		return
	}
	d.Ride, d.H = flow.OnSieve, 0
	d.S = s.period * s.rng.Float()
}

// sieveLower moves everything on and over the lower sieve.
func (s *Stage) sieveLower(set *setup.Setup, cond *crop.Condition, dt float32, out Outlets, t *flow.Tally) {
	shake := float32(-section.ShakeAmplitude * num.Sin(s.Phase) * 0.5)
	front, rear := float32(section.LowerSieve.A.X), float32(section.LowerSieve.B.X)
	o := set.Settings.Lower
	if set.Stopped.Has(setup.LowerPart) {
		o = 0
	}
	grain := s.grainOn * s.side / s.rated
	mog := s.mogOn * s.side / s.crop.LowerLoad
	for i := 0; i < len(s.Lower.Dots); i++ {
		d := &s.Lower.Dots[i]
		l := &s.lower[min(max(int((d.X-front)*(lowerCells/section.LowerLength)), 0), lowerCells-1)]
		through := false
		switch {
		case d.Ride == flow.Airborne:
			s.flyLower(d, l, dt)
		case d.Kind.IsMOG():
			through = s.rideLower(d, l, cond, shake, dt)
		default:
			d.S += dt
			d.X += float32(s.carry * dt)
			d.Y = s.lowerFace.At(d.X) + shake
			if d.S < s.period {
				break
			}
			if s.rng.Happens(float32(PassLower(o, float64(d.Size), float64(l.vn), float64(d.Vt), grain, mog))) {
				through = true
				break
			}
			d.S = 0
			d.Ride, d.VX = flow.Airborne, s.carry
			d.VY = s.launch * s.rng.Between(1-throwSpread, 1+throwSpread)
		}
		if through {
			t.Shoe.Lower += int64(d.Grain)
			d.Ride, d.VX, d.VY = flow.Airborne, 0.1, 0
			d.Y = s.lowerFace.At(d.X) - 0.01
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

func (s *Stage) flyLower(d *flow.Dot, l *lowerCell, dt float32) {
	face := s.lowerFace.At(d.X)
	v := fade(d.Y-face) * l.v
	d.Fly(float32(v*blastCos), float32(v*blastSin), dt)
	d.S += dt
	if top := s.upperFace.At(d.X) - 0.02; d.Y > top {
		d.Y, d.VY = top, min(d.VY, 0)
	}
	if d.Y > face {
		return
	}
	d.Y = face
	if d.Kind.IsMOG() {
		d.Ride = flow.InMat
	} else {
		d.Ride = flow.OnSieve
	}
}

func (s *Stage) rideLower(d *flow.Dot, l *lowerCell, cond *crop.Condition, shake, dt float32) bool {
	k := class(d.Kind)
	ds := float32(s.carry * dt)
	d.X += ds
	d.Y = s.lowerFace.At(d.X) + shake + float32(d.H*0.006)
	r := s.rng.Float()
	lift := float32(l.lift[k] * ds)
	if r < lift {
		cl := s.classes()[k]
		d.Vt = broadside * max(0.4, s.rng.NormalBelow(cl.Vt*cond.MOG, cl.Spread, l.veq))
		d.Ride, d.VX, d.VY, d.S = flow.Airborne, s.carry, 0.3, 0
		return false
	}
	return r < lift+float32(l.drop[k]*ds)
}

// blownOut lets a dot leave behind the sieves, over the back of the returns.
func (s *Stage) blownOut(d *flow.Dot, out Outlets, t *flow.Tally) {
	t.Shoe.MOGOver += int64(d.Mass)
	if d.Grain > 0 {
		d.Cause = flow.Blown
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
		d.Fly(0, 0, dt)
		if d.Y <= s.troughs.At(d.X)+0.01 {
			d.Ride, d.VX, d.VY = flow.Carried, 0, 0
			s.Dropping.Move(i, out.Grain)
			i--
		}
	}
}
