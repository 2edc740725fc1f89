package readout

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"riddle/sim/stage/flow"
)

// TestOriginIsWhatStoodThere: grain comes in at a density that differs from
// place to place, and leaves later. The area is where the density, summed from
// the start, comes to what has left: a slow twin walks it tick by tick.
func TestOriginIsWhatStoodThere(t *testing.T) {
	random := rand.New(rand.NewPCG(3, 4))
	var o Origin
	type tick struct {
		fed flow.Grain
		ha  float64
	}
	all := []tick{{}}
	o.Put(0, 0)
	var out flow.Grain
	const lag = 3000 // ticks, more than the marks that are kept
	for i := range 20000 {
		last := all[len(all)-1]
		now := tick{last.fed + random.Int64N(60), last.ha + 1e-6*random.Float64()}
		if i/4000%2 == 1 { // a bare strip: nothing comes in
			now.fed = last.fed
		}
		all = append(all, now)
		o.Put(now.fed, now.ha)
		if i > lag {
			out = max(out, all[i-lag].fed-random.Int64N(40))
		}
		got := o.Of(out)
		if i%97 != 0 {
			continue
		}
		k := 0
		for k+1 < len(all) && all[k+1].fed <= out {
			k++
		}
		require.InDelta(t, all[k].ha, got, 8e-6, "tick %d", i) // some marks are left out on the way
	}
}

// TestOriginOfNothing is nothing, and of all that came in it is all that was cut.
func TestOriginOfNothing(t *testing.T) {
	var o Origin
	require.Zero(t, o.Of(0))
	o.Put(0, 0)
	o.Put(0, 1) // a machine that drives over bare ground
	o.Put(100, 2)
	require.InDelta(t, 1.5, o.Of(50), 1e-12)
	require.Equal(t, 2.0, o.Of(100))
}
