// Package design is what a machine is before it is built: its geometry, its
// rooms, and what it does with each crop. The machine with straw walkers is one
// value of it; another machine is another value.
package design

import "riddle/sim/crop"

// Plan is one machine.
type Plan struct {
	Name        string
	Calibration map[string]*Calibration // by crop
}

// Walkers is the machine with straw walkers.
var Walkers = &Plan{Name: "straw walkers", Calibration: walkers}

// Fit is a crop as one machine meets it: what the crop is, what the machine does
// with it, and the machine.
type Fit struct {
	*crop.Crop
	*Calibration
	Plan *Plan
}

// In returns the machine as it meets a crop, or nil where it has no calibration
// for it.
func (p *Plan) In(c *crop.Crop) *Fit {
	cal := p.Calibration[c.Name]
	if cal == nil {
		return nil
	}
	return &Fit{Crop: c, Calibration: cal, Plan: p}
}

// Falls returns how readily chaff, short straw and weeds fall through the sieves.
func (c *Calibration) Falls() [3]Passage { return [3]Passage{c.ChaffFalls, c.ShortFalls, c.WeedFalls} }
