// Package design is what a machine is before it is built: its geometry, its
// rooms, and what it does with each crop. The machine with straw walkers is one
// value of it; another machine is another value.
package design

import (
	"fmt"

	"riddle/sim/stage/section"
	"riddle/sim/trade/crop"
)

// Plan is one machine. Lengths are in metres, places as in package section.
type Plan struct {
	Name string
	Intake
	Threshing
	Walkers
	Shoe
	Grain
	// Returns bring what crosses the lower sieve back to the cylinder. A machine
	// without them drops it on the ground behind the sieve.
	Returns *Returns

	Calibration map[string]*Calibration // by crop
}

// Intake is header and feeder house.
type Intake struct {
	CutterBar section.Point
	FeedPath  []section.Point // from the cutter bar to the mouth of the concave
}

// Threshing is the cylinder over its concave.
type Threshing struct {
	Cylinder      section.Circle
	RaspBars      float64
	ConcaveLength float64 // along the arc
	ArcFrom, Arc  float64 // of the concave, rad from the rear, anticlockwise
	// ConveyorFloor carries what falls through the concave to the shoe, between
	// walls at these x.
	ConveyorFloor             section.Line
	ConveyorFront, ConveyorTo float64
}

// Walkers take the straw from the cylinder to the rear.
type Walkers struct {
	BeaterPlate section.Line
	Start, Rear float64 // x of the walkers' front and rear edge
	WalkerRun   float64 // from the one to the other
	WalkerFace  float64 // length of the walkers along their faces
	Height      func(x float64) float64
	WalkerPan   section.Line    // catches what falls through, and shakes it forward
	HoodRoof    []section.Point // over the straw
	HoodHolds   float64         // of mat before the hood is full
}

// Shoe is pans and sieves.
type Shoe struct {
	// PreSieve is nil in a machine that has none: what falls over the step short of
	// the upper sieve then falls on the pan under the step.
	PreSieve      *section.Line
	CollectingPan section.Line // leads onto the lower sieve
	UpperSieve    section.Line
	UpperLength   float64
	UpperTail     float64 // from the upper sieve's front: from here it opens wider
	TailPlate     section.Line
	LowerSieve    section.Line
	LowerLength   float64
	LowerBehind   float64 // how far the lower sieve begins behind the front of the upper
}

// Grain is the way of the clean grain.
type Grain struct {
	GrainTrough   []section.Point
	GrainAuger    section.Circle
	GrainElevator section.Line
}

// Returns is the way back to the cylinder.
type Returns struct {
	Trough []section.Point // the last is its rear rim
	Auger  section.Circle
	Path   []section.Point // from the auger to the cylinder
}

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

// LongestSieve is how long a sieve may be, m: the forecast follows grain over so
// much of one. Chosen.
const LongestSieve = 2.5

// Check says what keeps a plan from being built.
func (p *Plan) Check() error {
	for _, sieve := range []struct {
		name   string
		length float64
	}{{"upper", p.UpperLength}, {"lower", p.LowerLength}} {
		if sieve.length > LongestSieve {
			return fmt.Errorf("the %s sieve of the machine %q is %g m long; at most %g m can be forecast", sieve.name, p.Name, sieve.length, LongestSieve)
		}
	}
	return nil
}

// Falls returns how readily chaff, short straw and weeds fall through the sieves.
func (c *Calibration) Falls() [3]Passage { return [3]Passage{c.ChaffFalls, c.ShortFalls, c.WeedFalls} }
