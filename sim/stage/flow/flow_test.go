package flow

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"riddle/sim/stage/section"
)

// Fall from rest with Vt 8 m/s for 0.5 s in still air: v = Vt tanh(g t/Vt) and
// y = (Vt²/g) ln cosh(g t/Vt), the closed form of quadratic drag.
func TestFallAgreesWithTheClosedForm(t *testing.T) {
	wantV, wantY := 8*math.Tanh(Gravity*0.5/8), 64/Gravity*math.Log(math.Cosh(Gravity*0.5/8))
	fall := func(hz int) (v, y float64) {
		d := Dot{Vt: 8}
		for range hz / 2 {
			d.Fly(0, 0, 1/float32(hz), PullOn(0))
		}
		return -float64(d.VY), -float64(d.Y)
	}
	v, y := fall(120)
	require.InEpsilon(t, wantV, v, 1e-3)
	require.InEpsilon(t, wantY, y, 1e-3)
	coarseV, coarseY := fall(16)
	require.Greater(t, math.Abs(coarseV-wantV), math.Abs(v-wantV))
	require.Greater(t, math.Abs(coarseY-wantY), math.Abs(y-wantY))
}

// In an upward stream of its terminal velocity a dot at rest stays at rest.
func TestHoversAtTerminalVelocity(t *testing.T) {
	d := Dot{Vt: 6.6}
	for range 1200 {
		d.Fly(0, 6.6, 1.0/120, PullOn(0))
	}
	require.InDelta(t, 0, d.VY, 1e-3)
}

// HappensAt comes with the chance 1 − e^−x, Wait with the mean 1/rate; both
// within four standard errors of many draws.
func TestChances(t *testing.T) {
	s := NewStream(3, 1)
	for _, x := range []float64{0.01, 0.3, 2} {
		const n = 200000
		hits, sum := 0, 0.0
		for range n {
			if s.HappensAt(float32(x)) {
				hits++
			}
			sum += s.Wait(x)
		}
		p := 1 - math.Exp(-x)
		require.InDelta(t, p, float64(hits)/n, 4*math.Sqrt(p*(1-p)/n))
		require.InDelta(t, 1/x, sum/n, 4/x/math.Sqrt(n))
	}
}

func TestNormalHasItsMoments(t *testing.T) {
	s := NewStream(5, 2)
	const n = 200000
	sum, sq := 0.0, 0.0
	for range n {
		v := float64(s.Normal(8, 0.8))
		sum += v
		sq += (v - 8) * (v - 8)
		require.InDelta(t, 8, v, 2.4001)
	}
	require.InDelta(t, 8, sum/n, 4*0.8/math.Sqrt(n))
	// Cut at three standard deviations a normal keeps 0.9866 of its spread.
	require.InDelta(t, 0.9866*0.8, math.Sqrt(sq/n), 0.006)
}

func TestPathKeepsItsLength(t *testing.T) {
	p := NewPath(section.Point{X: 0, Y: 0}, section.Point{X: 3, Y: 4}, section.Point{X: 3, Y: 6})
	require.InDelta(t, 7, p.Length, 1e-6)
	d := Dot{S: 2.5}
	p.Place(&d, 0)
	require.InDelta(t, 1.5, d.X, 1e-6)
	require.InDelta(t, 2.0, d.Y, 1e-6)
	d.S = 6
	p.Place(&d, 0.5) // lifted at right angles to a rising stretch
	require.InDelta(t, 2.5, d.X, 1e-6)
	require.InDelta(t, 5, d.Y, 1e-6)
}

func TestSwarmKeepsEveryDot(t *testing.T) {
	a, b := NewSwarm(4), NewSwarm(4)
	for i := range 10 {
		a.Add(Dot{ID: uint32(i), Grain: 4, Mass: 7})
	}
	a.Move(0, &b)
	a.Move(8, &b)
	ga, ma := a.Content()
	gb, mb := b.Content()
	require.Equal(t, int64(40), ga+gb)
	require.Equal(t, int64(70), ma+mb)
	require.Equal(t, 2, b.Len())
}
