// Package engine is the engine as the rest of the machine feels it: cylinder,
// walkers, shoe and fan hang on one shaft, and slow down together when the
// crop asks for more than the governor can hold.
package engine

import (
	"riddle/sim/num"
)

const (
	// restIdle is the power that walkers, shoe, fan, elevators and header take
	// without crop, kW: the 20 kW of a small-grain combine's rotary power (ASAE
	// D497, Agricultural Machinery Management Data, from memory) less the 6 kW
	// of the empty cylinder.
	restIdle = 14.0
	// restShare is their work on the crop over that of the cylinder: 3.6 kWh a
	// tonne of MOG in all (ASAE D497, from memory) against the cylinder's 2.1.
	restShare = 1.5 / 2.1
	// Start is the power at the starting settings of every crop, kW, up to which
	// the engine holds its set speed: the cylinder's 35.25 and what the rest
	// takes with it. Calibrated, 70 kW by ASAE D497 for wheat.
	Start = 35.25 + restIdle + restShare*(35.25-6)
	// droop is the fall of speed a doubling of that power, held to worst: 3 %
	// where the work is one and a half times the usual. Governors give way by 4
	// to 10 % (common practice, no source). Calibrated.
	droop, worst = 0.06, 0.75
	// memory is the time in which the speed follows the load, s. Calibrated.
	memory = 0.5
)

// Rest returns the power of all but the cylinder at engine speed x and a
// cylinder that works with kW, idling apart, kW.
func Rest(x, work float64) float64 {
	return float64(restIdle*x*x) + float64(restShare*work)
}

// Speed returns the speed, over the set speed, at which the engine settles
// under a power in kW.
func Speed(power float64) float64 {
	return max(worst, 1-float64(droop*num.Positive(power/Start-1)))
}

// Engine is the state of the engine.
type Engine struct {
	X  float64 // speed over its set speed
	KW float64 // that it gives to all but driving
}

// New returns an engine at its set speed.
func New() Engine { return Engine{X: 1} }

// Turn advances the engine by dt seconds while the cylinder takes cylinder kW
// in all, of which idle go into turning it empty.
func (e *Engine) Turn(cylinder, idle, dt float64) {
	e.KW = cylinder + Rest(e.X, num.Positive(cylinder-idle))
	e.X += float64((Speed(e.KW) - e.X) * (dt / memory))
}
