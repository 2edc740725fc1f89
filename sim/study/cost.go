package study

import (
	"riddle/sim/readout"
	"riddle/sim/returns"
)

// Cost is what settings cost, in the unit of its Scale: what is left on the
// ground and what the sample is marked down for.
type Cost struct {
	Loss     float64 `json:"loss"`
	Discount float64 `json:"discount"`
	Total    float64 `json:"total"`
}

// Scale is a way to put a cost on a report; ok is false where the report has
// none, as when the machine plugged.
type Scale struct {
	Unit string
	Of   func(*readout.Report) (c Cost, ok bool)
}

// Money is what lost grain and the sample's discount cost on a hectare, at the
// prices of the report.
var Money = Scale{Unit: "money per ha", Of: func(r *readout.Report) (Cost, bool) {
	m := &r.Money
	if m.LossPerHa == nil || m.DiscountHa == nil || m.CostPerHa == nil {
		return Cost{}, false
	}
	return Cost{Loss: *m.LossPerHa, Discount: *m.DiscountHa, Total: *m.CostPerHa}, true
}}

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
