// Package engine is the engine as the rest of the machine feels it: all parts
// hang on it and slow down together when they ask for more than its governor
// holds, and it dies when they ask for more than it has.
package engine

import (
	"riddle/sim/num"
)

const (
	// Limit is the power that the engine has at full load, kW. Chosen: walker
	// machines with headers of 6 m carry 130 to 190 kW, from memory.
	Limit = 190.0
	// held is the share of it up to which the engine turns at its set speed:
	// speeds of the machine are told as they are under usual load. Calibrated, so
	// that no crop's start is below them.
	held = 0.65
	// droop is the fall of speed by which the governor comes from there to full
	// load. Governors give way by 4 to 10 % (common practice, no source).
	droop = 0.06
	// rise is the growth of torque as an engine under full load is pulled down to
	// the speed lug, over its set speed, below which it dies. From memory: 15 to
	// 30 %, at 0.6 to 0.75 of its speed.
	rise, lug = 0.15, 0.75
	// runDown is twice the energy of all that turns at its set speed, kJ:
	// cylinder 61, chopper 150, engine and the rest 90. Calibrated.
	runDown = 600.0
)

// Gives returns the power that the engine gives at most at a speed over its set
// speed, kW. By its governor it rises as the speed falls, to full load at 0.94;
// below that torque rises no more than by 15 %, and power falls.
//
//	P = 190 (0.65 + 0.35 (1 − x)/0.06);  below 0.94  190 x/0.94 (1 + 0.15 (0.94 − x)/0.19)
func Gives(x float64) float64 {
	const full = 1 - droop
	if x >= full {
		return Limit * (held + float64((1-held)*(1-x)/droop))
	}
	return Limit * x / full * (1 + float64(rise*min(1, (full-x)/(full-lug))))
}

// Settle returns the speed at which the engine comes to rest under parts that
// ask for so much power at each speed, kW; ok is false where there is none, and
// they pull it down until it dies.
func Settle(asks func(x float64) float64) (x float64, ok bool) {
	const step = 0.005 // chosen
	if asks(1) <= Gives(1) {
		return 1, true
	}
	hi := 1.0
	for lo := 1 - step; lo >= lug; lo -= step {
		if asks(lo) > Gives(lo) {
			hi = lo
			continue
		}
		for range 20 {
			if mid := float64((lo + hi) / 2); asks(mid) > Gives(mid) {
				hi = mid
			} else {
				lo = mid
			}
		}
		return lo, true
	}
	return lug, false
}

// Engine is the state of the engine.
type Engine struct {
	X  float64 // speed over its set speed
	KW float64 // that all parts ask for
}

// New returns an engine at its set speed.
func New() Engine { return Engine{X: 1} }

// Turn advances the engine by dt seconds while the parts ask for kW.
func (e *Engine) Turn(kw, dt float64) {
	e.KW = kw
	e.X = num.Clamp(e.X+float64((float64(Gives(e.X))-kw)/(runDown*max(e.X, lug))*dt), 0, 1)
}

// Stalled reports whether the engine has been pulled down so far that it dies.
func (e *Engine) Stalled() bool { return e.X < lug }
