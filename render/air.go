package render

import (
	"math"

	"riddle/sim"
	"riddle/sim/stage/section"
)

const (
	// streakTime is the time in which air covers the length of its streak, s.
	streakTime  = 1.0 / 40
	streakPitch = 0.09 // m between streaks
)

// air draws the blast through the sieves as streaks: each is as long as the
// way that the air there covers in a fortieth of a second.
func (p *pen) air(snap *sim.Snapshot) {
	for row, l := range [...]section.Line{shift(section.UpperSieve, 0, -0.12), shift(section.UpperSieve, -0.05, 0.10)} {
		for s := streakPitch * (0.5 + 0.5*float64(row)); s < l.Length(); s += streakPitch {
			p.streak(along(l, s), airAt(snap, s/l.Length()))
		}
	}
}

// airAt returns the blast at a share of the sieve's length, m/s.
func airAt(snap *sim.Snapshot, t float64) float64 {
	x := min(max(t*3-0.5, 0), 2)
	i := min(int(x), 1)
	return snap.Air[i] + (x-float64(i))*(snap.Air[i+1]-snap.Air[i])
}

// streak draws a hairline with a tapered tail whose middle is at q.
func (p *pen) streak(q section.Point, v float64) {
	sin, cos := math.Sincos(rad(section.BlastAngle))
	half := v * streakTime / 2
	w := float64(p.width[fine]) * 0.75 / p.view.K
	head, tail := pt(q.X+half*cos, q.Y+half*sin), pt(q.X-half*cos, q.Y-half*sin)
	p.fill(AirTone, tail, pt(head.X+w*sin, head.Y-w*cos), pt(head.X-w*sin, head.Y+w*cos))
}
