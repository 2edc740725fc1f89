// Package grade weighs a sample of the grain tank as a grader does: over and
// through the sieves of the U.S. standards, and finds its grade.
package grade

// Sample is what the tank took in, in kg, parted by the grader's sieves. Parts
// of one amount are named after it.
type Sample struct {
	Loose        float64 // kernels and parts of kernels out of their heads, pods or ears
	Through      float64 // of Loose through the crop's sieve
	Fine         float64 // of Through through the crop's second, finer sieve
	Parts        float64 // of Loose with more than a quarter of the kernel gone
	PartsThrough float64 // of Parts through the crop's sieve
	Chips        float64 // of Parts less than a quarter of a kernel
	Cracked      float64 // of Loose visibly damaged, with a quarter or less gone
	Light        float64 // of Loose light and shrunken kernels

	Headed float64 // grain still in heads, pods or ear pieces
	Husk   float64 // what holds it
	Chaff  float64 // chaff, husks, empty pods
	Straw  float64 // short and long straw, stem and cob pieces
	Weed   float64 // green weed
}

// Whole returns the mass of the sample as it lies in the tank, kg.
func (s *Sample) Whole() float64 {
	return s.Loose + s.Headed + s.Husk + s.Chaff + s.Straw + s.Weed
}
