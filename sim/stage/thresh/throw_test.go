package thresh

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"riddle/sim/setup"
	"riddle/sim/stage/flow"
	"riddle/sim/stage/section"
)

// What falls through the grate is thrown on along it by the cylinder as it turns
// now: twice the speed throws it twice as fast. Out of the grate it goes alike. At
// 1,000 rpm bars on 0.60 m go 31.4 m/s, the crop at 0.3 of that, and what
// falls through at 0.12 of the crop's: 1.131 m/s.
func TestACylinderThrowsAsFastAsItTurns(t *testing.T) {
	along := func(rpm float64) float64 {
		c := fit("wheat")
		set, err := setup.Default(c.Name)
		require.NoError(t, err)
		set.Settings.CylinderSpeed = rpm
		var id uint32
		s := New(c, flow.NewStream(7, 1), &id)
		var tally flow.Tally
		p := s.passOf(&set, benchTick)
		s.through(flow.Dot{Kind: flow.Sound, Grain: flow.Kernel, Along: section.ConcaveLength / 2}, &p, &tally)
		d := &s.Under.Dots[0]
		a := (section.ConcaveFrom + section.ConcaveTo) / 2 * math.Pi / 180 // the middle of the concave
		require.InDelta(t, throwOut, float64(d.VX)*math.Cos(a)+float64(d.VY)*math.Sin(a), 1e-6)
		return float64(d.VY)*math.Cos(a) - float64(d.VX)*math.Sin(a)
	}
	require.InDelta(t, 1.131, along(1000), 0.0005)
	require.InEpsilon(t, 2, along(1200)/along(600), 1e-6)
}
