package readout

import (
	"riddle/sim/stage/engine"
	"riddle/sim/stage/flow"
)

// worked reads speed and power of a window from what was summed over its ticks.
// An empty window has neither.
func (s *Span) worked(before, after *flow.Tally) {
	if n := after.Work.Ticks - before.Work.Ticks; n > 0 {
		s.CylinderRPM = (after.Work.RPM - before.Work.RPM) / float64(n)
		s.Power = after.Work.Power.Between(before.Work.Power, n)
	}
}

// power reads what each part took. Its size is that of ASAE D497 (from
// memory), of which the cylinder takes about half (Dodds 1968, Canadian Agric.
// Engng 10(2):74–76, published), with driving and the chopper beside.
func power(took flow.Power, tonnes *float64) Power {
	p := Power{Limit: engine.Limit}
	total := took.Total()
	if !(total > 0) {
		return p
	}
	p.Cylinder, p.Walkers, p.Shoe, p.Fan = &took.Cylinder, &took.Walkers, &took.Shoe, &took.Fan
	p.Chopper, p.Header, p.Unloading, p.Driving = &took.Chopper, &took.Header, &took.Unloading, &took.Driving
	p.Total = &total
	if tonnes != nil {
		p.PerTonne = ratio(total, *tonnes)
	}
	return p
}

// power prints what each part took, the most of it first by the way of the crop.
func (p *page) power(r *Report) {
	w := &r.Power
	if w.Total == nil {
		return
	}
	p.line("\nPower")
	p.line("  engine %s kW (%s hp) of the %s kW that it has, %s kWh/t of grain",
		fixed(w.Total, 1), fixed(scaled(w.Total, 1/horsepower), 0), short(&w.Limit), fixed(w.PerTonne, 1))
	p.line("  header and feeder %s, cylinder %s, walkers %s, shoe and elevators %s, fan %s,",
		fixed(w.Header, 1), fixed(w.Cylinder, 1), fixed(w.Walkers, 1), fixed(w.Shoe, 1), fixed(w.Fan, 1))
	p.line("  chopper %s, unloading %s, driving %s kW", fixed(w.Chopper, 1), fixed(w.Unloading, 1), fixed(w.Driving, 1))
}
