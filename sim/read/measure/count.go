// Package measure is the arithmetic of measuring loss behind a machine: frames
// laid on the ground, kernels counted or weighed in them, and what that comes to
// an acre or a hectare. It knows no machine, so that the same sums serve the
// reports, the lessons and anybody in a field.
package measure

import "math"

// Definitions of the units in use.
const (
	AcreFt2    = 43560.0       // square feet in an acre; definition
	PoundG     = 453.59237     // grams in a pound; definition (international agreement 1959)
	FootM      = 0.3048        // metres in a foot; definition
	ft2InM2    = FootM * FootM // square metres in a square foot; definition
	acreM2     = AcreFt2 * ft2InM2
	hectareM2  = 10000 // definition
	frameFt2   = 10    // the frame that extension bulletins lay, ft²; common practice
	earPlotFt2 = AcreFt2 / 100
)

// KernelsPerFt2 returns how many kernels a square foot make one bushel an acre:
// bushel·453.592/43,560/(mass of a kernel). Bushel in lb, thousand is the mass
// of a thousand kernels in g.
func KernelsPerFt2(bushel, thousand float64) float64 {
	return bushel * PoundG / AcreFt2 / (thousand / 1000)
}

// ThousandKernels returns the mass of a thousand kernels, g, that a rule of so
// many kernels a square foot for a bushel an acre takes for granted.
func ThousandKernels(bushel, perFt2 float64) float64 {
	return 1000 * bushel * PoundG / AcreFt2 / perFt2
}

// KernelsPerM2 returns how many kernels a square metre make kgHa kg/ha: 1 kg/ha
// is 0.1 g/m².
func KernelsPerM2(kgHa, thousand float64) float64 { return 100 * kgHa / thousand }

// BushelsPerAcre turns kg/ha into bu/ac, for a bushel in lb.
func BushelsPerAcre(kgHa, bushel float64) float64 {
	return kgHa * 1000 / hectareM2 * acreM2 / PoundG / bushel
}

// KgPerHectare is the way back.
func KgPerHectare(buAc, bushel float64) float64 {
	return buAc * bushel * PoundG / 1000 / acreM2 * hectareM2
}

// PerFt2 turns a count a square metre into one a square foot.
func PerFt2(perM2 float64) float64 { return perM2 * ft2InM2 }

// Concentration returns how many times thicker the discharge lies than if it
// were spread over the cut: cutting width over discharge width.
func Concentration(cut, discharge float64) float64 {
	if !(discharge > 0) {
		return 1
	}
	return cut / discharge
}

// Counts are kernels a square foot found in three places.
type Counts struct {
	Standing float64 // in the crop ahead of the machine: lost before it came
	Header   float64 // where the header has passed and the discharge has not fallen
	Trail    float64 // in the discharge
}

// Found is loss on the ground, bu/ac.
type Found struct{ Before, Header, Machine, Total float64 }

// Losses turns counts into bushels an acre, by the kernels a square foot that
// make one, and the concentration of the trail:
//
//	before = P/k, header = (H − P)/k, machine = (R − H)/(CF·k)
func (c Counts) Losses(perBushel, concentration float64) Found {
	f := Found{
		Before:  c.Standing / perBushel,
		Header:  (c.Header - c.Standing) / perBushel,
		Machine: (c.Trail - c.Header) / concentration / perBushel,
	}
	f.Total = f.Before + f.Header + f.Machine
	return f
}

// Percent returns a loss as a share of what stood, %: loss/(harvested + loss).
func Percent(loss, harvested float64) float64 {
	if !(loss+harvested > 0) {
		return 0
	}
	return 100 * loss / (harvested + loss)
}

// PanBushels returns the loss in bu/ac from the cleaned grain of a drop pan, g a
// square foot, fallen from a discharge of the given concentration.
func PanBushels(gramsFt2, concentration, bushel float64) float64 {
	return gramsFt2 / concentration * AcreFt2 / PoundG / bushel
}

// PanKgHa returns the same in kg/ha from g a square metre.
func PanKgHa(gramsM2, concentration float64) float64 { return 10 * gramsM2 / concentration }

// FrameInches returns how long a frame of ten square feet is, in, across a
// width in inches: one row, or the whole cut.
func FrameInches(width float64) float64 { return frameFt2 * 144 / width }

// EarPlotFeet returns how far to walk for a hundredth of an acre, ft, over so
// many rows at a spacing in inches. Each ear of three quarters of a pound found
// there is a bushel an acre.
func EarPlotFeet(rows, spacing float64) float64 { return earPlotFt2 / (rows * spacing / 12) }

// YieldByHeads returns the yield of standing grain in kg an acre from heads a
// square foot, kernels a head and the mass of a thousand kernels, g.
func YieldByHeads(heads, kernels, thousand float64) float64 {
	return heads * kernels * thousand / 1e6 * AcreFt2
}

// CountError returns the standard error of a count, as a share of it: counted
// things fall by chance, so n of them vary by √n (Poisson).
func CountError(n float64) float64 {
	if !(n > 0) {
		return 1
	}
	return 1 / math.Sqrt(n)
}
