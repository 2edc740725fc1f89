package study

import "riddle/sim/readout"

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

// Least finds the least of a quantity over the points that have it; ok is
// false where none has.
func (c Curve) Least(get func(*readout.Report) *float64) (least Lowest, ok bool) {
	for i := range c.Points {
		v := get(&c.Points[i].Report)
		if v == nil || ok && !(*v < least.Value) {
			continue
		}
		least = Lowest{At: c.Points[i].Value, Value: *v, Inside: i > 0 && i < len(c.Points)-1}
		ok = true
	}
	return least, ok
}
