package shoe

import (
	"riddle/sim/num"
	"riddle/sim/setup"
	"riddle/sim/stage/flow"
)

const preSieve = setup.PreSievePart

// group is the classes of kernels or pieces that differ in size alone, and so
// fly alike.
type group struct {
	kind  flow.Kind
	vt    float32
	sizes []float64

	arrive arrival
	raised flights                // lifted out of the mat
	hops   [len(launches)]flights // on the upper sieve
	falls  falls                  // through it
	lows   [len(launches)]flights // on the lower sieve
	rear   landing                // of what leaves the lower sieve's rear edge

	sinks [upperCells]float64 // chance to leave the mat over one place
	held  [upperCells]bool    // the air holds it up there: it leaves upward
	pass  [upperCells]float64 // chance to pass in one contact where all is clear
}

// fly finds the group's flights in the present air.
func (g *group) fly(t *Twin) {
	s := &t.s
	g.arrive = t.tipped(g.kind, g.vt, false)
	for i := range starts {
		x := t.upperStart(i)
		u := &s.upper[s.UpperMat.Cell(x)]
		xl := t.lowerStart(i)
		for k, l := range launches {
			up := s.launch * (1 + float32(throwSpread*l.Z))
			g.hops[k].dx[i] = t.hopUpper(flow.Dot{Kind: g.kind, Vt: g.vt, X: x, Y: s.upperFace.At(x), VX: s.carry, VY: up})
			g.lows[k].dx[i], g.lows[k].end[i] = t.hopLower(flow.Dot{Kind: g.kind, Vt: g.vt, X: xl, Y: s.lowerFace.At(xl), VX: s.carry, VY: up})
		}
		if u.veq*mayLift >= g.vt {
			g.raised.dx[i] = t.hopUpper(flow.Dot{Kind: g.kind, Vt: g.vt, X: x, Y: s.upperFace.At(x) + u.deep, VX: u.speed, VY: liftSpeed})
		}
	}
	t.fallFrom(g.kind, g.vt, &g.falls)
	g.rear = t.offRear(g.kind, g.vt)
}

// mayLift is how many times the lifting air at a start has to carry a kernel for
// its flight out of the mat to be followed from there: places between two starts
// may have more air than either. Chosen.
const mayLift = 1.1

// meet computes what the group meets on each stretch of the upper sieve.
func (g *group) meet(t *Twin) {
	for i := range t.s.upper {
		u := &t.s.upper[i]
		ratio := float64(u.veq / g.vt)
		hold := 1 - ratio*ratio
		g.held[i] = hold <= 0
		if g.held[i] {
			g.sinks[i] = num.Chance(liftRate * grid)
		} else {
			g.sinks[i] = num.Chance(float64(u.sink) * hold / float64(u.thick*u.speed) * grid)
		}
		g.pass[i] = PassUpperThrough(1, float64(u.open), float64(u.vn), float64(g.vt), float64(u.load))
	}
}

// sieve follows one size of the group, in mm, from the step to its end, where
// grain and MOG over those at the start crowd the lower sieve. It returns the
// fate and the share that lands on the lower sieve.
func (g *group) sieve(t *Twin, mm, grain, mog float64) (f Shares, landed float64) {
	var lower [lowerMost + 1]float64
	m := march{t: t, g: g, f: &f}
	m.enter(mm, &lower)
	m.upper(mm, &lower)
	for _, v := range lower {
		landed += v
	}
	m.lower(mm, grain, mog, &lower)
	return f, landed
}

// march takes one class of kernels over the sieves, place by place.
type march struct {
	t *Twin
	g *group
	f *Shares

	inMat   [upperMost + 1]float64 // comes to rest in the mat at each place
	contact [upperMost + 1]float64 // meets an opening at each place
}

// settledShare returns the share of the class that lies at the bottom of the
// layer as it comes to rest.
func (m *march) settledShare() float64 {
	share := settled
	if m.g.kind == flow.Piece {
		share = settledPiece
	}
	return min(share*m.t.cond.Damp, 1)
}

// enter lets the class come to the sieves.
func (m *march) enter(mm float64, lower *[lowerMost + 1]float64) {
	bottom := m.settledShare()
	a := m.g.arrive
	if a.over {
		if a.x >= m.t.s.crop.Plan.UpperSieve.B.X {
			m.f.Blown++
			return
		}
		i := min(max(int((a.x-m.t.from)/grid), 0), m.t.uppers)
		m.inMat[i] += 1 - bottom
		m.wait(i, bottom)
		return
	}
	if a.pan {
		m.g.falls.fromPan(1, lower, m.f)
		return
	}
	_, rate := preRates(m.t.preOpening(), m.t.s.crop.Plan.PreSieve.Length())
	through := num.Chance(rate * num.Positive(m.t.preOpening()-mm) * (m.t.from - a.x))
	m.g.falls.fromPan(bottom*through, lower, m.f)
	m.inMat[0] += 1 - bottom
	m.wait(0, bottom*(1-through))
}

// wait lets a share that lies at the bottom at place i ride on to its first
// contact, which comes at any time within a period.
func (m *march) wait(i int, share float64) {
	ride := float64(m.t.s.carry*m.t.s.period) / grid
	for _, l := range launches { // even in a band, as the launch speeds are
		m.meet(i, ride*(1+l.Z)/2, share*l.Share)
	}
}

// meet puts a share that meets its next opening some places on.
func (m *march) meet(i int, on, share float64) {
	at := float64(i) + on
	if at >= float64(m.t.uppers) {
		m.leave(share)
		return
	}
	k := int(at)
	w := at - float64(k)
	m.contact[k] += share * (1 - w)
	if k+1 < m.t.uppers {
		m.contact[k+1] += share * w
	} else {
		m.leave(share * w)
	}
}

// leave lets a share go over the rear edge of the upper sieve from its face.
func (m *march) leave(share float64) {
	const rear = upperCells - 1
	blown := BlownShare(float64(m.t.s.Open[rear]), float64(m.t.s.upper[rear].load))
	m.f.Blown += share * blown
	m.f.Ridden += share * (1 - blown)
}

// upper takes the class over the upper sieve.
func (m *march) upper(mm float64, lower *[lowerMost + 1]float64) {
	s, g := &m.t.s, m.g
	main, tail := Clearing(float64(s.upper[0].open), mm), Clearing(float64(s.upper[upperCells-1].open), mm)
	flux := 0.0
	for i := range m.t.uppers {
		cell, at := m.t.upperCellAt(i), &m.t.upperStands[i]
		flux += m.inMat[i]
		out := flux * g.sinks[cell]
		if flux -= out; g.held[cell] {
			m.meet(i, max(g.raised.at(at)/grid, 1), out)
		} else {
			m.wait(i, out)
		}
		c := m.contact[i]
		if c == 0 {
			continue
		}
		clear := main
		if s.upper[cell].open != s.upper[0].open {
			clear = tail
		}
		pass := c * clear * g.pass[cell]
		g.falls.land(i, pass, lower, m.f)
		for k, l := range launches {
			m.meet(i, max(g.hops[k].at(at)/grid, 1), (c-pass)*l.Share)
		}
	}
	m.f.Ridden += flux + m.inMat[m.t.uppers]
}

// lower takes what landed on the lower sieve over it.
func (m *march) lower(mm, grain, mog float64, landed *[lowerMost + 1]float64) {
	s := &m.t.s
	o := m.t.set.Settings.Lower
	if m.t.set.Stopped.Has(setup.LowerPart) {
		o = 0
	}
	clear := Clearing(o, mm)
	var contact [lowerMost + 1]float64
	var chance [lowerCells]float64
	for i := range chance {
		chance[i] = PassLowerThrough(clear, o, float64(s.lower[i].vn), float64(m.g.vt), grain, mog)
	}
	off := func(share float64) { m.f.out(m.g.rear, share) }
	ride := float64(s.carry*s.period) / lowerStep
	for i, v := range landed {
		if v == 0 {
			continue
		}
		for _, l := range launches {
			off(spread(contact[i:m.t.lowers+1], ride*(1+l.Z)/2, v*l.Share))
		}
	}
	for i := range m.t.lowers {
		c := contact[i]
		if c == 0 {
			continue
		}
		pass := c * chance[m.t.lowerCellAt(i)]
		m.f.Tank += pass
		at := &m.t.lowerStands[i]
		for k, l := range launches {
			fl := &m.g.lows[k]
			ways, n := fl.ways(at)
			for w := range n {
				if v := &ways[w]; v.end != onLower {
					m.f.out(v.end, (c-pass)*l.Share*v.share)
				} else {
					off(spread(contact[i:m.t.lowers+1], max(v.dx/lowerStep, 1), (c-pass)*l.Share*v.share))
				}
			}
		}
	}
	off(contact[m.t.lowers])
}
