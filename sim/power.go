package sim

import (
	"riddle/sim/setup"
	"riddle/sim/stage/fault"
	"riddle/sim/stage/feed"
	"riddle/sim/stage/flow"
	"riddle/sim/stage/ground"
	"riddle/sim/stage/section"
	"riddle/sim/stage/shoe"
	"riddle/sim/stage/straw"
	"riddle/sim/stage/tank"
	"riddle/sim/trade/crop"
)

// Flows is what the parts of the machine move, kg/s over the whole machine.
type Flows struct {
	Crop     float64 // grain and other material that the header takes in
	Straw    float64 // off the end of the concave, onto the walkers
	Shoe     float64 // grain and other material that come to the shoe
	Chopped  float64 // straw through the chopper
	Unloaded float64 // grain out of the tank
}

// PowerOf returns what each part takes at an engine speed over its set speed,
// when the cylinder takes so many kW and the tank holds so many kg. Parts that
// stand still take nothing.
func PowerOf(c *crop.Crop, set *setup.Setup, bad *fault.State, engine, cylinderKW float64, air *shoe.Blast, f Flows, tankKg float64) flow.Power {
	p := flow.Power{
		Cylinder: cylinderKW,
		Shoe:     shoe.ShakeKW(engine, f.Shoe),
		Fan:      shoe.FanKW(air),
		Driving:  ground.DrivingKW(set.Settings.GroundSpeed/3.6, set.Conditions.ForeSlope, tankKg),
	}
	if !set.Stopped.Has(setup.HeaderPart) {
		p.Header = feed.HeaderKW(c, set.Conditions.HeaderWidth, engine, f.Crop)
	}
	if !set.Stopped.Has(setup.WalkerPart) {
		p.Walkers = straw.WalkersKW(engine, bad.Walkers, f.Straw)
	}
	if set.Settings.Chopper {
		p.Chopper = straw.ChopperKW(engine, f.Chopped)
	}
	if set.Settings.Unload {
		p.Unloading = tank.UnloadKW(engine, f.Unloaded)
	}
	return p
}

// flowMemory is the time over which the drives feel what they move, s. Chosen:
// the dots of a slice come one by one, the whole machine's crop does not.
const flowMemory = 0.5

// work is what the drives of a machine feel.
type work struct {
	felt    Flows
	counted [5]float64 // kg of the slice up to the last tick, in the order of Flows
	took    flow.Power // in the last tick
}

// drive lets every part take its power of the engine, and the engine turn.
func (m *Machine) drive() {
	m.feel()
	w := &m.work
	w.took = PowerOf(m.crop.Crop, &m.set, &m.bad, m.engine.X, m.thresh.State(&m.set).Drive.KW, &m.shoe.Air, w.felt, m.tank.Kg(&m.tally))
	m.tally.Work.Power.Add(w.took)
	m.engine.Turn(w.took.Total(), float64(tick))
}

// feel follows the flows by what has been counted since the last tick.
func (m *Machine) feel() {
	t, kernel := &m.tally, m.crop.KernelKg()/flow.Kernel
	kg := func(grain flow.Grain, mog flow.MOG) float64 {
		return float64(float64(grain)*kernel) + float64(float64(mog)*1e-9)
	}
	now := [5]float64{
		kg(t.In-t.Lost[flow.Header], t.InMOG),
		kg(0, t.Cylinder.MOG-t.Cylinder.MOGOut),
		kg(t.Shoe.Grain, t.Shoe.MOG),
		kg(0, t.Ground.Chopped),
		kg(t.Unloaded, 0),
	}
	scale := section.InnerWidth / (m.crop.Slice / 1000) / float64(tick)
	const share = float64(tick) / flowMemory
	w := &m.work
	for i, felt := range [5]*float64{&w.felt.Crop, &w.felt.Straw, &w.felt.Shoe, &w.felt.Chopped, &w.felt.Unloaded} {
		*felt += float64((float64((now[i]-w.counted[i])*scale) - *felt) * share)
	}
	w.counted = now
}
