package render

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"riddle/sim"
	"riddle/sim/flow"
	"riddle/sim/section"
	"riddle/sim/setup"
)

// glance is what stills of the shoe show, on average and with the standard
// deviation from still to still: how high over the upper sieve the chaff flies
// that is in the air, and how thick the straw lies on the walkers, m.
type glance struct{ height, heightSD, straw, strawSD float64 }

// glanceAt looks at a machine that has settled, half a second between stills.
func glanceAt(t *testing.T, alter func(*setup.Settings)) glance {
	t.Helper()
	s, err := setup.Default("wheat")
	require.NoError(t, err)
	alter(&s.Settings)
	m, err := sim.New(s)
	require.NoError(t, err)
	const settle, stills = 28 * sim.TickHz, 12
	for range settle {
		m.Step()
	}
	var snap sim.Snapshot
	var heights, straw []float64
	for range stills {
		for range sim.TickHz / 2 {
			m.Step()
		}
		m.Snapshot(&snap)
		sum, flying := 0.0, 0.0
		for p := range snap.Dots {
			for _, d := range snap.Dots[p] {
				x, y := float64(d.X), float64(d.Y)
				over := y - section.UpperSieve.At(x)
				if x < section.UpperSieve.A.X || x > section.UpperSieve.B.X || over < -0.005 || y > section.WalkerPan.At(x) {
					continue
				}
				if d.Kind == flow.Chaff && d.Ride == flow.Airborne {
					sum += over
					flying++
				}
			}
		}
		require.Positive(t, flying)
		thick := 0.0
		for _, c := range snap.WalkerMat {
			thick += float64(c.Thick) / float64(len(snap.WalkerMat))
		}
		heights, straw = append(heights, sum/flying), append(straw, thick)
	}
	g := glance{}
	g.height, g.heightSD = meanAndSD(heights)
	g.straw, g.strawSD = meanAndSD(straw)
	return g
}

func meanAndSD(v []float64) (mean, sd float64) {
	for _, x := range v {
		mean += x / float64(len(v))
	}
	for _, x := range v {
		sd += (x - mean) * (x - mean) / float64(len(v)-1)
	}
	return mean, math.Sqrt(sd)
}

// Stills at a fan of 0.6, 1.0 and 1.5 times the right speed are told
// apart at a glance: the more air, the higher the chaff flies over the sieve,
// by more than three standard deviations from one to the next.
func TestTheAirIsSeenInAStill(t *testing.T) {
	var seen []glance
	for _, k := range []float64{0.6, 1, 1.5} {
		seen = append(seen, glanceAt(t, func(s *setup.Settings) { s.Fan *= k }))
		t.Logf("fan × %v: %+v", k, seen[len(seen)-1])
	}
	for i := 1; i < len(seen); i++ {
		assert.Greater(t, seen[i].height-seen[i-1].height, 3*max(seen[i].heightSD, seen[i-1].heightSD), "%+v", seen)
	}
}

// The same at half, once and 1.7 times the ground speed: the fuller the
// machine, the thicker the straw lies on the walkers.
func TestTheFeedIsSeenInAStill(t *testing.T) {
	var seen []glance
	for _, k := range []float64{0.5, 1, 1.7} {
		seen = append(seen, glanceAt(t, func(s *setup.Settings) { s.GroundSpeed *= k }))
		t.Logf("feed × %v: %+v", k, seen[len(seen)-1])
	}
	for i := 1; i < len(seen); i++ {
		assert.Greater(t, seen[i].straw-seen[i-1].straw, 3*max(seen[i].strawSD, seen[i-1].strawSD), "%+v", seen)
	}
}
