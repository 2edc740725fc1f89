package flow

import (
	"math/rand/v2"

	"riddle/sim/num"
)

// Stream is one stage's own stream of random numbers, so that a change in one
// stage leaves the draws of the others alone.
type Stream struct {
	pcg *rand.PCG
}

// NewStream returns stream number id of a run's seed.
func NewStream(seed, id uint64) Stream {
	return Stream{rand.NewPCG(seed, id*0x9e3779b97f4a7c15+0x632be59bd9b4e019)}
}

// CopyTo makes another stream go on as this one does, each by itself.
func (s Stream) CopyTo(to *Stream) {
	if to.pcg == nil {
		to.pcg = &rand.PCG{}
	}
	*to.pcg = *s.pcg
}

// Float returns a number evenly spread over 0 ≤ u < 1, in steps of 2⁻²⁴.
func (s Stream) Float() float32 { return float32(s.pcg.Uint64()>>40) * (1.0 / (1 << 24)) }

// Happens reports whether a thing with the given chance happens.
func (s Stream) Happens(chance float32) bool { return s.Float() < chance }

// HappensAt reports whether a thing that comes at the given rate comes within
// a step, where x is rate times step: the chance is 1 − e**−x.
func (s Stream) HappensAt(x float32) bool {
	u := s.Float()
	if u >= x { // 1 − e**−x never exceeds x
		return false
	}
	return u < float32(num.Chance(float64(x)))
}

// Wait returns the distance to the next event of a thing that comes at the
// given rate per unit of distance.
func (s Stream) Wait(rate float64) float64 {
	if rate <= 0 {
		return 1e30
	}
	u := float64(float64(s.pcg.Uint64()>>11) * (1.0 / (1 << 53)))
	return -num.Log(1-u) / rate
}

// Between returns a number evenly spread over lo ≤ u < hi.
func (s Stream) Between(lo, hi float32) float32 { return lo + float32((hi-lo)*s.Float()) }

// Normal returns a draw from a normal distribution, cut at three standard
// deviations, by the polar method of G. Marsaglia and T. Bray 1964, SIAM Review
// 6:260.
func (s Stream) Normal(mean, sd float64) float32 {
	for {
		a := float64(float64(s.Float())*2) - 1
		b := float64(float64(s.Float())*2) - 1
		q := float64(a*a) + float64(b*b)
		if q >= 1 || q == 0 {
			continue
		}
		z := a * sqrt(-2*num.Log(q)/q)
		if z > 3 || z < -3 {
			continue
		}
		return float32(mean + float64(sd*z))
	}
}

// NormalBelow returns a draw from a normal distribution on the condition that
// it lies below the limit; where that is rarer than one in fifty it returns a
// value just under the limit.
func (s Stream) NormalBelow(mean, sd float64, limit float32) float32 {
	for range 50 {
		if v := s.Normal(mean, sd); v < limit {
			return v
		}
	}
	return limit * 0.98
}

// State returns the whole state of the stream, for the digest.
func (s Stream) State() []byte {
	b, err := s.pcg.MarshalBinary()
	if err != nil {
		panic(err) // PCG documents that it cannot fail
	}
	return b
}
