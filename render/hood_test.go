package render

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"riddle/sim"
	"riddle/sim/setup"
	"riddle/sim/stage/section"
)

// Of a machine whose walkers are plugged nothing is drawn through the roof of
// the hood: neither the tint of the mat, nor an end of a stalk. The roof rises
// in straight lines from 2.40 m at x 0.25 by 2.58 at 2.20 to 3.00 at 4.50.
func TestNothingIsDrawnThroughTheHood(t *testing.T) {
	roof := func(x float64) float64 {
		switch {
		case x < 2.20:
			return 2.40 + (x-0.25)*0.18/1.95
		case x < 4.50:
			return 2.58 + (x-2.20)*0.42/2.30
		}
		return 3.00 - (x-4.50)*0.15/0.90
	}
	for name, alter := range map[string]func(*setup.Setup){
		"standing": func(s *setup.Setup) { s.Stopped |= setup.WalkerPart },
		"too fast": func(s *setup.Setup) { s.Settings.GroundSpeed = 14 },
	} {
		s, err := setup.Default("wheat")
		require.NoError(t, err)
		alter(&s)
		m, err := sim.New(s)
		require.NoError(t, err)
		for m.State().Condition != sim.Plugged {
			require.Less(t, m.Seconds(), 20.0)
			m.Step()
		}
		var snap sim.Snapshot
		m.Snapshot(&snap)
		z, _ := FindZone("whole")
		opt := Options{Zone: "whole", Theme: "paper", Width: 1440, Scale: 1}
		opt.Height = opt.HeightFor(z)
		var scene Scene
		scene.Set(opt, m.Crop())
		scene.Update(&snap, opt)
		v, stalks := opt.View(), 0
		high := func(x, y float32) float64 {
			q := v.Metres(Pt{x, y})
			if q.X < section.WalkerStart.X-0.3 || q.X > section.RearEdgeWalkers+0.3 || q.Y < section.WalkerHeight(q.X)-0.2 {
				return math.Inf(-1)
			}
			return q.Y - roof(q.X)
		}
		for _, list := range scene.Marks {
			for _, k := range list {
				if k.Tone != StrawTone || k.DX*k.DX < 16 {
					continue
				}
				stalks++
				require.Less(t, high(k.X+k.DX, k.Y+k.DY), 0.012, name)
				require.Less(t, high(k.X-k.DX, k.Y-k.DY), 0.012, name)
			}
		}
		require.Greater(t, stalks, 100)
		tinted := 0
		for i := range scene.Moving.Shapes {
			if sh := &scene.Moving.Shapes[i]; sh.Tone == Mat {
				for _, q := range scene.Moving.Of(sh) {
					tinted++
					require.Less(t, high(q.X, q.Y), 0.012, name)
				}
			}
		}
		require.Positive(t, tinted)
	}
}
