package study

import (
	"riddle/sim/read/readout"
	"riddle/sim/setup"
)

// Quantity is one reading of a report that a curve can show.
type Quantity struct {
	Name string // short, in words
	Of   string // what the percentage is of
	Get  func(*readout.Report) *float64
}

// The quantities of a response curve, % by mass.
var (
	Processing = Quantity{"processing loss", ofOut, func(r *readout.Report) *float64 { return r.Loss.Processing }}
	Unthreshed = Quantity{"unthreshed", ofOut, func(r *readout.Report) *float64 { return r.Loss.Unthreshed }}
	Walker     = Quantity{"straw walkers", ofOut, func(r *readout.Report) *float64 { return r.Loss.Walker }}
	Shoe       = Quantity{"shoe", ofOut, func(r *readout.Report) *float64 { return r.Loss.Shoe }}
	Total      = Quantity{"total loss", ofStood, func(r *readout.Report) *float64 { return r.Loss.Total }}
	HeaderLoss = Quantity{"header", ofStood, func(r *readout.Report) *float64 { return r.Loss.Header }}
	Broken     = Quantity{"broken in tank", ofTank, func(r *readout.Report) *float64 { return r.Tank.Broken }}
	Foreign    = Quantity{"foreign in tank", ofTank, func(r *readout.Report) *float64 { return r.Tank.Foreign }}

	// UnthreshedAndBroken is what too gentle and too rough threshing cost
	// together.
	UnthreshedAndBroken = Quantity{"unthreshed + broken", ofOut, func(r *readout.Report) *float64 {
		if r.Loss.Unthreshed == nil || r.Tank.Broken == nil {
			return nil
		}
		sum := *r.Loss.Unthreshed + *r.Tank.Broken
		return &sum
	}}
)

const (
	ofOut   = "of the grain that left the machine"
	ofStood = "of the grain that stood in the field"
	ofTank  = "of the tank sample"
)

// Lowest is the least value of a curve's quantity.
type Lowest struct {
	At, Value float64 // of what is varied, and of the quantity
	Inside    bool    // not at an end of the values
}

// CostPerHa is what a hectare costs in all, hours and weather counted in: by it
// the best value of a setting is told.
func CostPerHa(r *readout.Report) *float64 { return r.Money.WholeHa }

// nothingCame is the loss of all kinds, % of what stood, from which the tank is
// as good as empty. Chosen.
const nothingCame = 99

// worked reports whether a machine that reads so did its work: it did not plug,
// and grain came into the tank.
func worked(r *readout.Report) bool {
	return r.State != "plugged" && r.Loss.Total != nil && *r.Loss.Total < nothingCame
}

// Best is the best value of what a sweep varies, and the stretch of values
// around it that are as good.
type Best struct {
	Lowest
	ByCost   bool    // the value is the cost of a hectare in money, else all losses, % of what stood
	Point    int     // of the curve
	From, To float64 // at every point from one to the other it comes to no more than Alike beyond the least
}

// Alike is by how much two values may differ that no count in a field tells
// apart, % of what the crop is worth, or of the grain. Chosen.
const Alike = 0.05

// Best finds the value of least cost a hectare over the points at which the
// machine worked, or that of the least of all losses where there is no money,
// or where the field's conditions are varied: those are not chosen, and a
// heavier crop has more to lose. Ok is false where no point worked.
func (c Curve) Best(f *setup.Field) (best Best, ok bool) {
	by := [...]func(*readout.Report) *float64{CostPerHa, Total.Get}
	for k, get := range by {
		if k == 0 && f.Condition {
			continue
		}
		of := func(r *readout.Report) *float64 {
			if !worked(r) {
				return nil
			}
			return get(r)
		}
		if i, ok := c.least(of); ok {
			best = Best{Lowest: c.lowest(i, get), ByCost: k == 0, Point: i}
			best.From, best.To = c.asGood(i, of, k == 0)
			return best, true
		}
	}
	return best, false
}

// asGood returns the ends of the stretch around the least point whose points
// cannot be told from it.
func (c Curve) asGood(at int, of func(*readout.Report) *float64, cost bool) (from, to float64) {
	most := *of(&c.Points[at].Report) + Alike
	if cost {
		most = *of(&c.Points[at].Report)
		if worth := c.Points[at].Report.Money.CropPerHa; worth != nil {
			most += float64(Alike / 100 * *worth)
		}
	}
	good := func(i int) bool {
		v := of(&c.Points[i].Report)
		return v != nil && *v <= most
	}
	a, b := at, at
	for a > 0 && good(a-1) {
		a--
	}
	for b < len(c.Points)-1 && good(b+1) {
		b++
	}
	return min(c.Points[a].Value, c.Points[b].Value), max(c.Points[a].Value, c.Points[b].Value)
}

// Least finds the least of a quantity over the points that have it; ok is
// false where none has.
func (c Curve) Least(get func(*readout.Report) *float64) (least Lowest, ok bool) {
	i, ok := c.least(get)
	if !ok {
		return least, false
	}
	return c.lowest(i, get), true
}

// least finds the point at which a quantity is least.
func (c Curve) least(get func(*readout.Report) *float64) (at int, ok bool) {
	low := 0.0
	for i := range c.Points {
		if v := get(&c.Points[i].Report); v != nil && (!ok || *v < low) {
			at, low, ok = i, *v, true
		}
	}
	return at, ok
}

func (c Curve) lowest(i int, get func(*readout.Report) *float64) Lowest {
	return Lowest{At: c.Points[i].Value, Value: *get(&c.Points[i].Report), Inside: i > 0 && i < len(c.Points)-1}
}
