package flow

// Changes of unit, by definition.
const (
	Percent   = 100.0  // a whole
	CM        = 100.0  // a metre
	MM        = 1000.0 // a metre
	KMH       = 3.6    // a metre a second
	Minute    = 60.0   // s
	TonnesHa  = 10.0   // t/ha, a kilogram a square metre
	Milligram = 1000.0 // µg
	Microgram = 1e-9   // kg
	Kilogram  = 1e9    // µg
)

// Bed is how far over a floor, pan or chain what lies on it has its middle, m.
// Chosen: half a kernel or two.
const Bed = 0.01
