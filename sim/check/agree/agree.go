// Package agree holds what dots came to, as counted in a run, against what a
// forecast expects of them. Only tests use it.
package agree

import (
	"math"
	"testing"
)

// deviations is how many standard errors of a count may lie between it and
// what is expected. Of some two thousand comparisons of normal counts at 4.5
// less than one in fifty whole sets of tests has one that fails by chance. Chosen.
const deviations = 4.5

// events is what a small count may miss beyond that, since the tail of a rare
// count is longer than that of a normal one. Chosen.
const events = 2

// Sheet is the comparisons of one run. Allowed is what the forecast may be off
// beyond chance: a share of the value, and for shares of a stream that large
// ones and small ones exchange, points of that stream.
type Sheet struct {
	T       testing.TB
	Allowed float64 // share of the value
	Points  float64 // of a share, 0 to 1
}

// Share holds part of whole, counts of things that went their way each for
// itself, against an expected share.
func (s Sheet) Share(what string, part, whole, want float64) {
	s.T.Helper()
	if whole <= 0 {
		s.T.Errorf("%s: nothing was counted", what)
		return
	}
	p := min(max(want, 0), 1)
	chance := (deviations*math.Sqrt(p*(1-p)*whole) + events) / whole
	s.hold(what, part/whole, want, chance+s.Allowed*min(p, 1-p)+s.Points)
}

// Value holds a value whose standard error is known against what is expected.
func (s Sheet) Value(what string, got, want, miss float64) {
	s.T.Helper()
	s.hold(what, got, want, deviations*miss+s.Allowed*math.Abs(want))
}

func (s Sheet) hold(what string, got, want, allowed float64) {
	s.T.Helper()
	if off := math.Abs(got - want); !(off <= allowed) {
		s.T.Errorf("%s: a run gives %.5g, the forecast %.5g; %.2g is allowed", what, got, want, allowed)
	}
}

// Of returns a sheet with other allowances.
func (s Sheet) Of(allowed, points float64) Sheet {
	s.Allowed, s.Points = allowed, points
	return s
}
