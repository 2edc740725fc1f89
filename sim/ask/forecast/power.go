package forecast

import (
	"riddle/sim"
	"riddle/sim/stage/engine"
	"riddle/sim/stage/flow"
	"riddle/sim/stage/tank"
)

// tankFills is the time for which grain has come into the tank of a forecast
// machine that does not unload, s: as in a run in the middle of its window.
// Chosen.
const tankFills = 90

// pull returns the speed at which the engine settles when the cylinder is fed
// q kg/s and the other parts what they were fed in the last round, and whether
// they pull it down until it dies. A cylinder that stalls at full speed slips
// its belt, and does not trouble the engine.
func (t *twin) pull(q float64) (speed float64, died bool) {
	if full := t.kind.Thresh.Steady(t.crop, &t.set, &t.cond, 1, q, &t.bad.Grate); full.Stalled() {
		return 1, false
	}
	speed, ok := engine.Settle(func(x float64) float64 {
		return t.power(x, t.kind.Thresh.Steady(t.crop, &t.set, &t.cond, x, q, &t.bad.Grate).KW).Total()
	})
	return speed, !ok
}

// power returns what each part takes at an engine speed over its set speed.
func (t *twin) power(speed, cylinderKW float64) flow.Power {
	tanked := 0.0
	for i, kg := range t.onShoe {
		tanked += kg * t.fates[i].Tank
	}
	f := sim.Flows{
		Crop:    t.fresh() + t.in.Husk + t.in.Straw + t.in.Weed,
		Straw:   sum(t.mogOver[:]) + t.husk.over,
		Shoe:    sum(t.onShoe) + sum(t.mog[:]) + t.husk.onShoe,
		Chopped: (t.mogOver[0]+t.mogOver[1])*(1-t.walkers.MOG) + t.mogOver[2] + t.mogOver[3] + t.husk.over*(1-t.walkers.Pieces),
	}
	held := tanked * tankFills
	if t.set.Settings.Unload {
		f.Unloaded, held = min(tanked, tank.UnloadRate), 0
	}
	air := t.shoe.Air()
	if t.blown > 0 {
		air = air.Sped(speed / t.blown)
	}
	return sim.PowerOf(t.crop.Crop, &t.set, &t.bad, speed, cylinderKW, &air, f, held)
}
