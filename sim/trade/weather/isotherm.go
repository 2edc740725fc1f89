// Package weather is the moisture of the day: what the air of an hour would
// bring grain and straw to, how fast they follow it, and the dew that lies on
// them at night. Nothing in it knows the machine.
package weather

import (
	"math"

	"riddle/sim/num"
)

// Form is the equation of an isotherm. M is moisture on the dry basis (%), T
// temperature (°C), R relative humidity (0 to 1).
type Form uint8

// The forms, as in ASAE D245.5 OCT1995, Moisture Relationships of Plant-based
// Agricultural Products (title published; equations from memory).
const (
	Henderson  Form = iota // R = 1 − e^(−A (T+C) M^B)
	ChungPfost             // R = e^(−A/(T+C) e^(−B M))
	Halsey                 // R = e^(−e^(A+B T) M^−C)
	Oswin                  // R = 1/(1 + ((A+B T)/M)^C)
	// SeedOil is R = 1 − e^−((M (1.1 + T/90)/(1 − A))²/440), of any seed whose dry
	// matter is A parts oil: Cromarty, Ellis & Roberts 1982, The Design of Seed
	// Storage Facilities for Genetic Conservation (published).
	SeedOil
)

// String returns the name of the form.
func (f Form) String() string {
	return [...]string{"modified Henderson", "modified Chung–Pfost", "modified Halsey", "modified Oswin", "seed and oil"}[f]
}

// Isotherm is the moisture at which a material neither gains nor loses water.
type Isotherm struct {
	Form    Form
	A, B, C float64
	Most    float64 // relative humidity up to which it holds, 0 to 1; above it is held there
}

// dry is the least relative humidity that an isotherm is asked for. Chosen.
const dry = 0.01

// Moisture returns the equilibrium moisture in air of t °C and relative
// humidity rh (0 to 1), % dry basis.
func (i *Isotherm) Moisture(t, rh float64) float64 {
	rh = num.Clamp(rh, dry, i.Most)
	switch i.Form {
	case Henderson:
		return num.Pow(-num.Log(1-rh)/(i.A*(t+i.C)), 1/i.B)
	case ChungPfost:
		return num.Positive(-num.Log(-(t+i.C)*num.Log(rh)/i.A) / i.B)
	case Halsey:
		return num.Pow(num.Exp(i.A+float64(i.B*t))/-num.Log(rh), 1/i.C)
	case SeedOil:
		return (1 - i.A) * math.Sqrt(-440*num.Log(1-rh)) / (1.1 + t/90)
	}
	return (i.A + float64(i.B*t)) * num.Pow(rh/(1-rh), 1/i.C)
}

// Humidity returns the relative humidity (0 to 1) with which the material is
// in equilibrium at t °C and m % dry basis: the inverse of Moisture.
func (i *Isotherm) Humidity(t, m float64) float64 {
	switch i.Form {
	case Henderson:
		return num.Chance(i.A * (t + i.C) * num.Pow(m, i.B))
	case ChungPfost:
		return num.Exp(-i.A / (t + i.C) * num.Exp(-i.B*m))
	case Halsey:
		return num.Exp(-num.Exp(i.A+float64(i.B*t)) * num.Pow(m, -i.C))
	case SeedOil:
		x := m * (1.1 + t/90) / (1 - i.A)
		return num.Chance(x * x / 440)
	}
	return 1 / (1 + num.Pow((i.A+float64(i.B*t))/m, i.C))
}

// WetBasis turns moisture on the dry basis into the wet basis, both %.
func WetBasis(dry float64) float64 { return 100 * dry / (100 + dry) }

// DryBasis turns moisture on the wet basis into the dry basis, both %.
func DryBasis(wet float64) float64 { return 100 * wet / (100 - wet) }
