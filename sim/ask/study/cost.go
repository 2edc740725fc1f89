package study

import (
	"riddle/sim/read/readout"
	"riddle/sim/stage/returns"
)

// Cost is what settings cost, as the readout works it out: what is left on the
// ground, what the buyer takes off, and what broken grain costs beside that.
type Cost struct {
	Loss     float64 `json:"loss"`
	Discount float64 `json:"discount"`
	Breakage float64 `json:"breakage"`
	Total    float64 `json:"total"`
}

// CostUnit is the unit of Cost.
const CostUnit = "money per ha"

// CostOf reads the cost of a report; ok is false where it has none, as when the
// machine plugged. Time is not in it: settings of one ground speed share it.
func CostOf(r *readout.Report) (c Cost, ok bool) {
	m := &r.Money
	if m.LossPerHa == nil || m.DiscountHa == nil || m.CostPerHa == nil {
		return Cost{}, false
	}
	c = Cost{Loss: *m.LossPerHa, Discount: *m.DiscountHa, Total: *m.CostPerHa}
	c.Breakage = c.Total - c.Loss - c.Discount
	return c, true
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
