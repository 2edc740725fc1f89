package speak

import (
	"riddle/sim"
	"riddle/sim/stage/flow"
	"riddle/sim/trade/quantity"
)

// Picture says in words what is where in the picture: how thick the mats lie,
// what the air does to them, and how many kernels are on which way.
func (u Units) Picture(n *sim.Snapshot) []*Message {
	thick := func(mat []sim.Cell, from, to float64) Q { return u.Thick(thickness(mat, from, to)) }
	kernels := func(p ...sim.Place) int64 { return kernelsAt(n, p...) }
	return []*Message{
		Say("sight.feeder", With{"thick": thick(n.FeederMat, 0.3, 1)}),
		Say("sight.walkers", With{"front": thick(n.WalkerMat, 0, 0.33), "middle": thick(n.WalkerMat, 0.33, 0.67), "rear": thick(n.WalkerMat, 0.67, 1), "n": kernels(sim.Walking)}),
		Say("sight.upper", With{"front": thick(n.UpperMat, 0, 0.33), "middle": thick(n.UpperMat, 0.33, 0.67), "rear": thick(n.UpperMat, 0.67, 1),
			"air": Say("sight.air." + matOpen(n.UpperMat)), "n": kernels(sim.Upper)}),
		Say("sight.rest", With{"lower": kernels(sim.Lower), "returns": kernels(sim.Trough, sim.Returning), "lift": kernels(sim.Lifting), "share": Plain(100*n.TankShare, 0)}),
	}
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

// Thickest shows how thick a mat is where it is thickest.
func (u Units) Thickest(mat []sim.Cell) Q {
	var most float32
	for i := range mat {
		most = max(most, mat[i].Thick)
	}
	return u.Of(float64(most)*100, quantity.Height)
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
