package bridge

import (
	"riddle/sim"
	"riddle/sim/stage/flow"
	"riddle/sim/trade/quantity"
)

// sight says in words what is where in the picture: how thick the mats lie,
// what the air does to them, and how many kernels are on which way.
func (s *Session) sight() []*Message {
	n := &s.snap
	thick := func(mat []sim.Cell, from, to float64) Q { return s.thick(thickness(mat, from, to)) }
	kernels := func(p ...sim.Place) int64 { return kernelsAt(n, p...) }
	return []*Message{
		say("sight.feeder", With{"thick": thick(n.FeederMat, 0.3, 1)}),
		say("sight.walkers", With{"front": thick(n.WalkerMat, 0, 0.33), "middle": thick(n.WalkerMat, 0.33, 0.67), "rear": thick(n.WalkerMat, 0.67, 1), "n": kernels(sim.Walking)}),
		say("sight.upper", With{"front": thick(n.UpperMat, 0, 0.33), "middle": thick(n.UpperMat, 0.33, 0.67), "rear": thick(n.UpperMat, 0.67, 1),
			"air": say("sight.air." + matOpen(n.UpperMat)), "n": kernels(sim.Upper)}),
		say("sight.rest", With{"lower": kernels(sim.Lower), "returns": kernels(sim.Trough, sim.Returning), "lift": kernels(sim.Lifting), "share": plain(100*n.TankShare, 0)}),
	}
}

// thick shows the thickness of a mat, m.
func (s *Session) thick(m float64) Q {
	if m < 0.1 {
		return s.qv(1000*m, quantity.Opening)
	}
	return s.qv(100*m, quantity.Height)
}

// thickness is the mean thickness of a stretch of a mat, m, which is given as
// shares of its length.
func thickness(mat []sim.Cell, from, to float64) float64 {
	a, z := int(from*float64(len(mat))), int(to*float64(len(mat)))
	sum := 0.0
	for _, c := range mat[a:z] {
		sum += float64(c.Thick)
	}
	return sum / float64(max(z-a, 1))
}

// matOpen says how far the air opens the mat on the upper sieve.
func matOpen(mat []sim.Cell) string {
	open, lying := 0, 0
	for _, c := range mat {
		switch {
		case c.Open > 0.5:
			open++
		case c.Open < 0.1:
			lying++
		}
	}
	switch n := max(len(mat), 1); {
	case open*3 > n*2:
		return "open"
	case lying*3 > n*2:
		return "closed"
	}
	return "part"
}

// kernelsAt counts the kernels at some places, loose or in pieces.
func kernelsAt(n *sim.Snapshot, places ...sim.Place) int64 {
	sum := int64(0)
	for _, p := range places {
		for i := range n.Dots[p] {
			sum += int64(n.Dots[p][i].Grain)
		}
	}
	return sum / flow.Kernel
}
