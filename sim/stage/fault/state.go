package fault

import "riddle/sim/setup"

// Lanes is in how many lanes the machine is parted across, Halves in how many
// stretches the concave is along the arc. By definition of the places.
const Lanes, Halves = 4, 2

// Extra is by how much something is more than in a sound machine, as a share of
// it: below 0 it is less.
type Extra float64

// Times returns the factor that an extra comes to.
func (e Extra) Times() float64 { return 1 + float64(e) }

// Grate is the share of the concave's wires that are closed, by lane from left
// to right and by half of the arc from front to rear.
type Grate [Lanes][Halves]float64

// State is what faults leave of the parts, in the figures that laws ask for. The
// zero value is a sound machine.
type State struct {
	Grate   Grate
	Walkers Extra       // of the walkers' speed
	Stopped setup.Parts // that stand still
}

// slowest is by how much walkers that are as slow as they get fall short of
// their speed: half. By definition of the degree.
const slowest = 0.5

// State returns what the faults come to together: of what one leaves open, the
// next closes its share.
func (s *Set) State() (st State) {
	for _, f := range s.List() {
		switch f.Kind {
		case ConcaveBlocked:
			st.Grate.block(f.Degree, f.Where)
		case WalkerSlow:
			st.Walkers -= Extra(slowest * f.Degree)
		case Stopped:
			st.Stopped |= partAt(f.Where)
		}
	}
	return st
}

func (g *Grate) block(share float64, w Where) {
	for lane := range g {
		for half := range g[lane] {
			if w.covers(lane, half) {
				closed := &g[lane][half]
				*closed = 1 - float64((1-*closed)*(1-share))
			}
		}
	}
}

// covers reports whether a place takes in a lane of a half of the concave.
func (w Where) covers(lane, half int) bool {
	switch w {
	case Left:
		return lane < Lanes/2
	case Right:
		return lane >= Lanes/2
	case Front:
		return half == 0
	case Rear:
		return half == Halves-1
	case Lane1, Lane2, Lane3, Lane4:
		return lane == int(w-Lane1)
	}
	return true
}

// Any reports whether any wire is closed.
func (g *Grate) Any() bool { return *g != Grate{} }

// Alike reports whether all lanes are blocked alike.
func (g *Grate) Alike() bool {
	for lane := range g {
		if g[lane] != g[0] {
			return false
		}
	}
	return true
}
