package thresh

import (
	"math"

	"riddle/sim/num"
	"riddle/sim/setup"
	"riddle/sim/stage/design"
	"riddle/sim/stage/fault"
	"riddle/sim/stage/flow"
	"riddle/sim/trade/crop"
)

// Split is how a stream leaves the gap: shares of what entered.
type Split struct{ Through, Over float64 }

// Expected is what the cylinder comes to in the mean at a steady load. Shares
// are of what entered in the same form.
type Expected struct {
	Drive Drive
	Rates Rates
	RPM   float64
	Splits
}

// Splits is how all that comes in leaves the gap.
type Splits struct {
	Kernel      Split   // of fresh grain, freed
	Piece       Split   // and still in its piece
	Again       Split   // of grain in returned pieces, freed
	PieceAgain  Split   // and still in its piece
	Free        Split   // of loose grain
	Husk        Split   // of the husk on fresh pieces, freed
	HuskAgain   Split   // on returned ones
	Chaff       Split   // of loose chaff
	Short, Weed Split   // of returned short straw, of weeds
	Cut         float64 // share of long straw that is cut short and falls through
	Kept        float64 // and that is cut short and kept by closed wires to the end

	// Of kernels that were whole when they came loose, those that a bar breaks
	// since they meet closed wires: of fresh grain, of returned, of loose.
	KernelKnocked, AgainKnocked, FreeKnocked Split
}

// Expect returns the steady state of the cylinder at an engine speed over its
// set speed and a MOG feed of q kg/s, returned grain counted in, over a grate
// with these wires closed. It stalls where no speed carries the load.
func Expect(c *design.Fit, set *setup.Setup, cond *crop.Condition, engine, q float64, g *fault.Grate) Expected {
	s := Stage{crop: c, cond: cond, engine: engine, Feed: q, Drive: SteadyDrive(c, set, cond, engine, q, g)}
	s.SetFaults(*g)
	s.Rates = RatesOf(c, set, cond, LoadOf(c, &set.Settings, s.RPM(set), s.felt())).ground(s.held)
	s.chaff = ChaffRate(s.Rates.Lambda, s.Rates.Chaff/c.Husk, c.Plan.ConcaveLength)
	p := s.passOf(set, flow.Tick)
	e := Expected{Drive: s.Drive, Rates: s.Rates, RPM: s.RPM(set)}
	if p.grate == nil {
		e.Splits = p.ways(c)
		return e
	}
	e.Splits = p.blockedWays(c, s.Rates.Damage)
	return e
}

// ways returns how all leaves over a grate that is open.
func (p *pass) ways(c *design.Fit) (w Splits) {
	w.Kernel, w.Piece, w.Husk = p.opened(p.fresh, c.PieceKernels, huskDots(c))
	w.Again, w.PieceAgain, w.HuskAgain = p.opened(p.again, c.PieceKernels, huskDots(c))
	w.Free = p.loose(flow.Sound, 0)
	w.Chaff, w.Short, w.Weed = p.loose(flow.Chaff, 0), p.loose(flow.Short, 0), p.loose(flow.Weed, 0)
	w.Cut = p.cut(c.Straw.DotMass()/c.Short.DotMass(), func(float64, float64) {})
	return w
}

// cut returns the share of long straw that is cut short, for straws of so many
// bits: the last bit stays. It tells at each strike what share of the straw is
// cut off there.
func (p *pass) cut(bits float64, told func(place, share float64)) float64 {
	most := int(math.Ceil(bits)) - 1
	whole := math.Floor(float64(p.shorten)) // bits that every strike takes
	rest := float64(p.shorten) - whole
	mean := 0.0
	for i := range phases {
		var by [64]float64 // share of straws by bits taken
		by[0] = 1
		take := func(n int, chance float64) {
			for b := min(most, len(by)-1); b >= 0; b-- {
				if to := min(b+n, most, len(by)-1); to > b {
					by[to] += by[b] * chance
					by[b] *= 1 - chance
				}
			}
		}
		last := 0.0
		p.strikesAt((float32(i)+0.5)/phases, func(place float64) {
			take(int(whole), 1)
			take(1, rest)
			now := meanBits(&by)
			told(place, (now-last)/phases/bits)
			last = now
		}, func(float64) {})
		for b, share := range by {
			mean += float64(b) * share / phases
		}
	}
	return min(1, mean/bits)
}

func meanBits(by *[64]float64) (mean float64) {
	for b, share := range by {
		mean += float64(b) * share
	}
	return mean
}

// LoadFeed returns what loose or unthreshed grain that comes back (kg/s) adds
// to the MOG feed that the cylinder feels, kg/s.
func LoadFeed(c *design.Fit, grain float64) float64 {
	return returnedStraw * c.Start.MOGRatio * grain
}

// SteadyDrive returns the drive of the cylinder at rest, as Expect finds it.
func SteadyDrive(c *design.Fit, set *setup.Setup, cond *crop.Condition, engine, q float64, g *fault.Grate) Drive {
	if set.Stopped.Has(setup.CylinderPart) {
		return Drive{X: 1}
	}
	asked := engine * set.Settings.CylinderSpeed
	return steady(Idle(asked), workPower(c, &set.Settings, cond, asked, q*Held(c, g).Times()), asked*(2*math.Pi/flow.Minute))
}

// The steady drive is looked for from overSpeed downward in steps of speedStep,
// both over the set speed: no governor drives it so fast. gainTime is how long it
// is let go to see whether it gains speed, s. Chosen.
const overSpeed, speedStep, gainTime = 1.2, 0.005, 1e-3

// steady returns the drive at rest between what belt and governor give and
// what the crop asks for; a speed of 0 where there is none above the stall.
func steady(idle, work, omega float64) Drive {
	gain := func(x float64) float64 {
		d := Drive{X: x}
		d.Turn(idle, work, omega, gainTime)
		return d.X - x
	}
	lo, hi := overSpeed, overSpeed // the speed sinks at hi; look for where it no longer does
	for lo = hi; gain(lo) < 0; lo -= speedStep {
		if lo < stallAt {
			return Drive{KW: slipRatio * nominalKW}
		}
		hi = lo
	}
	for range 40 {
		if mid := (lo + hi) / 2; gain(mid) < 0 {
			hi = mid
		} else {
			lo = mid
		}
	}
	d := Drive{X: lo}
	d.Turn(idle, work, omega, 0)
	return d
}

// huskDots returns how many dots of chaff a fresh piece carries in the mean.
func huskDots(c *design.Fit) float64 {
	return c.Start.MOGRatio * c.Husk * c.KernelMass * flow.Milligram * float64(c.PieceKernels) / c.Chaff.DotMass()
}

// loose returns how a loose dot that is at a point of the concave leaves.
func (p *pass) loose(k flow.Kind, at float64) Split {
	if at >= p.length {
		return Split{Over: 1}
	}
	through := num.Chance(float64(p.rate[k]) * p.open(at, p.length))
	return Split{through, 1 - through}
}

func (w *Split) add(v Split, share float64) {
	w.Through += v.Through * share
	w.Over += v.Over * share
}

// phases is the number of places of a piece among the bars that are computed
// with. Chosen.
const phases, fewPhases = 12, 4

// opened follows pieces of n kernels through the gap, tick by tick as a run
// does, and returns what becomes of kernels freed with the given chance a
// strike, of those that stay in, and of the husk.
func (p *pass) opened(chance float32, n int, husks float64) (kernel, piece, husk Split) {
	few := math.Floor(husks)
	for i := range phases {
		h := (float32(i) + 0.5) / phases
		kernel1, piece1 := p.kernels(float64(chance), h)
		kernel.add(kernel1, 1.0/phases)
		piece.add(piece1, 1.0/phases)
	}
	for i := range fewPhases {
		h := (float32(i) + 0.5) / fewPhases
		husk.add(p.husk(float64(chance), h, n, int(few)), (1-(husks-few))/fewPhases)
		husk.add(p.husk(float64(chance), h, n, int(few)+1), (husks-few)/fewPhases)
	}
	return kernel, piece, husk
}

// strikesAt calls strike for each strike that a piece in phase h takes on its
// way through the gap, with the place of the strike, and on after each tick,
// with the share of pieces that fall through the concave in it.
func (p *pass) strikesAt(h float32, strike, on func(float64)) {
	for from := float32(0); from < float32(p.length); from += p.ds {
		to := from + p.ds
		first, end := p.struck(from, to, h)
		for k := first; k < end; k++ {
			strike(float64(p.strikeAt(k, h)))
		}
		on(p.sinks(from, min(to, float32(p.length))))
	}
}

func (p *pass) kernels(chance float64, h float32) (kernel, piece Split) {
	left := 1.0
	p.strikesAt(h, func(place float64) {
		kernel.add(p.loose(flow.Sound, place), left*chance)
		left *= 1 - chance
	}, func(through float64) {
		piece.Through += left * through
		left *= 1 - through
	})
	piece.Over = left
	return kernel, piece
}

// husk follows the husk of pieces of n kernels: each kernel that comes loose
// takes along its share, rounded down.
func (p *pass) husk(chance float64, h float32, n, dots int) (w Split) {
	if dots == 0 {
		return w
	}
	var left, next [256]float64 // share of pieces by kernels left
	var kept [256]int           // husks on a piece by kernels left
	kept[n] = dots
	for k := n; k > 0; k-- {
		kept[k-1] = kept[k] - kept[k]/k
	}
	left[n] = 1
	p.strikesAt(h, func(place float64) {
		way := p.loose(flow.Chaff, place)
		clear(next[:n+1])
		for k := n; k >= 0; k-- {
			ways := 1.0 // of choosing f out of k
			for f := 0; f <= k; f++ {
				share := left[k] * ways * power(chance, f) * power(1-chance, k-f)
				next[k-f] += share
				w.add(way, share*float64(kept[k]-kept[k-f])/float64(dots))
				ways *= float64(k-f) / float64(f+1)
			}
		}
		copy(left[:n+1], next[:n+1])
	}, func(float64) {})
	return w
}

func power(x float64, n int) float64 {
	y := 1.0
	for range n {
		y *= x
	}
	return y
}

// How many classes of terminal velocity and of size stand for the kernels of one
// kind, for parts of kernels of about one mass, and for chips. Chosen: the more
// there are of a kind, the finer.
const (
	soundVts, soundSizes = 8, 5
	lightVts, lightSizes = 4, 3
	partVts, partSizes   = 3, 3
	chipVts, chipSizes   = 2, 2
)

// Bins returns the classes of loose kernels: sound, light and broken.
func Bins(c *design.Fit, cond *crop.Condition) []flow.Bin {
	bins := flow.AppendBins(nil, flow.Sound, c.Vt*cond.Grain, c.VtCV*c.Vt, soundVts, c.Size, sizeCV*c.Size, soundSizes)
	bins = flow.AppendBins(bins, flow.Light, c.LightVt*cond.Grain, c.VtCV*c.LightVt, lightVts, lightSize*c.Size, sizeCV*lightSize*c.Size, lightSizes)
	return brokenBins(bins, c, cond)
}
