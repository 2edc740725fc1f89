package thresh

import (
	"riddle/sim/num"
	"riddle/sim/stage/design"
	"riddle/sim/stage/fault"
	"riddle/sim/stage/flow"
)

// A grate with closed wires. What comes to an open wire falls through, as in a
// sound machine; what comes to a closed one stays between bars and concave.
// Three things follow, with the laws of the sound machine and no figure of
// their own:
//
//   - A kernel that meets a closed wire is thrown back among the bars, and the
//     bar that it meets breaks it as readily as the one that freed it.
//   - The gap holds more. The load by which the laws go is of the crop in the
//     gap, so that it rises by as much.
//   - The cylinder works the more on each kilogram of straw, and breaks up the
//     more of it: new surface goes with the work that makes it (von Rittinger
//     1867, Lehrbuch der Aufbereitungskunde; from memory).

// SetFaults closes wires of the grate.
func (s *Stage) SetFaults(g fault.Grate) { s.grate, s.held = g, Held(s.crop, &g) }

// felt is the feed that the laws are asked for, kg/s: what is held in the gap
// counts into it.
func (s *Stage) felt() float64 { return float64(s.Feed * s.held.Times()) }

// ground returns the rates of a gap that holds more than a sound one: as much
// more straw is broken up, within what is possible.
func (r Rates) ground(held fault.Extra) Rates {
	if held > 0 {
		r.Short = min(float64(r.Short*held.Times()), max(r.Short, mogMost-r.Chaff))
	}
	return r
}

// half returns in which half of a concave of some length a point lies.
func half(at, length float64) int {
	return min(int(float64(at*(fault.Halves/length))), fault.Halves-1)
}

// lets reports whether a dot that meets the grate at a point of the concave
// finds an open wire.
func (s *Stage) lets(lane uint8, at float32, p *pass) bool {
	if p.grate == nil {
		return true
	}
	closed := p.grate[lane][half(float64(at), p.length)]
	return closed == 0 || !s.rng.Happens(float32(closed))
}

// knock throws a dot that met a closed wire back among the bars.
func (s *Stage) knock(d *flow.Dot, at float32, p *pass, over *flow.Swarm, t *flow.Tally) {
	if !d.Kind.IsKernel() || d.Kind == flow.Broken {
		return
	}
	d.Strikes = min(d.Strikes, mostStrikes-1) + 1
	t.Cylinder.Strikes++
	if !s.rng.Happens(float32(s.Rates.Damage)) {
		return
	}
	for _, bit := range s.breakKernel(d, t) {
		s.emerge(bit, at, p, over, t)
	}
}

// heldSteps is the number of steps along the arc in which Held follows the
// crop. Chosen.
const heldSteps = 130

// Held returns by how much more material lies between bars and concave than
// over a grate that is open, at the crop's starting rates. Loose grain counts as
// it does where it comes back: as a third of its straw.
func Held(c *design.Fit, g *fault.Grate) fault.Extra {
	if !g.Any() {
		return 0
	}
	open, mog := inGap(c, [fault.Halves]float64{})
	sum := 0.0
	for lane := range g {
		blocked, _ := inGap(c, g[lane])
		sum += float64((blocked - open) / fault.Lanes)
	}
	return fault.Extra(sum / mog)
}

// inGap returns how much lies in the gap of one lane in the mean along the arc,
// over the feed of other material: all that counts as load, and the other
// material alone. Pieces open, and what is free falls as it meets open wires.
func inGap(c *design.Fit, closed [fault.Halves]float64) (load, mog float64) {
	length := c.Plan.ConcaveLength
	dx := length / heldSteps
	chaff := ChaffRate(c.Lambda, c.ChaffOut/c.Husk, length)
	short := -num.Log(1-shortAgain) / length
	opens := num.Chance(c.Lambda * dx) // of what is in pieces, in a step
	var husk, bits, grain float64      // loose in the gap: shares of all husk, of all other material, of all grain
	piece, gone := 1.0, 0.0            // still in pieces, of all; through the grate, of all other material
	for i := range heldSteps {
		open := 1 - closed[half(float64((float64(i)+0.5)*dx), length)]
		freed := float64(piece * opens)
		piece -= freed
		fallen := float64((husk + float64(freed/2)) * num.Chance(chaff*open*dx))
		husk += freed - fallen
		made := c.ShortOut / heldSteps
		kept := float64(bits * num.Chance(short*open*dx))
		bits += float64(made*(1-open)) - kept
		gone += float64(fallen*c.Husk) + float64(made*open) + kept
		grain += freed - float64((grain+float64(freed/2))*num.Chance(c.Beta*open*dx))
		mog += (1 - gone) / heldSteps
		load += (1 - gone + float64(returnedStraw*grain)) / heldSteps
	}
	return load, mog
}
