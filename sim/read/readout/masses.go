package readout

import (
	"riddle/sim/stage/flow"
	"riddle/sim/trade/crop"
	"riddle/sim/trade/grade"
)

// Masses is what passed the gates of the machine over a window, in kg. Scale
// makes it the whole machine: it is 1 where the masses are of the full width,
// and WholeMachine where they are of the slice.
type Masses struct {
	Scale float64

	In, MOGIn  float64 // grain and other material that the header met and cut
	LostHeader float64 // grain shattered, dropped or missed at the header

	Unthreshed, Walker, Blown, Ridden float64 // grain lost behind the machine, by cause

	ToCylinder     float64 // grain that entered the cylinder, fresh and returned
	Separated      float64 // of it freed, and fallen through the concave
	LeftUnthreshed float64 // of it still in pieces when it left, through the concave or over its end
	MOGToCylinder  float64 // other material that entered the cylinder
	MOGThrough     float64 // of it fallen through the concave

	WalkerMOG float64 // other material that left the walkers, through them and over their end
	ShoeMOG   float64 // that came onto the shoe

	BackFree, BackUnthreshed, BackMOG float64 // into the returns

	TankGrain      float64 // all grain into the tank, free and in pieces
	TankBroken     float64 // of it visibly damaged
	TankUnthreshed float64 // of it in unthreshed pieces
	TankForeign    float64 // chaff, straw and weed into the tank, husk on pieces among it

	Sample grade.Sample // the same tank as the grader's sieves part it

	least float64 // mass from which a share of it can be told
	early bool    // too little came out of a machine that was still filling
}

const microgramInKg = 1e-9 // by definition

func between(b, a *flow.Tally, c *crop.Crop) Masses {
	part := c.KernelKg() / flow.Kernel
	grain := func(before, after flow.Grain) float64 { return float64(after-before) * part }
	mog := func(before, after flow.MOG) float64 { return float64(after-before) * microgramInKg }
	lost := func(cause flow.Cause) float64 { return grain(b.Lost[cause], a.Lost[cause]) }
	return Masses{
		Scale: WholeMachine(c),
		In:    grain(b.In, a.In), MOGIn: mog(b.InMOG, a.InMOG),

		LostHeader: lost(flow.Header), Unthreshed: lost(flow.Unthreshed), Walker: lost(flow.Walker),
		Blown: lost(flow.Blown), Ridden: lost(flow.Ridden),

		ToCylinder:     grain(b.Cylinder.Grain, a.Cylinder.Grain),
		Separated:      grain(b.Cylinder.Separated, a.Cylinder.Separated),
		LeftUnthreshed: grain(b.Cylinder.Through+b.Cylinder.Over, a.Cylinder.Through+a.Cylinder.Over),
		MOGToCylinder:  mog(b.Cylinder.MOG, a.Cylinder.MOG),
		MOGThrough:     mog(b.Cylinder.MOGOut, a.Cylinder.MOGOut),

		WalkerMOG: mog(b.Walkers.MOG+b.Walkers.MOGOver, a.Walkers.MOG+a.Walkers.MOGOver),
		ShoeMOG:   mog(b.Shoe.MOG, a.Shoe.MOG),

		BackFree:       grain(b.Returns.Free, a.Returns.Free),
		BackUnthreshed: grain(b.Returns.Unthreshed, a.Returns.Unthreshed),
		BackMOG:        mog(b.Returns.MOG, a.Returns.MOG),

		TankGrain:      grain(b.Tank.Grain, a.Tank.Grain),
		TankBroken:     grain(b.Tank.Broken, a.Tank.Broken),
		TankUnthreshed: grain(b.Tank.Unthreshed, a.Tank.Unthreshed),
		TankForeign:    mog(b.Tank.Foreign, a.Tank.Foreign),

		Sample: sample(b, a, grain, mog),
	}
}

// sample parts what fell into the tank as the grader's sieves do.
func sample(b, a *flow.Tally, grain, mog func(before, after int64) float64) grade.Sample {
	loose := func(t *flow.Tally) flow.Grain { return t.Tank.Grain - t.Tank.Unthreshed }
	whole := func(t *flow.Tally) flow.Grain { return t.Tank.Broken - t.Tank.Parts }
	husk := func(t *flow.Tally) flow.MOG { return t.Tank.Foreign - t.Tank.Chaff - t.Tank.Straw - t.Tank.Weed }
	return grade.Sample{
		Loose:        grain(loose(b), loose(a)),
		Through:      grain(b.Tank.Through, a.Tank.Through),
		Fine:         grain(b.Tank.Fine, a.Tank.Fine),
		Parts:        grain(b.Tank.Parts, a.Tank.Parts),
		PartsThrough: grain(b.Tank.PartsThrough, a.Tank.PartsThrough),
		Chips:        grain(b.Tank.Chips, a.Tank.Chips),
		Cracked:      grain(whole(b), whole(a)),
		Light:        grain(b.Tank.Light, a.Tank.Light),
		Headed:       grain(b.Tank.Unthreshed, a.Tank.Unthreshed),
		Husk:         mog(husk(b), husk(a)),
		Chaff:        mog(b.Tank.Chaff, a.Tank.Chaff),
		Straw:        mog(b.Tank.Straw, a.Tank.Straw),
		Weed:         mog(b.Tank.Weed, a.Tank.Weed),
	}
}

// fed is the grain that came past the header into the machine.
func (d *Masses) fed() float64 { return d.In - d.LostHeader }

// out is the grain that left the machine: into the tank or lost behind it.
func (d *Masses) out() float64 { return d.TankGrain + d.processing() }

// stood is the grain that left the machine and what was lost ahead of it.
func (d *Masses) stood() float64 { return d.out() + d.LostHeader }

// inTank is all that fell into the tank.
func (d *Masses) inTank() float64 { return d.TankGrain + d.TankForeign }

func (d *Masses) shoe() float64       { return d.Blown + d.Ridden }
func (d *Masses) processing() float64 { return d.Unthreshed + d.Walker + d.shoe() }

func (d *Masses) feed(seconds, hectares float64) Feed {
	return Feed{
		GrainKgS: ratio(d.fed()*d.Scale, seconds),
		MOGKgS:   ratio(d.MOGIn*d.Scale, seconds),
		AreaHaH:  ratio(hectares*3600, seconds),
		GrainTH:  ratio(d.fed()*d.Scale*3.6, seconds),
	}
}

func (d *Masses) loads(seconds float64) Loads {
	return Loads{Walkers: ratio(d.WalkerMOG*d.Scale, seconds), Shoe: ratio(d.ShoeMOG*d.Scale, seconds)}
}

func (d *Masses) loss() (Loss, ShoeLoss) {
	if d.early {
		return Loss{}, ShoeLoss{}
	}
	out, stood := d.out(), d.stood()
	return Loss{
		Header:     d.share(d.LostHeader, stood),
		Unthreshed: d.share(d.Unthreshed, out),
		Walker:     d.share(d.Walker, out),
		Shoe:       d.share(d.shoe(), out),
		Processing: d.share(d.processing(), out),
		Total:      d.share(d.LostHeader+d.processing(), stood),
	}, ShoeLoss{Blown: d.share(d.Blown, out), Ridden: d.share(d.Ridden, out)}
}

// lossKgHa lays each loss on the area that its grain came from: what the header
// lost on what was cut, what was lost behind the machine on what the grain stood
// on that left it.
func (d *Masses) lossKgHa(cut, left float64) (l Loss) {
	if d.early {
		return l
	}
	if d.enough(d.stood()) {
		l.Header = ratio(d.LostHeader*d.Scale, cut)
		l.Total = l.Header
	}
	if !d.enough(d.out()) {
		return l
	}
	perHa := func(kg float64) *float64 { return ratio(kg*d.Scale, left) }
	l.Unthreshed, l.Walker, l.Shoe, l.Processing = perHa(d.Unthreshed), perHa(d.Walker), perHa(d.shoe()), perHa(d.processing())
	l.Total = plus(l.Header, l.Processing)
	return l
}

// plus adds what is known, or returns nil.
func plus(a, b *float64) *float64 {
	if a == nil || b == nil {
		return nil
	}
	sum := *a + *b
	return &sum
}

func (d *Masses) concave() Concave {
	return Concave{
		Separated:  d.share(d.Separated, d.ToCylinder),
		Unthreshed: d.share(d.LeftUnthreshed, d.ToCylinder),
		MOGThrough: d.share(d.MOGThrough, d.MOGToCylinder),
	}
}

func (d *Masses) returns() Returns {
	grain := d.BackFree + d.BackUnthreshed
	all := grain + d.BackMOG
	r := Returns{
		FreeGrain:  d.share(d.BackFree, all),
		Unthreshed: d.share(d.BackUnthreshed, all),
		MOG:        d.share(d.BackMOG, all),
	}
	if !d.early {
		r.OfGrain = d.share(grain, d.fed())
	}
	return r
}

// tank is the sample of the grain tank. Whole kernels are sound, shrunken ones
// among them, so that the four shares sum to 100.
func (d *Masses) tank(graded *grade.Result) Tank {
	all := d.inTank()
	kg := all * d.Scale
	t := Tank{
		Kg:           &kg,
		Sound:        d.share(d.TankGrain-d.TankBroken-d.TankUnthreshed, all),
		Broken:       d.share(d.TankBroken, all),
		Fines:        d.share(d.Sample.Chips, all),
		Unthreshed:   d.share(d.TankUnthreshed, all),
		Foreign:      d.share(d.TankForeign, all),
		TestWeight:   graded.KgPerHL,
		GradedBy:     &graded.By,
		GradeFactors: graded.Factors,
	}
	if graded.Grade != nil {
		as := graded.Table.As()
		t.Grade, t.GradedAs = &graded.Grade.Name, &as
		t.GradedKeys = append([]string{}, graded.Grade.By...)
	}
	return t
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
