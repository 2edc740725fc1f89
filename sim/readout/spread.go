package readout

import (
	"math"

	"riddle/sim/crop"
	"riddle/sim/flow"
)

// StandardError returns the standard error, in percentage points, of a loss
// that is read as 100·lost/out, or nil where nothing left. Losses are counted
// events, so their number varies as a binomial count does; each is how many
// kernels one event takes with it, 1 for loose grain and more for unthreshed
// pieces. Where nothing was counted the error is that of one event, since an
// empty count does not prove that there is no loss.
func StandardError(lost, out flow.Grain, each float64) *float64 {
	return spread(float64(lost)/flow.Kernel, float64(out)/flow.Kernel, each)
}

// spread is StandardError in kernels.
func spread(lost, out, each float64) *float64 {
	if !(out > 0) {
		return nil
	}
	events := max(lost/each, 1)
	kept := max(1-lost/out, 0)
	return percent(each*math.Sqrt(events*kept), out)
}

// Errors returns the standard errors of the report's losses, in percentage
// points. An unthreshed piece counts as one event with all the kernels that it
// holds when it is cut, which errs to the wide side.
func Errors(r *Report) Loss {
	c := crop.Find(r.Crop)
	out, ok := kernelsOut(r, c)
	if c == nil || !ok {
		return Loss{}
	}
	one := func(pct *float64, of, each float64) *float64 {
		if pct == nil {
			return nil
		}
		return spread(*pct/100*of, of, each)
	}
	stood := out
	if h := r.Loss.Header; h != nil && *h < 100 {
		stood = out / (1 - *h/100)
	}
	ears := 1.0
	if c.Header.Snaps { // most of it falls as whole ears
		ears = float64(c.PieceKernels)
	}
	e := Loss{
		Header:     one(r.Loss.Header, stood, ears),
		Unthreshed: one(r.Loss.Unthreshed, out, float64(c.PieceKernels)),
		Walker:     one(r.Loss.Walker, out, 1),
		Shoe:       one(r.Loss.Shoe, out, 1),
	}
	e.Processing = together(e.Unthreshed, e.Walker, e.Shoe)
	e.Total = together(e.Header, e.Processing)
	return e
}

// kernelsOut returns how many kernels of the slice left the machine in the
// report's window.
func kernelsOut(r *Report, c *crop.Crop) (float64, bool) {
	if c == nil || r.Tank.Foreign == nil || r.LossKgHa.Processing == nil || r.Feed.AreaHaH == nil {
		return 0, false
	}
	hectares := *r.Feed.AreaHaH * r.WindowS / 3600
	kg := r.Tank.Kg*(1-*r.Tank.Foreign/100) + *r.LossKgHa.Processing*hectares
	return kg / WholeMachine(c) / c.KernelKg(), true
}

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
