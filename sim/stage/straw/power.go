package straw

const (
	// walkersIdle is the power of empty beater and walkers, kW, and walkersWork
	// what they put into a kilogram of straw, kJ. Calibrated: parts of the 20 kW
	// and 3.6 kWh a tonne of MOG that a small-grain combine turns with (ASAE D497,
	// from memory), of which the cylinder takes half.
	walkersIdle, walkersWork = 3.0, 2.0
	// chopperIdle is the power of the empty chopper, kW, and chopperWork what it
	// puts into a kilogram of straw, kJ, 1.4 kWh a tonne. Calibrated, so that the
	// chopper takes the 17 % of all energy that switching it off saved in wheat
	// (published, Jokiniemi 2015, CIGR Journal, article 3360, abstract).
	chopperIdle, chopperWork = 4.0, 5.0
)

// WalkersKW returns the power of beater and walkers at an engine speed over its
// set speed, under straw in kg/s over the full width, kW: 3 x² + 2 q.
func WalkersKW(engine, straw float64) float64 {
	return float64(walkersIdle*engine*engine) + float64(walkersWork*straw)
}

// ChopperKW returns the power of the chopper that runs, kW: 4 x² + 5 q.
func ChopperKW(engine, straw float64) float64 {
	return float64(chopperIdle*engine*engine) + float64(chopperWork*straw)
}
