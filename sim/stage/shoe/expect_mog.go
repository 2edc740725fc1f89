package shoe

import (
	"riddle/sim/num"
	"riddle/sim/stage/flow"
)

// kinds stands for each class of MOG.
var kinds = [3]flow.Kind{flow.Chaff, flow.Short, flow.Weed}

// mogClass is the twin of one class of MOG: its attitudes and their flights.
type mogClass struct {
	vt    [mogNodes]float64 // terminal velocity as it lies, m/s
	lift  [mogNodes]flights // off the upper sieve
	fall  [mogNodes]falls   // through it
	lower [mogNodes]flights // off the lower sieve
	rear  Shares            // of what leaves the lower sieve over its rear edge
	known bool              // the flights have been followed
}

// follow takes a stream of 1 of class k through the shoe. It tells lay, for
// each cell of the upper sieve, the mat that the stream makes there (kg/m²
// before it is weighed by how much it mats) and what the air lifts off it, and
// returns its fate and the share of it that lands on the lower sieve.
func (m *mogClass) follow(t *Twin, k int, lay func(cell int, mat, lifted float64)) (f Shares, landed float64) {
	var riding [upperMost + 1]float64 // comes to rest in the mat at each place
	var lower [lowerMost + 1]float64
	pre, loose := m.enter(t, k, &riding, &f)
	for n, node := range t.nodes {
		m.fall[n].fromPan(pre*node.Share, &lower, &f)
	}
	lay(0, 0, loose)
	flux := 0.0
	for i := range t.uppers {
		flux += riding[i]
		u := &t.s.upper[t.upperCellAt(i)]
		lift, drop := float64(u.lift[k]), float64(u.drop[k])
		out := flux * num.Chance((lift+drop)*grid)
		off := 0.0
		if out > 0 {
			off = out * lift / (lift + drop)
			m.liftFrom(t, i, off, &riding, &f)
			m.dropFrom(t, i, out-off, &lower, &f)
		}
		lay(t.upperCellAt(i), (flux-out/2)*grid/float64(u.speed)/(t.s.crop.Plan.UpperLength/upperCells), off)
		flux -= out
	}
	f.Blown += flux + riding[t.uppers]
	for _, v := range lower {
		landed += v
	}
	m.sift(t, k, &lower, &f)
	return f, landed
}

// fly finds the flights of the class in the present air.
func (m *mogClass) fly(t *Twin, k int) {
	cl := t.s.classes()[k]
	m.known, m.rear = true, Shares{}
	for n, node := range t.nodes {
		m.vt[n] = max(leastVt, float64(cl.Vt*t.cond.MOG)+float64(cl.Spread*node.Z))
		vt := float32(broadside * m.vt[n])
		for i := range starts {
			x := t.upperStart(i)
			u := &t.s.upper[t.s.UpperMat.Cell(x)]
			m.lift[n].dx[i] = t.lift(flow.Dot{Kind: kinds[k], Vt: vt, X: x, Y: t.s.upperFace.At(x) + u.deep, VX: u.speed, VY: liftSpeed})
			x = t.lowerStart(i)
			m.lower[n].dx[i], m.lower[n].end[i] = t.liftLower(flow.Dot{Kind: kinds[k], Vt: vt, X: x, Y: t.s.lowerFace.At(x), VX: t.s.carry, VY: liftSpeed})
		}
		t.fallFrom(kinds[k], float32(m.vt[n]), &m.fall[n])
		m.rear.out(t.offRear(kinds[k], float32(m.vt[n])), node.Share)
	}
}

// enter lets the class fall over the step: half of it in clumps, the rest
// loose in the blast. It returns the share that goes through the pre-sieve and
// the share that comes to the upper sieve loose in the air.
func (m *mogClass) enter(t *Twin, k int, riding *[upperMost + 1]float64, f *Shares) (pre, loose float64) {
	var rates [3]float64
	if sieve := t.s.crop.Plan.PreSieve; sieve != nil {
		rates, _ = preRates(t.preOpening(), sieve.Length())
	}
	come := func(a arrival, share float64) {
		if a.pan {
			pre += share
			return
		}
		if !a.over {
			through := num.Chance(rates[k] * (t.from - a.x))
			pre += share * through
			riding[0] += share * (1 - through)
			return
		}
		f.Blown += spread(riding[:t.uppers+1], (a.x-t.from)/grid, share)
	}
	come(t.tipped(kinds[k], clumpVt, true), 1-stepShare)
	for n, node := range t.nodes {
		a := t.tipped(kinds[k], float32(m.vt[n]), false)
		if a.over {
			loose += stepShare * node.Share
		}
		come(a, stepShare*node.Share)
	}
	return pre, loose
}

// preOpening returns the opening of the pre-sieve, mm.
func (t *Twin) preOpening() float64 {
	if t.set.Stopped.Has(preSieve) {
		return 0
	}
	return t.set.Settings.PreSieve
}

// below returns the share of each attitude on the condition that it is lighter
// than what the air lifts.
func (m *mogClass) below(t *Twin, veq float64) (w [mogNodes]float64) {
	half, sum := (m.vt[mogNodes-1]-m.vt[mogNodes-2])/2, 0.0
	for n, node := range t.nodes {
		w[n] = node.Share * num.Clamp((veq-m.vt[n]+half)/(2*half), 0, 1)
		if n == 0 {
			w[n] = max(w[n], leastShare) // in air too weak for any, the lightest
		}
		sum += w[n]
	}
	for n := range w {
		w[n] /= sum
	}
	return w
}

// leastShare keeps a sum of shares from being none. Chosen.
const leastShare = 1e-12

func (m *mogClass) liftFrom(t *Twin, i int, share float64, riding *[upperMost + 1]float64, f *Shares) {
	if share <= 0 {
		return
	}
	for n, w := range m.below(t, float64(t.s.upper[t.upperCellAt(i)].veq)) {
		if w == 0 {
			continue
		}
		dx := m.lift[n].at(&t.upperStands[i])
		f.Blown += spread(riding[i+1:t.uppers+1], dx/grid-1, share*w)
	}
}

// dropFrom lets a share fall through the upper sieve at place i.
func (m *mogClass) dropFrom(t *Twin, i int, share float64, lower *[lowerMost + 1]float64, f *Shares) {
	for n, node := range t.nodes {
		m.fall[n].land(i, share*node.Share, lower, f)
	}
}

// sift takes what landed on the lower sieve over it.
func (m *mogClass) sift(t *Twin, k int, lower *[lowerMost + 1]float64, f *Shares) {
	flux := 0.0
	for i := range t.lowers {
		flux += lower[i]
		l := &t.s.lower[t.lowerCellAt(i)]
		lift, drop := float64(l.lift[k]), float64(l.drop[k])
		if lift+drop == 0 {
			continue
		}
		out := flux * num.Chance((lift+drop)*lowerStep)
		f.Tank += out * drop / (lift + drop)
		if up := out * lift / (lift + drop); up > 0 {
			s := &t.lowerStands[i]
			for n, w := range m.below(t, float64(l.veq)) {
				if w == 0 {
					continue
				}
				ways, count := m.lower[n].ways(s)
				for k := range count {
					if v := &ways[k]; v.end != onLower {
						f.out(v.end, up*w*v.share)
					} else {
						f.out(t.behind(), spread(lower[i+1:t.lowers+1], v.dx/lowerStep-1, up*w*v.share))
					}
				}
			}
		}
		flux -= out
	}
	flux += lower[t.lowers]
	f.Back += flux * m.rear.Back
	f.Blown += flux * m.rear.Blown
	f.Ridden += flux * m.rear.Ridden
}

// out adds a share that ended behind the lower sieve.
func (f *Shares) out(end landing, share float64) {
	switch end {
	case overBack:
		f.Blown += share
	case onGround:
		f.Ridden += share
	default:
		f.Back += share
	}
}

// spread puts a share at a broken place of a row, parted between its two
// neighbours. It returns what lies beyond the row.
func spread(row []float64, at, share float64) (past float64) {
	at = max(at, 0)
	i := int(at)
	next := share * (at - float64(i))
	if i < len(row) {
		row[i] += share - next
	} else {
		past = share - next
	}
	if i+1 < len(row) {
		row[i+1] += next
	} else {
		past += next
	}
	return past
}
