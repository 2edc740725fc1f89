package readout

import (
	"riddle/sim/crop"
	"riddle/sim/measure"
	"riddle/sim/quantity"
)

// each applies a function to every loss that is known.
func (l Loss) each(f func(float64) float64) Loss {
	one := func(v *float64) *float64 {
		if v == nil {
			return nil
		}
		w := f(*v)
		return &w
	}
	return Loss{
		Header: one(l.Header), Unthreshed: one(l.Unthreshed), Walker: one(l.Walker), Shoe: one(l.Shoe),
		Processing: one(l.Processing), Total: one(l.Total),
	}
}

// onTheGround turns losses in kg/ha into bu/ac and into kernels a square metre
// and a square foot, as if each lay spread over the whole cut. Light and sound
// kernels count alike.
func onTheGround(kgHa Loss, c *crop.Crop) (buAc, perM2, perFt2 Loss) {
	bushel := quantity.Bushel(c.Name)
	buAc = kgHa.each(func(v float64) float64 { return measure.BushelsPerAcre(v, bushel) })
	perM2 = kgHa.each(func(v float64) float64 { return measure.KernelsPerM2(v, c.KernelMass) })
	return buAc, perM2, perM2.each(measure.PerFt2)
}

// power reads what the engine gave. Its size is that of ASAE D497 (from
// memory), of which the cylinder takes about half (Dodds 1968, Canadian Agric.
// Engng 10(2):74–76, published).
func power(r *Report, engine float64) Power {
	p := Power{Cylinder: &r.Cylinder.PowerKW}
	if engine > 0 {
		p.Total = &engine
		if t := r.Feed.GrainTH; t != nil {
			p.PerTonne = ratio(engine, *t)
		}
	}
	return p
}
