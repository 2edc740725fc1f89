package facts

import (
	"math"

	"riddle/sim"
	"riddle/sim/num"
	"riddle/sim/setup"
	"riddle/sim/stage/section"
	"riddle/testdata/published"
)

// short is a short run of wheat, kernel by kernel.
type short struct {
	grain, mog float64 // that came in and is nowhere, parts of a kernel and µg
	standing   float64 // grain that came in less all ways out, as a share
	bins       [bins]float64
}

const (
	bins     = 60    // of the upper sieve. Chosen.
	binWide  = 0.025 // m
	fillTime = 14    // s in which the sieves fill. Chosen.
	lookTime = 10    // s that are looked at. Chosen.
)

// particles is the rows that are about single kernels.
func (m *machines) particles() map[string]law {
	return map[string]law{
		"TH-T27b": func(*published.Check) float64 { return m.run().mog },
		"CL-D6":   func(*published.Check) float64 { return m.run().grain },
		"CR-L14":  func(*published.Check) float64 { return m.run().standing },
		"CL-C5a":  func(c *published.Check) float64 { return within(c, m.run().peak()) },
		"CL-C5c":  func(*published.Check) float64 { return m.run().gamma() },
	}
}

// run makes the short run once.
func (m *machines) run() *short {
	if m.short != nil {
		return m.short
	}
	m.short = &short{grain: math.NaN(), mog: math.NaN(), standing: math.NaN()}
	set, err := setup.Default("wheat")
	if err != nil {
		return m.short
	}
	machine, err := sim.New(set)
	if err != nil {
		return m.short
	}
	for range fillTime * sim.TickHz {
		machine.Step()
	}
	m.short.watch(machine)
	m.short.balance(machine)
	return m.short
}

// watch counts where kernels pass the upper sieve.
func (s *short) watch(machine *sim.Machine) {
	var snap sim.Snapshot
	seen := map[uint32]bool{}
	for i := range lookTime * sim.TickHz {
		machine.Step()
		machine.Snapshot(&snap)
		for k := range snap.Dots[sim.Between] {
			d := &snap.Dots[sim.Between][k]
			x := float64(d.X)
			near := float64(d.Y) > section.UpperSieve.At(x)-0.05 // others come off a pan or the lower sieve
			if seen[d.ID] || !d.Kind.IsKernel() || !near {
				continue
			}
			seen[d.ID] = true
			at := int((x - section.UpperSieve.A.X) / binWide)
			if i > 0 && at >= 0 && at < bins { // those there at the first look came earlier
				s.bins[at]++
			}
		}
	}
}

// balance reads what came in and where it is.
func (s *short) balance(machine *sim.Machine) {
	t := machine.Tally()
	grain, mog := machine.Inside()
	out := t.Tank.Grain
	for _, lost := range t.Lost {
		out += lost
	}
	s.grain = float64(t.In - out - grain)
	s.mog = float64(t.InMOG - t.Tank.Foreign - t.Walkers.MOGOver - t.Shoe.MOGOver - mog)
	s.standing = s.grain / float64(t.In)
}

// smooth is the mean over three bins.
func (s *short) smooth(i int) float64 {
	return (s.bins[max(i-1, 0)] + s.bins[i] + s.bins[min(i+1, bins-1)]) / 3
}

// peak returns where most kernels pass, m from the front.
func (s *short) peak() float64 {
	at := 0
	for i := range s.bins {
		if s.smooth(i) > s.smooth(at) {
			at = i
		}
	}
	return (float64(at) + 0.5) * binWide
}

// gamma fits a gamma distribution by its moments and returns how much of the
// variation between the bins it explains.
func (s *short) gamma() float64 {
	n, sum, squares := 0.0, 0.0, 0.0
	for i, k := range s.bins {
		x := (float64(i) + 0.5) * binWide
		n, sum, squares = n+k, sum+float64(k*x), squares+float64(k*x*x)
	}
	mean := sum / n
	variance := squares/n - float64(mean*mean)
	shape, scale := mean*mean/variance, variance/mean
	var fit [bins]float64
	whole := 0.0
	for i := range fit {
		x := (float64(i) + 0.5) * binWide
		fit[i] = num.Pow(x, shape-1) * num.Exp(-x/scale)
		whole += fit[i]
	}
	off, spread := 0.0, 0.0
	for i, k := range s.bins {
		d := k/n - fit[i]/whole
		off += float64(d * d)
		e := k/n - 1.0/bins
		spread += float64(e * e)
	}
	return 1 - off/spread
}
