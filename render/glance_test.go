package render

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"riddle/sim"
	"riddle/sim/setup"
	"riddle/sim/stage/flow"
	"riddle/sim/stage/section"
)

// glance is what stills of the shoe and the walkers show, m, on average and with
// the standard deviation from still to still.
type glance struct {
	flying, lying measure // how high over the upper sieve the chaff is that is in the air, and that lies on it
	straw         measure // how thick the straw lies on the walkers
}

type measure struct{ mean, sd float64 }

// glanceAt looks at a machine that has settled, half a second between stills.
// Heights are over the sieve where it stands in the still: its shaking moves it
// up and down by more than the chaff on it is deep.
func glanceAt(t *testing.T, alter func(*setup.Settings)) glance {
	t.Helper()
	s, err := setup.Default("wheat")
	require.NoError(t, err)
	alter(&s.Settings)
	m, err := sim.New(s)
	require.NoError(t, err)
	const settle, stills = 28 * sim.TickHz, 24
	for range settle {
		m.Step()
	}
	var snap sim.Snapshot
	var flying, lying, straw []float64
	for range stills {
		for range sim.TickHz / 2 {
			m.Step()
		}
		m.Snapshot(&snap)
		sieve := shaken(section.UpperSieve, section.ShakeAmplitude*math.Sin(snap.ShakePhase))
		var air, mat []float64
		for _, d := range snap.Dots[sim.Upper] {
			switch x := float64(d.X); {
			case d.Kind != flow.Chaff || x < section.UpperSieve.A.X || x > section.UpperSieve.B.X:
			case d.Ride == flow.Airborne:
				air = append(air, float64(d.Y)-sieve.At(x))
			default:
				mat = append(mat, float64(d.Y)-sieve.At(x))
			}
		}
		require.NotEmpty(t, air)
		require.NotEmpty(t, mat)
		thick := 0.0
		for _, c := range snap.WalkerMat {
			thick += float64(c.Thick) / float64(len(snap.WalkerMat))
		}
		high, _ := meanAndSD(air)
		low, _ := meanAndSD(mat)
		flying, lying, straw = append(flying, high), append(lying, low), append(straw, thick)
	}
	return glance{measured(flying), measured(lying), measured(straw)}
}

func measured(v []float64) measure {
	mean, sd := meanAndSD(v)
	return measure{mean, sd}
}

// apartBy tells how many standard deviations of a still two measures differ,
// the greater of the two counting.
func apartBy(a, b measure) float64 { return math.Abs(a.mean-b.mean) / max(a.sd, b.sd) }

func meanAndSD(v []float64) (mean, sd float64) {
	for _, x := range v {
		mean += x / float64(len(v))
	}
	for _, x := range v {
		sd += (x - mean) * (x - mean) / float64(len(v)-1)
	}
	return mean, math.Sqrt(sd)
}

// Stills at a fan of 0.6, 1.0 and 1.5 times the right speed are told apart at a
// glance: the more air, the higher the chaff flies over the sieve, by more than
// three standard deviations of a still from one to the next. With too little it
// lies deep as well; with too much it lies hardly shallower than with enough.
func TestTheAirIsSeenInAStill(t *testing.T) {
	var seen []glance
	for _, k := range []float64{0.6, 1, 1.5} {
		seen = append(seen, glanceAt(t, func(s *setup.Settings) { s.Fan *= k }))
		t.Logf("fan × %v: %.4f", k, seen[len(seen)-1])
	}
	for i := 1; i < len(seen); i++ {
		a, b := seen[i-1], seen[i]
		assert.Greater(t, b.flying.mean, a.flying.mean)
		assert.Greater(t, apartBy(a.flying, b.flying), 3.0)
	}
	assert.Greater(t, seen[0].lying.mean, seen[1].lying.mean)
	assert.Greater(t, apartBy(seen[0].lying, seen[1].lying), 3.0)
}

// The same at half, once and 1.7 times the ground speed: the fuller the machine,
// the higher the chaff lies over the sieve, and the thicker the straw on the
// walkers. How high the chaff flies hangs on the air, and hardly on the feed.
func TestTheFeedIsSeenInAStill(t *testing.T) {
	var seen []glance
	for _, k := range []float64{0.5, 1, 1.7} {
		seen = append(seen, glanceAt(t, func(s *setup.Settings) { s.GroundSpeed *= k }))
		t.Logf("feed × %v: %.4f", k, seen[len(seen)-1])
	}
	for i := 1; i < len(seen); i++ {
		a, b := seen[i-1], seen[i]
		assert.Greater(t, b.lying.mean, a.lying.mean)
		assert.Greater(t, apartBy(a.lying, b.lying), 3.0)
		assert.Greater(t, b.straw.mean, a.straw.mean)
		assert.Greater(t, apartBy(a.straw, b.straw), 3.0)
	}
}
