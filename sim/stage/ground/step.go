// Package ground follows what has left the machine: lost grain, straw and chaff
// fly, land, and stay behind as the machine drives on.
package ground

import (
	"riddle/sim/stage/design"
	"riddle/sim/stage/flow"
)

// slide is the least speed on the tail plate, m/s: it shakes with the shoe.
// Calibrated.
const slide = 0.5

// window is how far behind the machine dots are followed, m (x). Chosen.
const window = 8.5

// tailLayer is the depth over which what slides lies on the tail plate, m, and
// tailCatch how far under its face it is still caught. Chosen.
const tailLayer, tailCatch = 0.02, 0.12

// What comes as near as touch to the ground lies there, from lies upwards over
// a layer, m. Chosen.
const touch, lies, layer = 0.01, 0.005, 0.02

// Stage is the air and ground behind the machine.
type Stage struct {
	Lost flow.Swarm

	tail flow.Surface // plate behind the shoe
}

// onTail holds up what slides over the tail plate of the shoe.
func (s *Stage) onTail(d *flow.Dot) {
	if d.X < s.tail.From || d.X > s.tail.To {
		return
	}
	if top := s.tail.At(d.X) + float32(tailLayer*d.Level); d.Y < top && d.Y > top-tailCatch {
		d.Y, d.VX, d.VY = top, max(d.VX, slide), 0
	}
}

// New returns a clean stubble behind a machine.
func New(plan *design.Plan) *Stage {
	return &Stage{Lost: flow.NewSwarm(16384), tail: flow.NewSurface(plan.TailPlate)}
}

// Step lets everything fly or lie for dt seconds while the machine drives on
// at speed m/s, under the pull of gravity.
func (s *Stage) Step(speed, dt float32, pull flow.Pull) {
	for i := 0; i < len(s.Lost.Dots); i++ {
		d := &s.Lost.Dots[i]
		if d.Ride == flow.AtRest {
			d.X += float32(speed * dt)
			if d.X > window {
				s.Lost.Remove(i)
				i--
			}
			continue
		}
		d.Fly(0, 0, dt, pull)
		s.onTail(d)
		if d.Y <= touch {
			d.Y, d.Ride, d.VX, d.VY = lies+float32(d.Level*layer), flow.AtRest, 0, 0
		}
	}
}
