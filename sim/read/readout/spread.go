package readout

import (
	"math"

	"riddle/sim/trade/crop"
)

// StandardError returns the standard error, in percentage points, of a loss that
// is read as 100·lost/out, in kernels, or nil where nothing left. Losses are counted
// events, so their number varies as a binomial count does; each is how many
// kernels one event takes with it, 1 for loose grain and more for unthreshed
// pieces. Where nothing was counted, or nothing else, the error is that of one
// event, since an empty count does not prove that there is none.
func StandardError(lost, out, each float64) *float64 {
	if !(out > 0) {
		return nil
	}
	return percent(each*math.Sqrt(max(lost/each*(1-lost/out), 1)), out)
}

// errors returns the standard errors of losses and of the tank's counts. An
// unthreshed piece counts as one event with all the kernels that it holds when
// it is cut, which errs to the wide side.
func (d *Masses) errors(c *crop.Crop, t *Tank) (loss Loss, shoe ShoeLoss, tank TankSE) {
	kernel, piece := d.kernel(c), float64(c.PieceKernels)
	one := func(of *float64, lost, out, each float64) *float64 {
		if of == nil {
			return nil
		}
		return StandardError(lost/kernel, out/kernel, each)
	}
	ears := 1.0
	if c.Header.Snaps { // most of it falls as whole ears
		ears = piece
	}
	out := d.out()
	read, ways := d.loss()
	sample := d.inTank()
	loss = Loss{
		Header:     one(read.Header, d.LostHeader, d.stood(), ears),
		Unthreshed: one(read.Unthreshed, d.Unthreshed, out, piece),
		Walker:     one(read.Walker, d.Walker, out, 1),
		Shoe:       one(read.Shoe, d.shoe(), out, 1),
	}
	loss.Processing = together(loss.Unthreshed, loss.Walker, loss.Shoe)
	loss.Total = together(loss.Header, loss.Processing)
	if loss.Processing == nil { // nothing came past the header
		loss.Total = loss.Header
	}
	shoe = ShoeLoss{Blown: one(ways.Blown, d.Blown, out, 1), Ridden: one(ways.Ridden, d.Ridden, out, 1)}
	tank = TankSE{Broken: one(t.Broken, d.TankBroken, sample, 1), Unthreshed: one(t.Unthreshed, d.TankUnthreshed, sample, piece)}
	return loss, shoe, tank
}

// loadErrors returns the standard errors of the loads: a flow is so many dots in
// a time, and their number varies as a count does. Each is taken as the heaviest
// of those that come there, which errs to the wide side.
func (d *Masses) loadErrors(c *crop.Crop, seconds float64) Loads {
	one := func(kg float64, dots ...crop.Class) *float64 {
		each := 0.0
		for _, dot := range dots {
			each = max(each, dot.DotMass()*microgramInKg*WholeMachine(c)/d.Scale)
		}
		return ratio(math.Sqrt(kg*each)*d.Scale, seconds)
	}
	return Loads{Walkers: one(d.WalkerMOG, c.Chaff, c.Short, c.Straw, c.Weed), Shoe: one(d.ShoeMOG, c.Chaff, c.Short, c.Weed)}
}

// Errors returns the standard errors of the report's losses.
func Errors(r *Report) Loss { return r.LossSE }

// together is the standard error of a sum of independent counts.
func together(errors ...*float64) *float64 {
	sum := 0.0
	for _, e := range errors {
		if e == nil {
			return nil
		}
		sum += *e * *e
	}
	sum = math.Sqrt(sum)
	return &sum
}
