package thresh

import (
	"riddle/sim/num"
	"riddle/sim/stage/design"
	"riddle/sim/stage/fault"
	"riddle/sim/stage/flow"
)

// blockedWays returns how all leaves over a grate with closed wires, in the
// mean over its lanes, when a bar breaks so much of what it meets.
func (p *pass) blockedWays(c *design.Fit, damage float64) (w Splits) {
	if p.grate.Alike() {
		return p.laneWays(c, damage)
	}
	for lane := range p.grate {
		q := *p
		q.grate = &fault.Grate{p.grate[lane], p.grate[lane], p.grate[lane], p.grate[lane]}
		w.add(q.laneWays(c, damage), 1.0/fault.Lanes)
	}
	return w
}

// laneWays does so for a grate whose lanes are blocked alike.
func (p *pass) laneWays(c *design.Fit, damage float64) Splits {
	w := p.ways(c)
	w.KernelKnocked, w.AgainKnocked = p.knockedOf(p.fresh, damage), p.knockedOf(p.again, damage)
	w.FreeKnocked = p.knocked(0, damage)
	w.Cut = 0
	p.cut(c.Straw.DotMass()/c.Short.DotMass(), func(place, share float64) {
		closed := p.grate[0][half(place, p.length)]
		later := p.loose(flow.Short, place)
		w.Cut += share * (1 - closed + closed*later.Through)
		w.Kept += share * closed * later.Over
	})
	return w
}

func (w *Splits) add(v Splits, share float64) {
	for _, f := range [...]struct{ to, from *Split }{
		{&w.Kernel, &v.Kernel}, {&w.Piece, &v.Piece}, {&w.Again, &v.Again}, {&w.PieceAgain, &v.PieceAgain}, {&w.Free, &v.Free},
		{&w.Husk, &v.Husk}, {&w.HuskAgain, &v.HuskAgain}, {&w.Chaff, &v.Chaff}, {&w.Short, &v.Short}, {&w.Weed, &v.Weed},
		{&w.KernelKnocked, &v.KernelKnocked}, {&w.AgainKnocked, &v.AgainKnocked}, {&w.FreeKnocked, &v.FreeKnocked},
	} {
		f.to.add(*f.from, share)
	}
	w.Cut += share * v.Cut
	w.Kept += share * v.Kept
}

// open returns the length of open grate between two points of the concave, m:
// closed wires count as none.
func (p *pass) open(from, to float64) float64 {
	if p.grate == nil {
		return to - from
	}
	length := 0.0
	for h, closed := range p.grate[0] {
		length += (1 - closed) * p.overlap(from, to, h)
	}
	return length
}

// overlap returns how much of a stretch of the concave lies in a half of it, m.
func (p *pass) overlap(from, to float64, half int) float64 {
	each := p.length / fault.Halves
	return num.Positive(min(to, float64(half+1)*each) - max(from, float64(half)*each))
}

// sinks returns the share of pieces that fall through in a stretch.
func (p *pass) sinks(from, to float32) float64 {
	rate := p.rate[flow.Piece]
	if p.grate == nil {
		return num.Chance(float64(rate * (to - from)))
	}
	return num.Chance(float64(rate) * p.open(float64(from), float64(to)))
}

// knocked returns the share of whole kernels that come loose at a point of the
// concave and are broken for closed wires, by the way in which they leave. That
// a kernel finds an open wire, and that a bar breaks it at a closed one, come by
// chance with what the crop travels, each at its own rate.
func (p *pass) knocked(at, damage float64) (w Split) {
	if at >= p.length {
		return w
	}
	rate := float64(p.rate[flow.Sound])
	sound := 1.0 // still in the gap and not broken
	through := 0.0
	for h, closed := range p.grate[0] {
		leave, breaks := rate*(1-closed), rate*closed*damage
		gone := num.Chance((leave + breaks) * p.overlap(at, p.length, h))
		if gone > 0 {
			through += sound * gone * leave / (leave + breaks)
		}
		sound *= 1 - gone
	}
	all := p.loose(flow.Sound, at)
	return Split{num.Positive(all.Through - through), num.Positive(all.Over - sound)}
}

// knockedOf returns the same of grain in pieces, of which each strike frees a
// kernel with a chance.
func (p *pass) knockedOf(chance float32, damage float64) (w Split) {
	for i := range phases {
		left := 1.0
		p.strikesAt((float32(i)+0.5)/phases, func(place float64) {
			w.add(p.knocked(place, damage), left*float64(chance)/phases)
			left *= 1 - float64(chance)
		}, func(through float64) { left *= 1 - through })
	}
	return w
}
