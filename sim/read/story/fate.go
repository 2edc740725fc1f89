package story

import (
	"riddle/sim"
	"riddle/sim/stage/flow"
)

// Fate is how a dot with grain ended, as far as one can ask for it.
type Fate uint8

const (
	InTank       Fate = iota // a sound kernel in the tank, threshed at the first pass
	BrokenInTank             // a damaged kernel in the tank
	PieceInTank              // an unthreshed piece in the tank
	WentRound                // a kernel in the tank that went through the returns
	AtHeader                 // lost at the header
	InPiece                  // lost in an unthreshed piece
	OverWalkers              // lost over the walkers
	BlownOver                // lost from the shoe, blown
	RiddenOver               // lost from the shoe, ridden
	Fates                    // how many there are
)

var fateNames = [Fates]string{"tank", "broken", "unthreshed-in-tank", "returned", "header", "unthreshed", "walker", "blown", "ridden"}

var fateWords = [Fates]string{"A kernel in the tank", "A broken kernel in the tank", "An unthreshed piece in the tank", "A kernel that went round",
	"A kernel lost at the header", "Grain lost unthreshed", "A kernel lost over the walkers", "A kernel blown out", "A kernel ridden out"}

// String returns the name by which a fate is asked for.
func (f Fate) String() string { return fateNames[f] }

// Words names the fate in words.
func (f Fate) Words() string { return fateWords[f] }

// FindFate returns the fate of a name.
func FindFate(name string) (f Fate, ok bool) {
	for i, n := range fateNames {
		if n == name {
			return Fate(i), true
		}
	}
	return 0, false
}

var fateOfCause = [flow.Causes]Fate{flow.Header: AtHeader, flow.Unthreshed: InPiece, flow.Walker: OverWalkers, flow.Blown: BlownOver, flow.Ridden: RiddenOver}

func fateInTank(d *flow.Dot) Fate {
	switch {
	case d.Kind == flow.Piece:
		return PieceInTank
	case d.Rounds > 0:
		return WentRound
	case d.Kind == flow.Broken:
		return BrokenInTank
	}
	return InTank
}

// endRoom is how many dots of each fate are remembered.
const endRoom = 32

// ends are the last dots that met a fate.
type ends struct {
	id   [endRoom]uint32
	n    int // met so far
	told int // of them the last that was asked for
}

func (r *Recorder) end(d *flow.Dot, f Fate) {
	e := &r.ends[f]
	e.id[e.n%endRoom] = d.ID
	e.n++
}

// Ask returns a dot that met a fate and whose story is known from its
// beginning: the latest that was not told yet, or else the latest. ok is false
// where there is none.
func (r *Recorder) Ask(f Fate) (id uint32, ok bool) {
	e := &r.ends[f]
	for _, from := range [2]int{max(e.told, e.n-endRoom), max(0, e.n-endRoom)} {
		for i := e.n - 1; i >= from; i-- {
			id := e.id[i%endRoom]
			if _, whole := r.lineage(id); whole {
				e.told = i + 1
				return id, true
			}
		}
	}
	return 0, false
}

// Count returns how many dots have met a fate so far.
func (r *Recorder) Count(f Fate) int { return r.ends[f].n }

// Nearest returns the dot that lies nearest to a place, within so many metres,
// and prefers grain to straw and chaff.
func Nearest(snap *sim.Snapshot, x, y, within float64) (id uint32, ok bool) {
	const mogWeight = 4 // of the square of a distance
	best := float32(within * within)
	for p := range snap.Dots {
		for i := range snap.Dots[p] {
			d := &snap.Dots[p][i]
			dx, dy := d.X-float32(x), d.Y-float32(y)
			far := dx*dx + dy*dy
			if far > float32(within*within) {
				continue
			}
			if d.Kind.IsMOG() {
				far *= mogWeight
			}
			if !ok || far < best {
				id, best, ok = d.ID, far, true
			}
		}
	}
	return id, ok
}
