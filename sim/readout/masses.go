package readout

import (
	"riddle/sim/crop"
	"riddle/sim/flow"
)

// masses is what passed the gates of the machine over a window, in kg of the
// slice; scale makes it the whole machine.
type masses struct {
	scale float64

	in, mogIn                                          float64
	lostHeader, unthreshed, walker, blown, ridden      float64
	toCylinder, separated, leftUnthreshed              float64
	mogToCylinder, mogThrough                          float64
	backFree, backUnthreshed, backMOG                  float64
	tankGrain, tankBroken, tankUnthreshed, tankForeign float64
}

const microgramInKg = 1e-9

func between(b, a *flow.Tally, c *crop.Crop) masses {
	quarter := c.KernelKg() / flow.Quarters
	grain := func(before, after flow.Grain) float64 { return float64(after-before) * quarter }
	mog := func(before, after flow.MOG) float64 { return float64(after-before) * microgramInKg }
	lost := func(cause flow.Cause) float64 { return grain(b.Lost[cause], a.Lost[cause]) }
	return masses{
		scale: WholeMachine(c),
		in:    grain(b.In, a.In), mogIn: mog(b.InMOG, a.InMOG),

		lostHeader: lost(flow.Header), unthreshed: lost(flow.Unthreshed), walker: lost(flow.Walker),
		blown: lost(flow.Blown), ridden: lost(flow.Ridden),

		toCylinder:     grain(b.Cylinder.Grain, a.Cylinder.Grain),
		separated:      grain(b.Cylinder.Separated, a.Cylinder.Separated),
		leftUnthreshed: grain(b.Cylinder.Through+b.Cylinder.Over, a.Cylinder.Through+a.Cylinder.Over),
		mogToCylinder:  mog(b.Cylinder.MOG, a.Cylinder.MOG),
		mogThrough:     mog(b.Cylinder.MOGOut, a.Cylinder.MOGOut),

		backFree:       grain(b.Returns.Free, a.Returns.Free),
		backUnthreshed: grain(b.Returns.Unthreshed, a.Returns.Unthreshed),
		backMOG:        mog(b.Returns.MOG, a.Returns.MOG),

		tankGrain:      grain(b.Tank.Grain, a.Tank.Grain),
		tankBroken:     grain(b.Tank.Broken, a.Tank.Broken),
		tankUnthreshed: grain(b.Tank.Unthreshed, a.Tank.Unthreshed),
		tankForeign:    mog(b.Tank.Foreign, a.Tank.Foreign),
	}
}

// fed is the grain that came past the header into the machine.
func (d *masses) fed() float64 { return d.in - d.lostHeader }

// out is the grain that left the machine: into the tank or lost behind it.
func (d *masses) out() float64 { return d.tankGrain + d.processing() }

func (d *masses) shoe() float64       { return d.blown + d.ridden }
func (d *masses) processing() float64 { return d.unthreshed + d.walker + d.shoe() }

func (d *masses) feed(seconds, hectares float64) Feed {
	return Feed{
		GrainKgS: ratio(d.fed()*d.scale, seconds),
		MOGKgS:   ratio(d.mogIn*d.scale, seconds),
		AreaHaH:  ratio(hectares*3600, seconds),
		GrainTH:  ratio(d.fed()*d.scale*3.6, seconds),
	}
}

func (d *masses) loss() (Loss, ShoeLoss) {
	out := d.out()
	stood := out + d.lostHeader
	return Loss{
		Header:     percent(d.lostHeader, stood),
		Unthreshed: percent(d.unthreshed, out),
		Walker:     percent(d.walker, out),
		Shoe:       percent(d.shoe(), out),
		Processing: percent(d.processing(), out),
		Total:      percent(d.lostHeader+d.processing(), stood),
	}, ShoeLoss{Blown: percent(d.blown, out), Ridden: percent(d.ridden, out)}
}

func (d *masses) lossKgHa(hectares float64) Loss {
	perHa := func(kg float64) *float64 { return ratio(kg*d.scale, hectares) }
	return Loss{
		Header: perHa(d.lostHeader), Unthreshed: perHa(d.unthreshed), Walker: perHa(d.walker), Shoe: perHa(d.shoe()),
		Processing: perHa(d.processing()), Total: perHa(d.lostHeader + d.processing()),
	}
}

func (d *masses) concave() Concave {
	return Concave{
		Separated:  percent(d.separated, d.toCylinder),
		Unthreshed: percent(d.leftUnthreshed, d.toCylinder),
		MOGThrough: percent(d.mogThrough, d.mogToCylinder),
	}
}

func (d *masses) returns() Returns {
	grain := d.backFree + d.backUnthreshed
	all := grain + d.backMOG
	return Returns{
		OfGrain:    percent(grain, d.fed()),
		FreeGrain:  percent(d.backFree, all),
		Unthreshed: percent(d.backUnthreshed, all),
		MOG:        percent(d.backMOG, all),
	}
}

// noTable is why a sample has no grade.
const noTable = "no grade table is held for this crop"

// tank is the sample of the grain tank. Whole kernels are sound, shrunken ones
// among them, so that the four shares sum to 100.
func (d *masses) tank() Tank {
	why := noTable
	all := d.tankGrain + d.tankForeign
	return Tank{
		Kg:         all * d.scale,
		Sound:      percent(d.tankGrain-d.tankBroken-d.tankUnthreshed, all),
		Broken:     percent(d.tankBroken, all),
		Unthreshed: percent(d.tankUnthreshed, all),
		Foreign:    percent(d.tankForeign, all),
		GradedBy:   &why,
	}
}

// ratio returns a/b, or nil where b is not above zero.
func ratio(a, b float64) *float64 {
	if !(b > 0) {
		return nil
	}
	q := a / b
	return &q
}

func percent(part, whole float64) *float64 { return ratio(100*part, whole) }
