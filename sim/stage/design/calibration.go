package design

// Calibration is what one machine does with one crop at that crop's starting
// settings: the figures that were chosen so that the whole machine lands on
// published or practised results. Another machine has others for the same crop.
type Calibration struct {
	RatedMOG float64 // MOG feed at the starting settings, kg/s over the full width

	// Threshing.
	Lambda   float64 // threshing, 1/m of concave
	Beta     float64 // separation through the concave, 1/m
	Broken   float64 // damage of freed grain, %
	ChaffOut float64 // chaff through the concave, share of MOG
	ShortOut float64 // short straw through the concave, share of MOG
	Energy   float64 // work of the cylinder, kJ a kg of MOG

	// Separation out of the straw.
	StrawRate float64 // of grain, 1/m
	Sifted    float64 // of chaff, share of MOG

	// Cleaning.
	LowerLoad          float64 // MOG that reaches the lower sieve at the start, kg/s a m
	SinkBulk, SinkOpen float64 // sinking of grain in a resting and in an open mat, m/s

	ChaffFalls, ShortFalls, WeedFalls Passage
}

// Passage is how readily a class of MOG falls through the sieves at the starting
// openings, 1/m.
type Passage struct{ Upper, Lower float64 }

// weed passes the sieves of the walker machine so in any crop. Calibrated.
var weed = Passage{Upper: 0.4, Lower: 0.5}

// walkers is what the machine with straw walkers does with each crop; units as in
// the fields' comments. All calibrated.
var walkers = map[string]*Calibration{
	"wheat": {
		RatedMOG: 3.90, Lambda: 8.35, Beta: 3.99, Broken: 1, ChaffOut: 0.165, ShortOut: 0.135, Energy: 7.5,
		StrawRate: 0.828, Sifted: 0.02,
		LowerLoad: 0.052, SinkBulk: 0.01, SinkOpen: 0.08,
		ChaffFalls: Passage{0.6, 1.2}, ShortFalls: Passage{0.25, 0.5}, WeedFalls: weed,
	},
	"barley": {
		RatedMOG: 3.47, Lambda: 8.35, Beta: 3.99, Broken: 1.2, ChaffOut: 0.175, ShortOut: 0.145, Energy: 8.5,
		StrawRate: 0.827, Sifted: 0.02,
		LowerLoad: 0.056, SinkBulk: 0.01, SinkOpen: 0.08,
		ChaffFalls: Passage{0.6, 1.2}, ShortFalls: Passage{0.25, 0.5}, WeedFalls: weed,
	},
	"oats": {
		RatedMOG: 3.33, Lambda: 8.34, Beta: 3.98, Broken: 1, ChaffOut: 0.165, ShortOut: 0.135, Energy: 9,
		StrawRate: 0.827, Sifted: 0.02,
		LowerLoad: 0.050, SinkBulk: 0.01, SinkOpen: 0.08,
		ChaffFalls: Passage{0.6, 1.2}, ShortFalls: Passage{0.25, 0.5}, WeedFalls: weed,
	},
	"soybeans": {
		RatedMOG: 3.51, Lambda: 8.98, Beta: 4.35, Broken: 1.5, ChaffOut: 0.170, ShortOut: 0.110, Energy: 9.5,
		StrawRate: 0.884, Sifted: 0.02,
		LowerLoad: 0.035, SinkBulk: 0.01, SinkOpen: 0.09,
		ChaffFalls: Passage{0.5, 0.9}, ShortFalls: Passage{0.35, 0.6}, WeedFalls: weed,
	},
	"corn": {
		RatedMOG: 1.79, Lambda: 8.55, Beta: 5.61, Broken: 3.3, ChaffOut: 0.150, ShortOut: 0.250, Energy: 18.2,
		StrawRate: 0.861, Sifted: 0.03,
		LowerLoad: 0.082, SinkBulk: 0.015, SinkOpen: 0.055,
		ChaffFalls: Passage{0.4, 0.8}, ShortFalls: Passage{0.25, 0.3}, WeedFalls: weed,
	},
	"canola": {
		RatedMOG: 3.60, Lambda: 8.83, Beta: 4.43, Broken: 0.7, ChaffOut: 0.190, ShortOut: 0.070, Energy: 9.2,
		StrawRate: 0.799, Sifted: 0.02,
		LowerLoad: 0.041, SinkBulk: 0.012, SinkOpen: 0.11,
		ChaffFalls: Passage{0.6, 0.9}, ShortFalls: Passage{0.25, 0.4}, WeedFalls: weed,
	},
	"rice": {
		RatedMOG: 3.75, Lambda: 8.09, Beta: 3.88, Broken: 1.2, ChaffOut: 0.130, ShortOut: 0.120, Energy: 8,
		StrawRate: 0.820, Sifted: 0.02,
		LowerLoad: 0.046, SinkBulk: 0.01, SinkOpen: 0.08,
		ChaffFalls: Passage{0.6, 1.2}, ShortFalls: Passage{0.25, 0.5}, WeedFalls: weed,
	},
	"sorghum": {
		RatedMOG: 3.24, Lambda: 8.35, Beta: 4.15, Broken: 1.8, ChaffOut: 0.200, ShortOut: 0.120, Energy: 9.9,
		StrawRate: 0.810, Sifted: 0.02,
		LowerLoad: 0.048, SinkBulk: 0.01, SinkOpen: 0.08,
		ChaffFalls: Passage{0.6, 1.2}, ShortFalls: Passage{0.25, 0.5}, WeedFalls: weed,
	},
}
