package shoe

import (
	"riddle/sim/num"
	"riddle/sim/setup"
	"riddle/sim/stage/flow"
	"riddle/sim/stage/section"
	"riddle/sim/trade/crop"
)

// fades is e^(−height/airHeight) in steps of fadeStep, so that no exponential
// is taken a dot.
var fades = func() (f [128]float32) {
	for i := range f {
		f[i] = float32(num.Exp(-float64(i) * fadeStep / airHeight))
	}
	return f
}()

const fadeStep = 0.02 // m between the values kept. Chosen.

// fade returns how much of the blast is left at a height over a sieve, m.
func fade(height float32) float32 {
	return fades[min(max(int(height*(1/fadeStep)), 0), len(fades)-1)]
}

// sieveUpper moves everything on and over the upper sieve.
func (s *Stage) sieveUpper(set *setup.Setup, cond *crop.Condition, dt float32, out Outlets, t *flow.Tally) {
	mats := [3]float32{float32(s.crop.Chaff.Mat) * flow.Microgram, float32(s.crop.Short.Mat) * flow.Microgram, float32(s.crop.Weed.Mat) * flow.Microgram}
	vts := [3]float32{float32(s.crop.Chaff.Vt * cond.MOG), float32(s.crop.Short.Vt * cond.MOG), float32(s.crop.Weed.Vt * cond.MOG)}
	shake := float32(section.ShakeAmplitude * num.Sin(s.Phase) * 0.5)
	for i := 0; i < len(s.Upper.Dots); i++ {
		d := &s.Upper.Dots[i]
		cell := s.UpperMat.Cell(d.X)
		u := &s.upper[cell]
		gone := false
		switch {
		case d.Ride == flow.Airborne:
			s.flyUpper(d, u, cond, dt)
		case d.Kind.IsMOG():
			k := class(d.Kind)
			s.UpperMat.Lay(cell, float32(d.Mass)*mats[k], vts[k])
			gone = s.rideMOG(d, cell, k, cond, shake, dt)
		case d.Ride == flow.InMat:
			s.rideGrain(d, u, cond, shake, dt)
		default:
			gone = s.touchUpper(d, u, shake, dt)
		}
		if gone {
			s.tallyUpper(d, t)
			d.Ride, d.VX, d.VY = flow.Airborne, s.carry, 0
			d.Y = s.upperFace.At(d.X) - fallUnder
			s.Upper.Move(i, &s.Between)
			i--
		} else if d.X >= s.upperFace.To {
			s.overRear(d, u, out, t)
			s.Upper.Remove(i)
			i--
		}
	}
}

// flyUpper moves a dot through the air over the upper sieve until it lands.
func (s *Stage) flyUpper(d *flow.Dot, u *upperCell, cond *crop.Condition, dt float32) {
	if !s.glideUpper(d, u, dt) {
		return
	}
	if d.Arrives || d.Kind.IsMOG() {
		s.settle(d, cond)
	} else {
		d.Ride = flow.OnSieve
	}
	d.Arrives = false
}

// glideUpper moves a dot over the upper sieve by one step of the air. It
// reports whether it came down.
func (s *Stage) glideUpper(d *flow.Dot, u *upperCell, dt float32) bool {
	face := s.upperFace.At(d.X)
	f := fade(d.Y-face) * u.over
	d.Fly(float32(f*blastCos), float32(f*blastSin), dt, s.pull)
	d.Since += dt
	if top := s.ceiling.At(d.X) - headroom; d.Y > top {
		d.Y, d.VY = top, min(d.VY, 0)
	}
	if d.Kind.IsMOG() {
		face += u.deep
	}
	if d.Y > face || d.X < s.upperFace.From && d.Y > face-frontDrop {
		return false
	}
	d.Y = face
	return true
}

// frontDrop is how far under the line of the sieve's face a dot that comes down
// before its front falls until it is taken to have landed, m. Chosen.
const frontDrop = 0.05

// rideMOG carries MOG with the mat. It reports whether it fell through.
func (s *Stage) rideMOG(d *flow.Dot, cell, k int, cond *crop.Condition, shake, dt float32) bool {
	u := &s.upper[cell]
	ds := float32(u.speed * dt)
	d.X += ds
	d.Y = s.upperFace.At(d.X) + shake + float32(d.Level*u.deep)
	r := s.rng.Float()
	lift := float32(u.lift[k] * ds)
	if r < lift {
		cl := s.classes()[k]
		d.Vt = broadside * max(leastVt, s.rng.NormalBelow(cl.Vt*cond.MOG, cl.Spread, u.veq))
		s.liftTick[cell*paths/upperCells] += float64(float64(d.Mass) * flow.Microgram)
		s.leaveMat(d, u)
		return false
	}
	if r < lift+float32(u.drop[k]*ds) {
		d.Vt = s.attitude(d.Kind, cond)
		return true
	}
	return false
}

// leaveMat lets the air take a dot off the top of the mat.
func (s *Stage) leaveMat(d *flow.Dot, u *upperCell) {
	d.Y = s.upperFace.At(d.X) + u.deep
	d.Ride, d.VX, d.VY, d.Since = flow.Airborne, u.speed, liftSpeed, 0
}

// rideGrain carries a kernel or piece that the mat holds: it may sink to the
// sieve, or be lifted where the air is stronger than it is heavy.
func (s *Stage) rideGrain(d *flow.Dot, u *upperCell, cond *crop.Condition, shake, dt float32) {
	ds := float32(u.speed * dt)
	d.X += ds
	d.Y = s.upperFace.At(d.X) + shake + float32(d.Level*u.deep)
	ratio := u.veq / d.Vt
	hold := 1 - float32(ratio*ratio)
	if hold <= 0 {
		if s.rng.HappensAt(liftRate * ds) {
			s.leaveMat(d, u)
		}
		return
	}
	if s.rng.HappensAt(u.sink * hold * dt / u.thick) {
		d.Ride, d.Level = flow.OnSieve, 0
		d.Since = s.period * s.rng.Float()
	}
}

// touchUpper is a kernel or piece on the sieve's face: once a period of the
// shaking it meets the opening, and passes or is thrown on.
func (s *Stage) touchUpper(d *flow.Dot, u *upperCell, shake, dt float32) bool {
	d.Since += dt
	d.X += float32(s.carry * dt)
	d.Y = s.upperFace.At(d.X) + shake
	if d.Since < s.period {
		return false
	}
	if s.rng.Happens(float32(PassUpper(float64(u.open), float64(d.Size), float64(u.vn), float64(d.Vt), float64(u.load)))) {
		return true
	}
	d.Since = s.again(d.Since)
	d.Y = s.upperFace.At(d.X)
	d.Ride, d.VX = flow.Airborne, s.carry
	d.VY = s.launch * s.rng.Between(1-throwSpread, 1+throwSpread)
	return false
}

// again returns the time since its last contact of a dot that meets an opening
// so long after the one before: what is over a period counts for the next.
func (s *Stage) again(since float32) float32 {
	if over := since - s.period; over < s.period {
		return over
	}
	return 0
}

func (s *Stage) tallyUpper(d *flow.Dot, t *flow.Tally) {
	if d.X > float32(s.crop.Plan.UpperSieve.A.X+s.crop.Plan.UpperTail) {
		t.Shoe.Tail += int64(d.Grain)
	} else {
		t.Shoe.Upper += int64(d.Grain)
	}
}

// overRear lets a dot leave over the rear edge of the upper sieve: here grain
// is lost, blown in the air or ridden in or under the mat.
func (s *Stage) overRear(d *flow.Dot, u *upperCell, out Outlets, t *flow.Tally) {
	t.Shoe.MOGOver += int64(d.Mass)
	if d.Grain > 0 {
		switch {
		case d.Kind == flow.Piece:
			d.Cause = flow.Unthreshed
			t.Unthreshed.Shoe += int64(d.Grain)
		case d.Ride == flow.InMat:
			d.Cause = flow.Ridden
		case s.rng.Happens(float32(BlownShare(float64(s.Open[upperCells-1]), float64(u.load)))):
			d.Cause = flow.Blown
		default:
			d.Cause = flow.Ridden
		}
		t.Lost[d.Cause] += int64(d.Grain)
	}
	if d.Ride != flow.Airborne {
		d.VX, d.VY = u.speed, 0
	}
	d.Ride, d.Arrives = flow.Airborne, false
	out.Lost.Add(*d)
}
