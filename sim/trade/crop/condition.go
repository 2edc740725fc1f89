package crop

import "riddle/sim/num"

// Condition is what moisture and weeds make of the crop, as differences and
// factors against the starting condition.
type Condition struct {
	Moist float64 // grain moisture less the starting one, % points
	Tough float64 // straw moisture, weeds counted in, less the starting one, % points
	Damp  float64 // factor on how grain sinks and stratifies, 0.5 to 1.1
	Grain float64 // factor on the terminal velocity of kernels and pieces
	MOG   float64 // factor on the terminal velocity of MOG
	Light float64 // share of light kernels, 0 to 1
}

const (
	// weedMoisture is the moisture of green weeds, % wet basis. Calibrated.
	weedMoisture = 70
	// grainVtSlope is the growth of the terminal velocity of grain a point of
	// moisture: 0.14 m/s on 8 m/s. Published for wheat (Khoshtaghaza &
	// Mehdizadeh 2006, CIGR Ejournal 8, abstract), taken for every crop.
	grainVtSlope = 0.0175
	// mogVtSlope is the same for MOG. Calibrated.
	mogVtSlope = 0.015
	// dampRate is the fall of sinking and stratifying a point of straw moisture.
	// Calibrated.
	dampRate = 0.05
)

// In returns the crop's condition at grain and straw moisture (% wet basis),
// green weeds (% of MOG) and light grain (% of grain).
func (c *Crop) In(grain, straw, weeds, light float64) Condition {
	g := weeds / 100
	tough := float64((1-g)*straw) + float64(weedMoisture*g) - c.Start.StrawMoisture
	moist := grain - c.Start.GrainMoisture
	return Condition{
		Moist: moist, Tough: tough,
		Damp:  num.Clamp(num.Exp(-dampRate*tough), 0.5, 1.1),
		Grain: max(0.5, 1+float64(grainVtSlope*moist)),
		MOG:   num.Clamp(1+float64(mogVtSlope*tough), 0.7, 2),
		Light: light / 100,
	}
}
