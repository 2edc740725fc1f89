package shoe

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"riddle/sim/setup"
	"riddle/sim/stage/flow"
	"riddle/sim/stage/section"
)

// evenShoe is a shoe in wheat with an even blast, m/s, under an even mat, kg/m²,
// on which kernels of one terminal velocity ride; step and twin share it.
func evenShoe(t *testing.T, blast, load, vt float64) *Twin {
	t.Helper()
	c := fit("wheat")
	set, err := setup.Default(c.Name)
	require.NoError(t, err)
	cond := c.In(set.Conditions.GrainMoisture, set.Conditions.StrawMoisture, 0, 0)
	w := NewTwin(c, []flow.Bin{{Kind: flow.Sound, Vt: float32(vt), Size: float32(c.Size), Share: 1}})
	w.set, w.cond = &set, &cond
	w.s.rng = flow.NewStream(7, 3)
	w.s.drive(&set, 1)
	w.s.Air = Blast{V: [3]float64{blast, blast, blast}, Over: [3]float64{blast, blast, blast}}
	for i := range w.s.felt {
		w.s.felt[i] = bed{load, c.Chaff.Vt}
	}
	w.s.setUpper(&set, &cond)
	return w
}

// stepOut lets the step carry kernels in the mat to the rear edge, and returns
// the shares that it lifts out of the mat and that it lets sink to the sieve.
func stepOut(w *Twin, vt float64, kernels int) (lifted, sunk float64) {
	for range kernels {
		d := flow.Dot{Kind: flow.Sound, Grain: flow.Kernel, Vt: float32(vt), X: float32(w.from), Level: 0.5, Ride: flow.InMat}
		for d.Ride == flow.InMat && d.X < section.RearEdgeShoe {
			w.s.rideGrain(&d, &w.s.upper[w.s.UpperMat.Cell(d.X)], w.cond, 0, twinTick)
		}
		switch d.Ride {
		case flow.Airborne:
			lifted += 1 / float64(kernels)
		case flow.OnSieve:
			sunk += 1 / float64(kernels)
		}
	}
	return lifted, sunk
}

// twinOut does the same in the forecast: the share that stays in the mat, and
// whether any meets the sieve, where all that is lifted flies over the rear edge.
func twinOut(w *Twin, mm float64) (stays float64, meets bool) {
	g := &w.groups[0]
	g.fly(w)
	g.meet(w)
	for i := range g.raised.dx {
		g.raised.dx[i] = 2 * section.UpperLength
	}
	stays = 1
	for i := range w.uppers {
		stays *= 1 - g.sinks[w.upperCellAt(i)]
	}
	m := march{t: w, g: g, f: &Shares{}}
	m.inMat[0] = 1
	m.upper(mm, &[lowerMost + 1]float64{})
	return stays, m.contact != [upperMost + 1]float64{}
}

// Grain in the mat that the air is strong enough to carry never sinks to the
// sieve: it is lifted out, 0.75 of it a metre, or rides over. Grain that is
// heavier is never lifted, and sinks the slower the nearer the air comes to its
// weight. So in the step and in the forecast; where all is even, what still lies
// in the mat at the rear is e to the power of minus rate times way.
func TestHeldGrainDoesNotSink(t *testing.T) {
	const (
		blast, load = 6.0, 1.0 // m/s, kg/m²
		kernels     = 4000
		way         = section.RearEdgeShoe - 1.78 // m, from the end of the pre-sieve
	)
	air := blast * math.Sqrt(0.5) // V √(sin 30°)
	for _, c := range []struct {
		what string
		vt   float64 // over the lifting air
		held bool
	}{{"far lighter", 0.4, true}, {"a little lighter", 0.95, true}, {"a little heavier", 1.05, false}, {"far heavier", 1.4, false}} {
		vt := c.vt * air
		w := evenShoe(t, blast, load, vt)
		rate := 0.75
		if u := &w.s.upper[0]; !c.held {
			rate = SinkSpeed(w.s.crop, w.cond.Damp, 1, air, vt) / (load / w.s.crop.MatDensity * float64(u.speed)) // the mat flies
		}
		want := math.Exp(-rate * way)

		lifted, sunk := stepOut(w, vt, kernels)
		stays, meets := twinOut(w, w.s.crop.Size)
		require.InDelta(t, want, 1-lifted-sunk, 4*math.Sqrt(want*(1-want)/kernels)+0.003, "%s: in the step", c.what)
		require.InDelta(t, want, stays, 1e-6, "%s: in the forecast", c.what)
		require.Equal(t, c.held, sunk == 0, "%s: %.3f sinks in the step", c.what, sunk)
		require.Equal(t, !c.held, lifted == 0, "%s: %.3f is lifted in the step", c.what, lifted)
		require.Equal(t, !c.held, meets, "%s: meets the sieve in the forecast", c.what)
	}
}
