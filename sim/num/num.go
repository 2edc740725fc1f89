// Package num holds the few functions of real numbers that the machine needs,
// written so that every platform computes the same bits.
//
// The standard library's Exp, Pow and Tanh are assembly on some platforms and
// Go on others, and compilers may fuse x*y+z into one rounding. Both change
// the last bit. Here each product that feeds a sum is rounded by an explicit
// conversion, which the language specification says forbids fusing, and only
// + − × ÷, Sqrt, Floor and bit operations are used.
package num

import "math"

// Parts of ln 2 and of its inverse, by definition.
const (
	ln2Hi = 6.93147180369123816490e-01 // ln 2 to 33 bits, so that k·ln2Hi is exact
	ln2Lo = 1.90821492927058770002e-10 // ln 2 − ln2Hi
	log2e = 1.44269504088896338700e+00
)

// reciprocal[n] is 1/n, by definition.
var reciprocal = [14]float64{0, 1, 1.0 / 2, 1.0 / 3, 1.0 / 4, 1.0 / 5, 1.0 / 6, 1.0 / 7, 1.0 / 8, 1.0 / 9, 1.0 / 10, 1.0 / 11, 1.0 / 12, 1.0 / 13}

// Exp returns e**x, with x clamped to ±700 so that the result is finite and
// above zero. Its relative error is below 1e-15.
func Exp(x float64) float64 {
	x = Clamp(x, -700, 700)
	k := math.Floor(float64(log2e*x) + 0.5)
	r := x - float64(k*ln2Hi) - float64(k*ln2Lo)
	p := 1.0 // Taylor series to degree 13 for |r| ≤ ln2/2
	for n := 13; n > 0; n-- {
		p = float64(float64(p*r)*reciprocal[n]) + 1
	}
	return p * math.Float64frombits(uint64(int64(k)+1023)<<52)
}

// Log returns the natural logarithm of x, for x above zero; it returns −745
// for anything else, a little under the logarithm of the smallest number.
func Log(x float64) float64 {
	if !(x > 2.3e-308) {
		return -745
	}
	bits := math.Float64bits(x)
	k := float64(int64(bits>>52) - 1023)
	m := math.Float64frombits(bits&(1<<52-1) | 1023<<52) // 1 ≤ m < 2
	if m > math.Sqrt2 {
		m, k = m/2, k+1
	}
	s := (m - 1) / (m + 1) // ln m = 2 atanh s, |s| ≤ 0.1716
	q, sum := float64(s*s), 0.0
	for n := 21; n > 1; n -= 2 {
		sum = float64((sum + 1/float64(n)) * q)
	}
	return float64(k*ln2Hi) + (float64(k*ln2Lo) + float64(2*s*(sum+1)))
}

// Pow returns x**y for x above zero, and 0 for x at or below zero.
func Pow(x, y float64) float64 {
	if x <= 0 {
		return 0
	}
	return Exp(y * Log(x))
}

// Sin returns the sine of x radians for |x| below 1e6, to about 1e-12.
func Sin(x float64) float64 {
	k := math.Floor(x/math.Pi + 0.5)
	r := x - float64(k*math.Pi)
	q, p := float64(r*r), 1.0
	for n := 17.0; n > 1; n -= 2 {
		p = 1 - float64(p*q)/float64(n*(n-1))
	}
	if math.Mod(k, 2) != 0 {
		return -r * p
	}
	return r * p
}

// Cos returns the cosine of x radians, as Sin.
func Cos(x float64) float64 { return Sin(x + math.Pi/2) }

// Chance returns 1 − e**−x, the chance that a thing which happens at rate 1
// has happened by x. Below zero it is 0.
func Chance(x float64) float64 {
	if x <= 0 {
		return 0
	}
	if x < 1e-3 {
		return x * (1 - float64(x*(0.5-x/6)))
	}
	return 1 - Exp(-x)
}

// NormalPDF returns the density of the standard normal distribution.
func NormalPDF(z float64) float64 { return 0.3989422804014327 * Exp(-0.5*z*z) }

// Phi returns the distribution function of the standard normal distribution.
// Published: C. Hastings 1955, Approximations for Digital Computers, as formula
// 26.2.17 in Abramowitz & Stegun 1964; absolute error below 7.5e-8.
func Phi(z float64) float64 {
	a := math.Abs(z)
	t := 1 / (1 + float64(0.2316419*a))
	p := 1.330274429
	for _, b := range [...]float64{-1.821255978, 1.781477937, -0.356563782, 0.319381530} {
		p = float64(p*t) + b
	}
	upper := float64(NormalPDF(a) * float64(p*t))
	if z < 0 {
		return upper
	}
	return 1 - upper
}

// SmoothStep returns 0 at and below 0, 1 at and above 1, and 3x²−2x³ between.
func SmoothStep(x float64) float64 {
	x = Clamp(x, 0, 1)
	return float64(x * x * (3 - float64(2*x)))
}

// Clamp returns x held between lo and hi; a value that is no number gives lo.
func Clamp(x, lo, hi float64) float64 {
	if !(x > lo) {
		return lo
	}
	if x > hi {
		return hi
	}
	return x
}

// Positive returns x, or 0 where x is below 0.
func Positive(x float64) float64 { return max(x, 0) }
