package straw

import (
	"math"

	"riddle/sim/num"
	"riddle/sim/stage/fault"
	"riddle/sim/stage/flow"
	"riddle/sim/stage/section"
)

// SetFaults has the walkers turn at a speed of their own, by an extra faster than
// they should.
func (s *Stage) SetFaults(own fault.Extra) { s.own = own }

// ownSpeed returns the speed at which walkers carry the straw that turn by an
// extra faster than they should, m/s. In every turn they carry it as far as
// ever; on a slope it drifts in every throw by ½ gₓ t², mechanics, and what is
// thrown less flies for a shorter time.
func ownSpeed(pull flow.Pull, own fault.Extra) float64 {
	if own == 0 {
		return WalkSpeed(pull)
	}
	t := flight(own)
	drift := float64(float64(pull.X) / 2 * t * t * own.Times() * (section.CrankRPM / flow.Minute))
	return max(slowest, float64(matSpeed*own.Times())+drift)
}

// flight returns the time in which the straw flies after each throw of walkers
// at a speed of their own, s, as thrown does for those that turn as they
// should: none where the cranks never leave it behind.
func flight(own fault.Extra) float64 {
	w := own.Times() * (section.CrankRPM * 2 * math.Pi / flow.Minute)
	sin := flow.Gravity / float64(w*w*section.CrankThrow) // of the angle at which it lifts off
	if !(sin < 1) {
		return 0
	}
	cos := math.Sqrt(1 - float64(sin*sin))
	above := func(t float64) float64 { // the crank, m
		a := float64(w * t)
		up := float64(section.CrankThrow*cos*a) - float64(flow.Gravity/2*t*t)
		return up - float64(section.CrankThrow*(float64(sin*num.Cos(a))+float64(cos*num.Sin(a))-sin))
	}
	const looks, halvings = 64, 40 // chosen
	turn := 2 * math.Pi / w
	look := float64(turn / looks)
	hi := look
	for hi < turn && above(hi) > 0 {
		hi += look
	}
	lo := hi - look
	for range halvings {
		if mid := (lo + hi) / 2; above(mid) > 0 {
			lo = mid
		} else {
			hi = mid
		}
	}
	return lo
}
