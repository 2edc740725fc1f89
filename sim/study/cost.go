package study

import (
	"riddle/sim/readout"
	"riddle/sim/returns"
)

// Cost is what settings cost, in the unit of its Scale: what is left on the
// ground, what the buyer takes off, and what broken grain and foreign matter
// in the tank count for beside that.
type Cost struct {
	Loss     float64 `json:"loss"`
	Discount float64 `json:"discount"`
	Sample   float64 `json:"sample"`
	Total    float64 `json:"total"`
}

// Scale is a way to put a cost on a report; ok is false where the report has
// none, as when the machine plugged.
type Scale struct {
	Unit string
	Of   func(*readout.Report) (c Cost, ok bool)
}

// SampleWeight is what a percent of broken grain or foreign matter in the tank
// counts for, in percent of lost grain, if nobody says otherwise. Grades let a
// machine break much before they take anything off, but broken grain keeps and
// cleans badly. Common practice is to mind it; the half is chosen here.
const SampleWeight = 0.5

// Money is what lost grain, the buyer's discount and the sample cost on a
// hectare, at the prices of the report. A weight of 0 minds the discount alone.
func Money(weight float64) Scale {
	return Scale{Unit: "money per ha", Of: func(r *readout.Report) (Cost, bool) {
		m, t := &r.Money, &r.Tank
		if m.LossPerHa == nil || m.DiscountHa == nil || m.CropPerHa == nil || t.Broken == nil || t.Foreign == nil {
			return Cost{}, false
		}
		c := Cost{Loss: *m.LossPerHa, Discount: *m.DiscountHa, Sample: weight * (*t.Broken + *t.Foreign) / 100 * *m.CropPerHa}
		c.Total = c.Loss + c.Discount + c.Sample
		return c, true
	}}
}

// ReturnsKgS returns the flow of the returns over the whole machine, kg/s; nil
// where the report does not tell.
func ReturnsKgS(r *readout.Report) *float64 {
	if r.Returns.OfGrain == nil || r.Returns.MOG == nil || r.Feed.GrainKgS == nil {
		return nil
	}
	grain := *r.Returns.OfGrain / 100 * *r.Feed.GrainKgS
	if !(*r.Returns.MOG < 100) {
		return nil
	}
	all := grain / (1 - *r.Returns.MOG/100)
	return &all
}

// Allowed reports whether a machine that reads so may go on: it neither slows
// nor plugs, and its returns elevator lifts what comes back.
func Allowed(r *readout.Report) bool {
	flow := ReturnsKgS(r)
	return r.State == "running" && flow != nil && *flow < returns.Capacity
}
