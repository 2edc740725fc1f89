package study

import (
	"math"

	"riddle/sim/num"
	"riddle/sim/read/readout"
	"riddle/sim/setup"
	"riddle/sim/trade/crop"
)

// dim is one setting of a search: whole steps from the low end of its usual
// range.
type dim struct {
	field *setup.Field
	band  crop.Band
	last  int // highest step
}

func (d dim) value(step int) float64 {
	return math.Round(min(d.band.From+float64(float64(step)*d.field.Step), d.band.To)*1e6) / 1e6
}

// nearest returns the step nearest to a value.
func (d dim) nearest(v float64) int {
	return int(num.Clamp(math.Round((v-d.band.From)/d.field.Step), 0, float64(d.last)))
}

// most is how many settings a search can have.
const most = 12

// place is a setup of the search: a step for each dim.
type place [most]int

// answer is a setup with its report and cost; ok says that the machine may go
// on so.
type answer struct {
	at     place
	setup  setup.Setup
	report readout.Report
	cost   Cost
	ok     bool
}

// better reports whether a is to be preferred: one that may go on to one that
// may not, then the cheaper.
func (a *answer) better(b *answer) bool {
	if a.ok != b.ok {
		return a.ok
	}
	return a.ok && a.cost.Total < b.cost.Total
}

// primes are the bases of the scatter, one a setting.
var primes = [most]int{2, 3, 5, 7, 11, 13, 17, 19, 23, 29, 31, 37}

// scatter returns place i of a sequence that fills the ranges evenly: in each
// setting the digits of i in another prime base, mirrored at the point
// (J. H. Halton 1960, Numerische Mathematik 2:84–90).
func (s *search) scatter(i int) place {
	var p place
	for k := range s.dims {
		share, part := 0.0, 1.0
		for n := i; n > 0; n /= primes[k] {
			part /= float64(primes[k])
			share += float64(part * float64(n%primes[k]))
		}
		p[k] = min(int(float64(share*float64(s.dims[k].last+1))), s.dims[k].last)
	}
	return p
}

// place returns the place nearest to a setup.
func (s *search) place(of setup.Setup) place {
	var p place
	for i, d := range s.dims {
		p[i] = d.nearest(d.field.Get(&of))
	}
	return p
}

// setup returns the setup of a place.
func (s *search) setup(p place) (setup.Setup, error) {
	to := s.base
	for i, d := range s.dims {
		if err := d.field.Set(&to, d.value(p[i])); err != nil {
			return to, err
		}
	}
	return to, nil
}
