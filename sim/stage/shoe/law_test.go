package shoe

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"riddle/sim/stage/section"
	"riddle/sim/trade/crop"
)

// Fan laws at a fixed resistance (standard): flow grows as speed, pressure as
// its square.
func TestFanLaws(t *testing.T) {
	a, b := BlastOf(section.UpperLength, 800, 16, 8, [3]float64{}, [3]float64{}), BlastOf(section.UpperLength, 880, 16, 8, [3]float64{}, [3]float64{})
	require.InEpsilon(t, 1.1, b.Flow/a.Flow, 0.001)
	require.InEpsilon(t, 1.21, b.Pressure/a.Pressure, 0.001)
}

// Closing a sieve cuts the total flow and quickens the jet in its gap.
func TestClosingTheUpperSieve(t *testing.T) {
	open, shut := BlastOf(section.UpperLength, 800, 16.5, 8, [3]float64{}, [3]float64{}), BlastOf(section.UpperLength, 800, 10, 8, [3]float64{}, [3]float64{})
	require.Less(t, shut.Flow, open.Flow)
	require.Greater(t, shut.Vn[1]*25/10, open.Vn[1]*25/16.5)
}

// Strong in front, weak at the rear: about 4 to 6 m/s in the middle and 3 to 4
// at the rear of a rice shoe (Liang et al. 2020, Span. J. Agric. Res. 18(4)).
func TestBlastFallsToTheRear(t *testing.T) {
	b := BlastOf(section.UpperLength, 720, 14, 8, [3]float64{}, [3]float64{})
	require.Greater(t, b.V[0], b.V[1])
	require.Greater(t, b.V[1], b.V[2])
	require.InDelta(t, 5, b.V[1], 1)
}

// At lift-off the pressure across a mat equals its weight, W g.
func TestLiftOffBalances(t *testing.T) {
	const load, vmf = 2.0, 1.4
	pressure := MatResistance(load, vmf) * airDensity * vmf * vmf / 2
	require.InEpsilon(t, load*9.81, pressure, 1e-9)
}

// With rising air a mat goes from lying to open to flight, never back.
func TestPhasesComeInOrder(t *testing.T) {
	last := -1.0
	for v := 0.0; v < 6; v += 0.01 {
		o := Opened(v, 2.5)
		require.GreaterOrEqual(t, o, last)
		last = o
	}
	require.Zero(t, Opened(0.5, 2.5))
	require.Equal(t, 1.0, Opened(3, 2.5))
}

// Nothing passes an opening that it does not fit (geometry); a wider opening
// passes more.
func TestPassage(t *testing.T) {
	require.Zero(t, PassUpper(3, 3, 1, 8, 0))
	require.Zero(t, PassLower(3, 3.2, 1, 8, 1, 1))
	last := 0.0
	for o := 4.0; o <= 24; o++ {
		p := PassUpper(o, 3.1, 1, 8, 0.5)
		require.GreaterOrEqual(t, p, last)
		last = p
	}
	require.Less(t, PassUpper(16, 3.1, 2, 8, 1.5), PassUpper(16, 3.1, 2, 8, 0.2))
	require.Less(t, PassLower(8, 3.1, 1, 8, 3, 1), PassLower(8, 3.1, 1, 8, 1, 1))
}

// The sieve's throw index Aω²/g at 5 Hz and 18 mm is 1.811 (published form).
func TestThrowIndex(t *testing.T) {
	const w = 2 * math.Pi * 5
	require.InEpsilon(t, 1.811, 0.018*w*w/9.81, 0.001)
	require.InDelta(t, 1.2*w*0.018*0.5, LaunchSpeed, 1e-12)
}

// In every crop chaff is lighter than short straw, and an unthreshed piece
// lighter than a sound kernel (Trans. CSAE 2012 for soybeans; Womac et al. for
// straw); every kernel lies at or below the terminal velocity of the sphere of
// its mass, √(4 g d ρp/(3 ρ CD)) with CD 0.44.
func TestTerminalVelocitiesAreOrdered(t *testing.T) {
	density := map[string]float64{"wheat": 1300, "barley": 1250, "oats": 1150, "soybeans": 1200, "corn": 1250, "canola": 1100, "rice": 1150, "sorghum": 1270}
	for _, name := range crop.Names() {
		c := fit(name)
		require.Less(t, c.Chaff.Vt, c.Short.Vt, name)
		require.Less(t, c.Chaff.Vt, c.PieceVt, name)
		require.Less(t, c.PieceVt, c.Vt, name)
		require.Less(t, c.LightVt, c.Vt, name)
		d := math.Cbrt(6 * c.KernelKg() / (math.Pi * density[name]))
		sphere := math.Sqrt(4 * 9.81 * d * density[name] / (3 * 1.2 * 0.44))
		require.GreaterOrEqual(t, c.Vt/sphere, 0.55, name)
		require.LessOrEqual(t, c.Vt/sphere, 1.0, name)
	}
}
