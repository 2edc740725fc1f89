package readout

import (
	"riddle/sim/read/measure"
	"riddle/sim/stage/section"
	"riddle/sim/trade/crop"
	"riddle/sim/trade/quantity"
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

// InTrail returns the kernels a square metre that a frame finds in a discharge
// of a width in m: header loss lies under it as everywhere, what left behind
// the machine lies thicker by cutting width over discharge width.
func InTrail(r *Report, width float64) Loss {
	cut, _ := r.Conditions["header_width_m"].(float64)
	thicker := measure.Concentration(cut, width)
	l := r.LossPerM2.each(func(v float64) float64 { return v * thicker })
	l.Header, l.Total = r.LossPerM2.Header, nil
	if h, p := l.Header, l.Processing; h != nil && p != nil {
		sum := *h + *p
		l.Total = &sum
	}
	return l
}

// trail prints what a frame finds in the windrow, where the chopper is off and
// the straw falls as narrow as the machine is inside.
func (p *page) trail(r *Report) {
	if on, _ := r.Settings["chopper"].(bool); on || r.LossPerM2.Total == nil {
		return
	}
	l := InTrail(r, windrow)
	p.line("  Under a windrow %s m wide a frame finds %s kernels/m² (%s/ft²), %s of them from the header.",
		short(&windrow), fixed(l.Total, 0), fixed(scaled(l.Total, measure.PerFt2(1)), 1), fixed(l.Header, 0))
}

// windrow is the width of the straw behind walkers and shoe, m; geometry.
var windrow = section.InnerWidth
