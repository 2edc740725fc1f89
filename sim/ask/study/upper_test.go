package study_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"riddle/sim/ask/study"
	"riddle/sim/setup"
	"riddle/sim/trade/crop"
)

// TestAnOverOpenUpperSieveCosts: opened beyond what is usual the upper sieve lets
// trash through, onto the lower sieve, into the returns and the tank (common
// practice). So the least cost lies within the usual range in every crop; opened
// as wide as it goes, or 1.6 times the start, it costs more by more than what is
// called as good, with more trash in the tank and more in the returns.
func TestAnOverOpenUpperSieveCosts(t *testing.T) {
	upper := setup.Find("upper-sieve")
	for _, name := range crop.Names() {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			s, err := setup.Default(name)
			require.NoError(t, err)
			usual, _ := upper.Usual(crop.Find(name))
			wide := min(1.6*upper.Get(&s), upper.To)
			w := study.Sweep{Base: s, Field: upper, From: usual.From, To: wide, Points: 2*int(wide-usual.From) + 1}
			c, err := w.Run(foretell)
			require.NoError(t, err)
			best, ok := c.Best(upper)
			require.True(t, ok)
			require.True(t, best.ByCost && best.Inside)
			require.LessOrEqual(t, best.At, usual.To, "of %g to %g mm", usual.From, usual.To)
			require.Less(t, best.To, wide, "it may be opened as far as you like")

			at, open := &c.Points[best.Point].Report, &c.Points[len(c.Points)-1].Report
			require.Greater(t, *open.Tank.Foreign, *at.Tank.Foreign)
			require.Greater(t, *study.ReturnsKgS(open), *study.ReturnsKgS(at))
		})
	}
}
