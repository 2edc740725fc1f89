package quantity

import "math"

// System is a family of units in which values are shown.
type System string

// The systems that are offered: metric, and the units customary in the United
// States.
const (
	Metric    System = "metric"
	Customary System = "us"
)

// Kinds of quantity that are only read, never set.
const (
	Lost        Dimension = "kg/ha"
	Harvest     Dimension = "t/h" // of grain
	Throughput  Dimension = "kg/s"
	Weight      Dimension = "kg"
	Power       Dimension = "kW"
	Air         Dimension = "m/s"
	Work        Dimension = "ha/h"
	Area        Dimension = "m²"
	Temperature Dimension = "°C"
	Density     Dimension = "kg/hL" // of grain in bulk
	PerM2       Dimension = "kernels/m²"
	PerFt2      Dimension = "kernels/ft²"
)

// Scale is how a kind of quantity is shown: the name of the unit, its size and
// its zero in the base unit of the kind, and how many digits after the point
// are worth reading.
type Scale struct {
	Unit   string
	Size   float64
	Zero   float64
	Digits int
}

// Shown turns a value in the base unit into one in the unit of the scale.
func (s Scale) Shown(v float64) float64 { return (v - s.Zero) / s.Size }

// Base turns a value in the unit of the scale into one in the base unit.
func (s Scale) Base(v float64) float64 { return float64(v*s.Size) + s.Zero }

// Published: the units themselves, by the agreement of 1959; a short ton is
// 2,000 lb, a mechanical horsepower 550 foot-pounds a second; 0 °F is −17.78 °C.
const (
	shortTonInKg = 2000 * poundInKg
	horseInKW    = 0.74569987158227022
	footInMetre  = 12 * inchInMetre
	acreInHa     = acreInM2 / 10000
	bushelInHL   = 0.3523907
)

// metric is how each kind is shown in metric units, by definition of the units.
var metric = map[Dimension]Scale{
	Rotation: {"rpm", 1, 0, 0}, Speed: {"km/h", 1, 0, 1}, Opening: {"mm", 1, 0, 1}, Height: {"cm", 1, 0, 0}, Width: {"m", 1, 0, 1},
	Yield: {"t/ha", 1, 0, 1}, Share: {"%", 1, 0, 1}, Slope: {"°", 1, 0, 0}, Lost: {"kg/ha", 1, 0, 0}, Harvest: {"t/h", 1, 0, 1},
	Throughput: {"t/h", 1 / 3.6, 0, 1}, Weight: {"kg", 1, 0, 0}, Power: {"kW", 1, 0, 0}, Air: {"m/s", 1, 0, 1}, Work: {"ha/h", 1, 0, 1},
	Area: {"m²", 1, 0, 1}, Temperature: {"°C", 1, 0, 0}, Density: {"kg/hL", 1, 0, 1}, PerM2: {"kernels/m²", 1, 0, 0}, PerFt2: {"kernels/ft²", 1, 0, 1}, Ratio: {"", 1, 0, 2}, OnOff: {"", 1, 0, 0},
}

// customary is the same in the units of the United States; kinds that are not
// listed are shown as in metric. By definition, as above.
var customary = map[Dimension]Scale{
	Speed: {"mph", 1.609344, 0, 1}, Opening: {"in", inchInMetre * 1000, 0, 2}, Height: {"in", inchInMetre * 100, 0, 1}, Width: {"ft", footInMetre, 0, 1},
	Throughput: {"ton/h", shortTonInKg / 3600, 0, 1}, Weight: {"lb", poundInKg, 0, 0}, Power: {"hp", horseInKW, 0, 0}, Air: {"ft/s", footInMetre, 0, 1},
	Work: {"ac/h", acreInHa, 0, 1}, Area: {"ft²", footInMetre * footInMetre, 0, 1}, Temperature: {"°F", 5.0 / 9, -160.0 / 9, 0},
	Density: {"lb/bu", poundInKg / bushelInHL, 0, 1},
}

// Scale returns how the system shows a kind of quantity. Yields and losses are
// in bushels where the crop has a legal bushel.
func (s System) Scale(dim Dimension, crop string) Scale {
	if s == Customary {
		if c, ok := bushels(dim, crop); ok {
			return c
		}
		if c, ok := customary[dim]; ok {
			return c
		}
	}
	return metric[dim]
}

// bushels is the scale of a kind that is counted in bushels of the crop.
func bushels(dim Dimension, crop string) (Scale, bool) {
	kg := Bushel(crop) * poundInKg
	if kg == 0 {
		return Scale{}, false
	}
	switch dim {
	case Yield:
		return Scale{"bu/ac", kg / 1000 / acreInHa, 0, 1}, true
	case Lost:
		return Scale{"bu/ac", kg / acreInHa, 0, 2}, true
	case Harvest:
		return Scale{"bu/h", kg / 1000, 0, 0}, true
	}
	return Scale{}, false
}

// Bulk returns by what grain is sold: the name of the unit and its weight in
// tonnes.
func (s System) Bulk(crop string) (unit string, tonnes float64) {
	if kg := Bushel(crop) * poundInKg; s == Customary && kg > 0 {
		return "bu", kg / 1000
	}
	return "t", 1
}

// Land returns the unit of land and its size in hectares.
func (s System) Land() (unit string, hectares float64) {
	if s == Customary {
		return "ac", acreInHa
	}
	return "ha", 1
}

// Notches are the values at which a control of a kind of quantity stops: whole
// steps in the shown unit, read with so many digits after the point, or, where
// Parts is above zero, as a fraction of that many parts.
type Notches struct {
	Step   float64
	Digits int
	Parts  int
}

// Sixteenths and their kin: gaps are set by the sixteenth of an inch, or by the
// thirty-second where a step is finer, cutting heights by the half. Common
// practice of the trade in the United States, as are tenths of a mile an hour
// and whole feet and bushels.
const finestPart, halves = 32, 2

// Notches returns those of a control that moves by about a step in base units.
func (s System) Notches(dim Dimension, crop string, step float64) Notches {
	scale := s.Scale(dim, crop)
	if scale.Size == 1 {
		return Notches{Step: step, Digits: digitsOf(step)}
	}
	switch dim {
	case Opening, Height:
		parts := halves
		if dim == Opening {
			parts = finestPart
		}
		for parts > halves && 1/float64(parts) < 0.99*step/scale.Size {
			parts /= 2
		}
		return Notches{Step: 1 / float64(parts), Digits: 2, Parts: parts}
	case Width, Yield:
		return Notches{Step: 1}
	case Speed:
		return Notches{Step: 0.1, Digits: 1}
	}
	n := Notches{}
	n.Step, n.Digits = Handy(step / scale.Size)
	return n
}

// Parts is into how many parts of its unit a reading of a kind is rounded, or
// 0 where it is read with a point: gaps in inches are read as fractions.
func (s System) Parts(dim Dimension) int {
	if s == Customary && dim == Opening {
		return finestPart
	}
	return 0
}

// digitsOf is how many digits after the point a step needs.
func digitsOf(step float64) (n int) {
	for n < 4 && math.Abs(step-math.Round(step)) > 1e-9 {
		step *= 10
		n++
	}
	return n
}

// Handy returns the step of 1, 2 or 5 times a power of ten that lies nearest
// below v, and how many digits after the point it needs.
func Handy(v float64) (step float64, digits int) {
	if !(v > 0) {
		return 1, 0
	}
	step = 1
	for step > v {
		step /= 10
		digits++
	}
	for step*10 <= v {
		step *= 10
	}
	for _, k := range [...]float64{5, 2} {
		if float64(k*step) <= v*(1+1e-9) {
			step *= k
			break
		}
	}
	scale := 1.0
	for range digits {
		scale *= 10
	}
	return math.Round(step*scale) / scale, digits
}
