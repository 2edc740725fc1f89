package shoe

import (
	"testing"

	"github.com/stretchr/testify/require"

	"riddle/sim/setup"
	"riddle/sim/stage/flow"
	"riddle/sim/stage/section"
)

// However much lies on the upper sieve, it ends under the walkers' pan: with
// 200 kg/m², metres of loose chaff, its top stands between the two all along,
// and what the air takes off it starts from there. A thin mat is not pressed.
func TestAMatUnderThePanIsPressed(t *testing.T) {
	c := fit("wheat")
	set, err := setup.Default(c.Name)
	require.NoError(t, err)
	cond := c.In(set.Conditions.GrainMoisture, set.Conditions.StrawMoisture, 0, 0)
	for _, load := range []float32{0.2, 200} {
		s := without(c)
		s.drive(&set, 1)
		for i := range s.UpperMat.Load {
			s.UpperMat.Load[i], s.felt[i] = load, bed{float64(load), 2}
		}
		s.setUpper(&set, &cond)
		for i := range s.upper {
			u, x := &s.upper[i], s.UpperMat.Middle(i)
			room := section.WalkerPan.At(float64(x)) - section.UpperSieve.At(float64(x))
			if load < 1 {
				require.InDelta(t, float64(load)/c.MatDensity, s.Deep(i), 1e-6)
				require.Equal(t, u.thick, u.deep)
				continue
			}
			require.Greater(t, float64(u.thick), room, "it would not fit")
			for _, deep := range []float32{u.deep, s.Deep(i)} {
				require.Less(t, float64(deep), room)
				require.Greater(t, float64(deep), 0.9*room, "it fills its room")
			}
			d := flow.Dot{X: x, Y: float32(section.UpperSieve.At(float64(x))), Kind: flow.Chaff}
			s.leaveMat(&d, u)
			require.Less(t, float64(d.Y), section.WalkerPan.At(float64(x)))
		}
	}
}
