package bridge

import (
	"cmp"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"riddle/sim"
	"riddle/sim/ask/forecast"
	"riddle/sim/setup"
	"riddle/sim/trade/quantity"
	"riddle/web/curve"
	"riddle/web/reading"
	"riddle/web/speak"
)

// A curve is the forecast, point by point, and computing it leaves the machine
// alone.
func TestCurveIsTheForecast(t *testing.T) {
	s := NewSession()
	send(t, s, Command{Do: "step", Value: sim.TickHz})
	digest := s.run.Machine.Digest()
	require.Empty(t, s.Curve("fan-speed").Points)
	breaths := 0
	for s.curve.Making() {
		s.curve.Work(func() bool { return true })
		breaths++
	}
	require.Greater(t, breaths, 4*curve.Steps, "it never holds up a frame for a whole forecast")
	c := s.Curve("fan-speed")
	require.True(t, c.Done)
	require.Greater(t, len(c.Points), curve.Steps+1, "it looks closer where the best is")
	require.LessOrEqual(t, len(c.Points), curve.Steps+1+2*curve.CloseUps)
	require.True(t, slices.IsSortedFunc(c.Points, func(a, b curve.Point) int { return cmp.Compare(a.At, b.At) }))
	require.Equal(t, digest, s.run.Machine.Digest())

	set := s.run.Machine.Setup()
	require.NoError(t, setup.Find("fan-speed").Set(&set, c.Points[3].At))
	report, err := forecast.Report(set)
	require.NoError(t, err)
	require.Equal(t, *report.Loss.Shoe, *c.Points[3].Loss[3])

	send(t, s, Command{Do: "set", Name: "fan-speed", Text: "1000"})
	require.True(t, s.Curve("fan-speed").Done, "the setting itself moves only where one is")
	require.Equal(t, 1000.0, s.Curve("fan-speed").Here)
	send(t, s, Command{Do: "set", Name: "upper-sieve", Text: "12"})
	require.False(t, s.Curve("fan-speed").Done)
	s.curve.Work(func() bool { return true })
	require.Equal(t, "upper-sieve", s.Curve("upper-sieve").Field) // gives the other up in the middle
	require.Nil(t, s.Curve("chopper"))
	require.Nil(t, s.Curve("nothing"))
}

// The best value is that of least cost, at the page's price and in its units:
// where the cutter bar passes over the heads, of which it misses all at a metre,
// a hectare costs all that stood there.
func TestCurveNamesNoWorst(t *testing.T) {
	s := NewSession()
	send(t, s, Command{Do: "crop", Name: "oats"})
	send(t, s, Command{Do: "set", Name: "cutting-height", Text: "100"})
	s.Curve("cutting-height")
	for s.curve.Making() {
		s.curve.Work(func() bool { return false })
	}
	c := s.Curve("cutting-height")
	last, best := c.Points[len(c.Points)-1], c.Best
	require.Greater(t, *last.Loss[reading.RowCount-1], 50.0)
	require.Less(t, best.At, 60.0)
	require.Equal(t, "ha", best.Land)
	for _, p := range c.Points {
		if cost := p.Report.Money.WholeHa; cost != nil { // of nothing in the tank there is none
			require.LessOrEqual(t, *best.PerLand, *cost+1e-9)
		}
	}
	s.system = quantity.Customary
	require.InEpsilon(t, *best.PerLand/2.47105, *s.Curve("cutting-height").Best.PerLand, 1e-5) // acres a hectare
	s.price *= 2
	require.Greater(t, *s.Curve("cutting-height").Best.PerLand, *best.PerLand/2.47105)
	s.price = 0
	least := s.Curve("cutting-height").Best
	require.Nil(t, least.PerLand)
	for _, p := range c.Points {
		require.LessOrEqual(t, *least.Loss, *p.Loss[reading.RowCount-1])
	}
}

// On a slope the curve of the fan is that of the slope, and so is the best
// value that it names: as the trade has it less air uphill than downhill. The
// next point on each side is no more than a sixteenth of the usual range away.
func TestCurveOnASlopeIsOfTheSlope(t *testing.T) {
	s := NewSession()
	send(t, s, Command{Do: "crop", Name: "canola"})
	best := map[float64]*curve.Best{}
	for _, degrees := range []float64{8, 4, 0, -4, -8} {
		require.Empty(t, send(t, s, Command{Do: "set", Name: "fore-slope", Text: speak.Trim(degrees)}).Error)
		s.Curve("fan-speed")
		for s.curve.Making() {
			s.curve.Work(func() bool { return false })
		}
		c := s.Curve("fan-speed")
		for _, p := range c.Points {
			set := s.run.Machine.Setup()
			require.Equal(t, degrees, set.Conditions.ForeSlope)
			require.NoError(t, setup.Find("fan-speed").Set(&set, p.At))
			report, err := forecast.Report(set)
			require.NoError(t, err)
			require.Equal(t, *report.Loss.Total, *p.Loss[reading.RowCount-1])
			require.LessOrEqual(t, *c.Best.PerLand, *report.Money.WholeHa+1e-9, "%g° at %g", degrees, p.At)
		}
		best[degrees] = c.Best
		require.LessOrEqual(t, c.Best.From, c.Best.At)
		require.GreaterOrEqual(t, c.Best.To, c.Best.At)
		at := slices.IndexFunc(c.Points, func(p curve.Point) bool { return p.At == c.Best.At })
		wide := (c.Usual[0].To - c.Usual[0].From) / 16
		require.LessOrEqual(t, c.Points[at+1].At-c.Best.At, max(wide, 20))
		require.LessOrEqual(t, c.Best.At-c.Points[at-1].At, max(wide, 20))
	}
	require.Less(t, best[8].To, best[-8].From, "%+v uphill, %+v downhill", best[8], best[-8])
	require.LessOrEqual(t, best[4].At, best[0].To)
	require.GreaterOrEqual(t, best[-4].At, best[0].From)
}
