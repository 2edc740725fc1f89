package shoe

import (
	"math"

	"riddle/sim/num"
	"riddle/sim/setup"
	"riddle/sim/stage/design"
	"riddle/sim/stage/flow"
	"riddle/sim/trade/crop"
)

// The twin of the shoe computes in the mean what a run comes to dot by dot: the
// same air, mats, chances and flights, met by classes of kernels and of MOG on
// a fine grid of places. What a run draws from a distribution the twin takes
// at a few nodes of it. How fine the twin computes is chosen.
const (
	twinTick  = float32(flow.Tick) // s, of the flights
	grid      = 0.01               // m between the places computed
	lowerStep = 0.02               // m between those of the lower sieve
	upperMost = 256                // places that an upper sieve may have
	lowerMost = 128                // and a lower one
	starts    = 8                  // places from which flights are followed
	mogNodes  = 8                  // attitudes of a piece of MOG
	longest   = 600                // ticks that a flight is followed
)

// launches are the nodes of the launch speeds, which are even in a band, by the
// standard quadrature of Gauss and Legendre.
var launches = [2]flow.Node{{Z: -0.5773502691896258, Share: 0.5}, {Z: 0.5773502691896258, Share: 0.5}}

// Streams is MOG by class: chaff, short straw, weeds.
type Streams [3]float64

// Twin forecasts the shoe. It keeps its air and mats between calls, from which
// the next call sets out.
type Twin struct {
	Care Care

	s     Stage
	set   *setup.Setup
	cond  *crop.Condition
	fan   float64
	flown [2]Blast // the air in which flights of MOG and of grain were followed
	nodes []flow.Node

	from           float64 // x of the first place of the upper grid, m
	uppers, lowers int     // places from there to the rear edge, and on the lower sieve

	upperStands, lowerStands []stands

	mog    [3]mogClass
	onto   Streams // MOG landing on the lower sieve, share of class
	groups []group
}

const (
	firstMat = 0.6 // kg/m² on the upper sieve from which a twin sets out. Chosen.
	settleBy = 0.6 // share by which mats and their resistance follow what a round finds. Chosen.
)

// NewTwin returns a twin for classes of kernels and pieces. Bins that differ
// in size alone have to stand side by side.
func NewTwin(c *design.Fit, bins []flow.Bin) *Twin {
	// The mats begin as they lie in most crops, kg/m² and m/s, so that the air is
	// near its own from the first.
	t := &Twin{Care: Rough, s: *without(c), nodes: flow.Nodes(mogNodes)}
	t.from = c.Plan.UpperSieve.A.X
	if c.Plan.PreSieve != nil {
		t.from = c.Plan.PreSieve.B.X
	}
	t.uppers = min(int(math.Round((c.Plan.UpperSieve.B.X-t.from)/grid)), upperMost)
	t.lowers = min(int(math.Round(c.Plan.LowerLength/lowerStep)), lowerMost)
	t.upperStands, t.lowerStands = standsOf(t.uppers), standsOf(t.lowers)
	for i := range t.s.UpperMat.Load {
		t.s.UpperMat.Load[i], t.s.UpperMat.Vt[i] = firstMat, float32(c.Chaff.Vt+c.Short.Vt)/2
	}
	t.s.feel()
	t.s.matK = t.s.resistanceOf(1)
	for i := 0; i < len(bins); {
		g := group{vt: bins[i].Vt, kind: bins[i].Kind}
		for ; i < len(bins) && bins[i].Vt == g.vt && bins[i].Kind == g.kind; i++ {
			g.sizes = append(g.sizes, float64(bins[i].Size))
		}
		t.groups = append(t.groups, g)
	}
	return t
}

// Shares is where a stream ends: shares that sum to 1.
type Shares struct{ Tank, Back, Blown, Ridden float64 }

// Lost returns the share that leaves over the rear.
func (f Shares) Lost() float64 { return f.Blown + f.Ridden }

// Settle finds air and mats under steady MOG, kg/s a metre of width, and
// returns where each class ends: Tank, Back, or Blown for out at the rear.
func (t *Twin) Settle(set *setup.Setup, cond *crop.Condition, engine float64, mog Streams, rounds int) [3]Shares {
	t.set, t.cond = set, cond
	t.fan = t.s.drive(set, engine)
	var fates [3]Shares
	for range rounds {
		t.s.Air = BlastOf(t.s.crop.Plan.UpperLength, t.fan, set.Settings.Upper, set.Settings.Lower, t.s.matK, t.s.lifted)
		t.s.setUpper(set, cond)
		t.s.setLower(set, cond)
		var load, vt [upperCells]float64
		var lifted [3]float64 // kg/(s m²)
		hold := t.fresh(&t.flown[0])
		for k, cl := range t.s.classes() {
			if mog[k] <= 0 {
				fates[k], t.onto[k] = Shares{}, 0
				continue
			}
			if !hold || !t.mog[k].known {
				t.mog[k].fly(t, k)
			}
			fates[k], t.onto[k] = t.mog[k].follow(t, k, func(cell int, perFlux, off float64) {
				lifted[cell*paths/upperCells] += mog[k] * off * t.s.side / (t.s.crop.Plan.UpperLength / paths)
				m := mog[k] * perFlux * cl.Mat
				load[cell] += m
				vt[cell] += m * cl.Vt * cond.MOG
			})
		}
		for i := range load {
			t.s.UpperMat.Load[i] += settleBy * (float32(load[i]) - t.s.UpperMat.Load[i])
			if load[i] > 0 {
				t.s.UpperMat.Vt[i] = float32(vt[i] / load[i])
			}
		}
		t.s.feel()
		for i, k := range t.s.resistance() {
			t.s.matK[i] += settleBy * (k - t.s.matK[i])
			t.s.lifted[i] += settleBy * (lifted[i] - t.s.lifted[i])
		}
	}
	return fates
}

// Crowd is what lands on the lower sieve, kg/s a metre of width.
type Crowd struct{ Grain, MOG float64 }

// Mat returns the mat on each stretch of the upper sieve, kg/m².
func (t *Twin) Mat() []float32 { return t.s.UpperMat.Load }

// Landing returns the share of a class of MOG that lands on the lower sieve.
func (t *Twin) Landing(class int) float64 { return t.onto[class] }

// Sieve follows every bin of grain and pieces over the sieves and puts its
// fate, in the order of the bins, into fates; landing tells what share of the
// bin lands on the lower sieve. Settle has to have found air and mats.
func (t *Twin) Sieve(crowd Crowd, fates []Shares, landing []float64) {
	grain, mog := crowd.Grain*t.s.side/t.s.rated, crowd.MOG*t.s.side/t.s.crop.LowerLoad
	i, hold := 0, t.fresh(&t.flown[1])
	for g := range t.groups {
		gr := &t.groups[g]
		if !hold {
			gr.fly(t)
		}
		gr.meet(t)
		for _, size := range gr.sizes {
			fates[i], landing[i] = gr.sieve(t, size, grain, mog)
			i++
		}
	}
}

// upperCellAt returns the cell of place i of the upper grid.
func (t *Twin) upperCellAt(i int) int {
	plan := t.s.crop.Plan
	at := (t.from + (float64(i)+0.5)*grid - plan.UpperSieve.A.X) * upperCells / plan.UpperLength
	return int(num.Clamp(at, 0, upperCells-1))
}

// lowerCellAt returns the cell of place i of the lower grid.
func (t *Twin) lowerCellAt(i int) int { return min(i*lowerCells/t.lowers, lowerCells-1) }

// start returns the x of flight start k on the upper sieve and on the lower.
func (t *Twin) upperStart(k int) float32 {
	return float32(t.from) + (float32(k)+0.5)*float32(float64(t.uppers)*grid/starts)
}
func (t *Twin) lowerStart(k int) float32 {
	return t.s.lowerFace.From + (float32(k)+0.5)*float32(float64(t.lowers)*lowerStep/starts)
}

// stands is where a place of a grid stands among the starts of the flights:
// between the starts from and from+1, with this weight of the second.
type stands struct {
	from   int
	weight float64
}

func standsOf(places int) []stands {
	all := make([]stands, places)
	for i := range all {
		at := (float64(i)+0.5)*starts/float64(places) - 0.5
		s := stands{from: int(num.Clamp(at, 0, starts-2))}
		s.weight = num.Clamp(at-float64(s.from), 0, 1)
		all[i] = s
	}
	return all
}

// Care is the change of the air, as a share, from which a twin follows flights
// anew: Rough while it is on its way, Fine at the end.
type Care float64

// How much care a twin takes. Chosen.
const (
	Rough Care = 0.02
	Fine  Care = 0.001
)

// fresh reports whether flights that were followed in some air still hold, and
// takes note of the present air where they do not.
func (t *Twin) fresh(flown *Blast) bool {
	for i := range flown.V {
		if t.turned(t.s.Air.V[i], flown.V[i]) || t.turned(t.s.Air.Over[i], flown.Over[i]) {
			*flown = t.s.Air
			return false
		}
	}
	return true
}

// turned reports whether a speed has become another, as far as the twin cares.
func (t *Twin) turned(now, then float64) bool {
	return now-then > float64(t.Care)*now || then-now > float64(t.Care)*now
}
