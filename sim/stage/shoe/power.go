package shoe

import "riddle/sim/stage/section"

const (
	// shakeIdle is the power of the empty drive of sieves, pans, conveyors and
	// elevators, kW, and shakeWork what they put into a kilogram that comes to
	// the shoe, kJ. Calibrated as that of the walkers, to ASAE D497, from memory.
	shakeIdle, shakeWork = 4.0, 1.3
	// fanShare is the power of the air at the sieves over that at the fan's belt.
	// Open paddle fans make 0.25 to 0.45 of theirs into air (from memory), and
	// housing, wind boards and mouths take most of that. Calibrated, so that the
	// fan takes about 2 kW, the low end of what fans of this size take.
	fanShare = 0.08
	watts    = 1000.0 // a kW; definition
)

// ShakeKW returns the power of the shoe's drive and of the elevators at an
// engine speed over its set speed, under kg/s over the full width, kW:
// 4 x² + 1.3 q.
func ShakeKW(engine, load float64) float64 {
	return float64(shakeIdle*engine*engine) + float64(shakeWork*load)
}

// FanKW returns the power of the fan, kW: pressure times flow at the sieves over
// the share that arrives there. At a fixed resistance it goes with the cube of
// the speed, since the pressure goes with the square and the flow with the speed.
func FanKW(b *Blast) float64 {
	return b.Pressure * b.Flow * section.InnerWidth / (watts * fanShare)
}

// Sped returns the blast of a fan that turns at a share of the speed against the
// same resistance, by the fan laws. What it carries off is taken to go with the flow.
func (b Blast) Sped(share float64) Blast {
	for i := range b.V {
		b.V[i] *= share
		b.Vn[i] *= share
		b.Over[i] *= share
	}
	b.Pressure *= share * share
	b.Flow *= share
	return b
}

// Air is the blast that the twin found.
func (t *Twin) Air() Blast { return t.s.Air }
