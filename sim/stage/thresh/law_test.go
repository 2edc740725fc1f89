package thresh

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"riddle/sim/setup"
)

// The two-stage law of Miu & Kutzbach 2008 is held against a slow numeric
// integration of its differential equations, du/dx = −λu, ds/dx = β(1−u−s).
func TestClosedFormsAgreeWithTheEquations(t *testing.T) {
	for _, c := range []struct{ lambda, beta float64 }{{7.871, 3.919}, {4, 4}, {3, 9}, {12, 0.5}} {
		u, s := 1.0, 0.0
		const steps = 200000
		dx := 0.65 / steps
		for range steps { // midpoint rule
			mu := u - c.lambda*u*dx/2
			ms := s + c.beta*(1-u-s)*dx/2
			u, s = u-c.lambda*mu*dx, s+c.beta*(1-mu-ms)*dx
		}
		require.InDelta(t, u, Unthreshed(c.lambda, 0.65), 1e-6)
		require.InDelta(t, s, Separated(c.lambda, c.beta, 0.65), 1e-6)
		require.InDelta(t, 1, Unthreshed(c.lambda, 0.3)+Free(c.lambda, c.beta, 0.3)+Separated(c.lambda, c.beta, 0.3), 1e-9)
	}
}

// Worked figures of the two-stage law, by hand: λ 7.871, β 3.919, L 0.65 m
// gives U 0.0060, S 0.850; S at quarter lengths 0.222, 0.520, 0.727. With
// λ = β = 4: 1 − (1 + 2.6) e^−2.6 = 0.7326.
func TestWorkedFigures(t *testing.T) {
	require.InDelta(t, 0.0060, Unthreshed(7.871, 0.65), 0.0002)
	for i, want := range []float64{0.222, 0.520, 0.727, 0.850} {
		require.InDelta(t, want, Separated(7.871, 3.919, 0.65*float64(i+1)/4), 0.002)
	}
	require.InDelta(t, 0.7326, Separated(4, 4, 0.65), 1e-4)
}

func TestChaffRateReachesItsShare(t *testing.T) {
	for _, want := range []float64{0.2, 0.5, 0.825} {
		require.InDelta(t, want, Separated(7.95, ChaffRate(7.95, want, 0.65), 0.65), 1e-4)
	}
}

// Overload cases of the drive (calibrated against the reference's own
// simulation, not a measurement): feed over rated, for seconds, stalls or not.
func TestOverloadCases(t *testing.T) {
	for _, c := range []struct {
		feed, seconds float64
		stalls        bool
		dip           float64 // least speed, where it recovers
	}{{2.5, 3, false, 0.95}, {3, 1, false, 0.78}, {3, 2, true, 0}, {4, 0.5, false, 0.68}, {4, 1, true, 0}} {
		d, low, dt := Drive{X: 1}, 1.0, 1.0/240
		for i := range 240 * 10 {
			work := 29.25
			if float64(i)*dt < c.seconds {
				work *= c.feed
			}
			d.Turn(6, work, 90, dt)
			low = min(low, d.X)
			if d.Stalled() {
				break
			}
		}
		require.Equal(t, c.stalls, d.Stalled(), "%v times for %v s", c.feed, c.seconds)
		if !c.stalls {
			require.InDelta(t, c.dip, low, 0.03, "%v times for %v s", c.feed, c.seconds)
		}
	}
}

// Power at rated wheat is half of 20 + 3.6·14.0 = 70 kW (ASAE D497 from
// memory; that the cylinder takes half is Dodds 1968), and grows by 7.5 kJ a
// kilogram of MOG over 6 kW of idling.
func TestPower(t *testing.T) {
	s, err := setup.Default("wheat")
	require.NoError(t, err)
	c := fit("wheat")
	cond := c.In(13, 12, 0, 1)
	p := Power(c, &s.Settings, &cond, 3.9)
	require.InDelta(t, 35, p, 1)
	require.InDelta(t, 7.5, (Power(c, &s.Settings, &cond, 7.8)-p)/3.9, 0.075)
	require.InDelta(t, 6, Power(c, &s.Settings, &cond, 0), 0.06)
}

// Drum speed acts about three times as strongly on damage as the gap (trade
// press on soybeans: between 2.3 and 3.6 times).
func TestSpeedDamagesThriceAsMuchAsTheGap(t *testing.T) {
	s, err := setup.Default("soybeans")
	require.NoError(t, err)
	c := fit("soybeans")
	cond := c.In(13, 15, 0, 1)
	d := func(speed, gap float64) float64 {
		return math.Log(RatesOf(c, &s, &cond, Load{Speed: speed, Gap: gap, Feed: 1}).Damage)
	}
	ratio := (d(1.1, 1) - d(1, 1)) / (d(1, 0.9) - d(1, 1))
	require.GreaterOrEqual(t, ratio, 2.3)
	require.LessOrEqual(t, ratio, 3.6)
}

func TestCornGapsFitEarAndCob(t *testing.T) {
	front, rear := Gaps(fit("corn"), 28)
	require.InDelta(t, 28, (front+rear)/2, 1e-9)
	require.InDelta(t, 1.3, front/rear, 1e-9)
	front, rear = Gaps(fit("wheat"), 10)
	require.InDelta(t, 2, front/rear, 1e-9)
	require.InDelta(t, 10, (front+rear)/2, 1e-9)
}
