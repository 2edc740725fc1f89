package readout

import (
	"riddle/sim/stage/flow"
	"riddle/sim/trade/crop"
)

// fewest is how many kernels of the slice, or as much of another material by
// mass, must have passed for a share of them to be told: one kernel is then half
// a percent, about as much as a well-set machine loses in all. Below it shares,
// their errors, grades and costs are null. Chosen.
const fewest = 200

// delivering is how much of the grain inside must have left a machine before it
// counts as one that delivers. By then what comes out is nine tenths of what
// goes in, in every crop at its start. Calibrated.
const delivering = 1.0 / 8

// Filling reports whether the first grain is still on its way through the
// machine. What is lost ahead of the machine and first behind it then has no
// grain yet to be a share of.
func Filling(t *flow.Tally) bool {
	out := t.Out()
	return float64(out) <= delivering*float64(t.Fed()-out)
}

// early reports whether a window says too little of shares because the machine
// was still filling in it: it began so, and less has left since than is inside.
func early(before, after *flow.Tally) bool {
	return Filling(before) && after.Out()-before.Out() < after.Fed()-after.Out()
}

// kernel is the mass of one kernel of the slice in a unit of d, kg.
func (d *Masses) kernel(c *crop.Crop) float64 { return c.KernelKg() * WholeMachine(c) / d.Scale }

// enough reports whether as much passed that a share of it can be told.
func (d *Masses) enough(kg float64) bool { return kg > 0 && kg >= d.least }

// share returns part of whole in percent, or nil where too little passed. Where
// part is counted later on the way, it may hold a little of what came before
// the window; a share is no more than all.
func (d *Masses) share(part, whole float64) *float64 {
	if !d.enough(whole) {
		return nil
	}
	return percent(min(part, whole), whole)
}
