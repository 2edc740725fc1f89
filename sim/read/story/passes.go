package story

import (
	"riddle/sim"
	"riddle/sim/stage/flow"
	"riddle/sim/stage/section"
)

// Bins of a Pass: stretches of equal length along a part.
const Bins = 16

// Pass is where along a part grain passes it, and how much goes over its end:
// kernels a second, felt over PassTime.
type Pass struct {
	At   [Bins]float64
	Over float64
}

// Total returns what comes onto the part, kernels a second.
func (p *Pass) Total() float64 {
	sum := p.Over
	for _, v := range p.At {
		sum += v
	}
	return sum
}

// PassTime is the time over which passing grain is felt, s.
const PassTime = 5.0

// Passes are the parts at which loss is born.
type Passes struct{ Concave, Walkers, Upper, Lower Pass }

const (
	passDecay = 1 - 1/(PassTime*sim.TickHz)
	passUnit  = 1 / (PassTime * flow.Kernel) // of one part of a kernel, kernels a second
)

func (p *Pass) fade() {
	for i := range p.At {
		p.At[i] *= passDecay
	}
	p.Over *= passDecay
}

func (p *Passes) fade() {
	for _, one := range [...]*Pass{&p.Concave, &p.Walkers, &p.Upper, &p.Lower} {
		one.fade()
	}
}

// through counts grain that passes at a share of the part's length.
func (p *Pass) through(share float64, grain uint16) {
	p.At[min(max(int(share*Bins), 0), Bins-1)] += passUnit * float64(grain)
}

func (p *Pass) over(grain uint16) { p.Over += passUnit * float64(grain) }

// count takes up that a dot came from one place to another.
func (p *Passes) count(d *flow.Dot, from, to sim.Place) {
	x := float64(d.X)
	along := func(a, b float64) float64 { return (x - a) / (b - a) }
	switch {
	case from == sim.Gap && to == sim.UnderGrate:
		p.Concave.through(arcShare(x), d.Grain)
	case from == sim.Gap && to == sim.Plate:
		p.Concave.over(d.Grain)
	case from == sim.Walking && to == sim.UnderWalker:
		p.Walkers.through(along(section.WalkerStart.X, section.RearEdgeWalkers), d.Grain)
	case from == sim.Walking && to == sim.Hood:
		p.Walkers.over(d.Grain)
	case from == sim.Upper && to == sim.Between:
		p.Upper.through(along(section.UpperSieve.A.X, section.UpperSieve.B.X), d.Grain)
	case from == sim.Upper && to == sim.Behind:
		p.Upper.over(d.Grain)
	case from == sim.Lower && to == sim.Dropping:
		p.Lower.through(along(section.LowerSieve.A.X, section.LowerSieve.B.X), d.Grain)
	case from == sim.Lower && to == sim.Between:
		p.Lower.over(d.Grain)
	}
}

// arcShare returns how far along the concave the place under x lies, 0 to 1.
func arcShare(x float64) float64 {
	way := bends[sim.Gap]
	for i := 1; i < len(way); i++ {
		if x < way[i].X {
			t := (x - way[i-1].X) / (way[i].X - way[i-1].X)
			return (float64(i-1) + min(max(t, 0), 1)) / float64(len(way)-1)
		}
	}
	return 1
}

// Passes returns where grain passes now.
func (r *Recorder) Passes() *Passes { return &r.passes }
