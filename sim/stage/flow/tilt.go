package flow

import (
	"math"

	"riddle/sim/num"
)

// Pull is gravity as the machine feels it, m/s²: X to the rear, Y up.
type Pull struct{ X, Y float32 }

// PullOn returns gravity on a fore slope in degrees, uphill above zero. The
// machine drives towards −x: as it climbs its rear lies low and gravity draws
// to the rear. Geometry.
func PullOn(foreSlope float64) Pull {
	a := foreSlope * math.Pi / 180
	return Pull{X: float32(Gravity * num.Sin(a)), Y: -float32(Gravity * num.Cos(a))}
}

// Fall returns the tangent of the slope on which the machine stands: how far a
// level face falls towards the rear over its length.
func (p Pull) Fall() float64 { return float64(p.X) / -float64(p.Y) }

const (
	// friction of straw, chaff and grain on a shaken steel sieve or pan: 0.3 to
	// 0.6, from memory.
	friction = 0.45
	// crawl is the least speed of a layer on a shaken face, m/s, pushed on by what
	// comes after it. Calibrated.
	crawl = 0.05
)

// CarryOn returns the speed, m/s, at which a shaken face carries what rests on
// it, where it would carry at level m/s on level ground, swings along itself at
// up to swing m/s, and falls towards its outlet by the tangent fall. While the
// layer slips to and fro the mean of dry friction is μ N (2/π) asin(v/swing)
// (Blekhman 2000, Vibrational Mechanics, from memory). The weight's part along
// the face has to balance what is added to it:
//
//	v = swing · sin(asin(level/swing) + (π/2) fall/μ)
func CarryOn(level, swing, fall float64) float64 {
	if !(swing > level) {
		return max(level, 0)
	}
	rest := math.Sqrt(float64(swing*swing) - float64(level*level))
	b := math.Pi / 2 * fall / friction
	sin, cos := num.Sin(b), num.Cos(b)
	switch {
	case b < -math.Pi/2:
		return crawl
	case float64(rest*cos) <= float64(level*sin): // steeper than friction holds
		return swing
	}
	return max(crawl, float64(level*cos)+float64(rest*sin))
}
