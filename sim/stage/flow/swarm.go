package flow

// Swarm is the set of dots at one place of the machine, in one slice of small
// values without pointers: a dot is read and written whole once a tick, so it
// is kept whole. Order is part of the state.
type Swarm struct {
	Dots []Dot
}

// NewSwarm returns an empty swarm with room for n dots before it must grow.
func NewSwarm(n int) Swarm { return Swarm{Dots: make([]Dot, 0, n)} }

// Add puts a dot in.
func (s *Swarm) Add(d Dot) { s.Dots = append(s.Dots, d) }

// Remove takes dot i out; the last dot takes its index.
func (s *Swarm) Remove(i int) {
	last := len(s.Dots) - 1
	s.Dots[i] = s.Dots[last]
	s.Dots = s.Dots[:last]
}

// Move hands dot i over to another swarm.
func (s *Swarm) Move(i int, to *Swarm) {
	to.Add(s.Dots[i])
	s.Remove(i)
}

// Len returns the number of dots.
func (s *Swarm) Len() int { return len(s.Dots) }

// Content sums up what the swarm holds: grain in parts of a kernel and MOG in µg.
func (s *Swarm) Content() (grain, mog int64) {
	for i := range s.Dots {
		grain += int64(s.Dots[i].Grain)
		mog += int64(s.Dots[i].Mass)
	}
	return grain, mog
}

// CopyTo makes another swarm the same, in the other's own room.
func (s *Swarm) CopyTo(to *Swarm) { to.Dots = refill(to.Dots, s.Dots) }

// refill copies values into room that is there already. Where it must grow it
// takes some more than is asked for, so that it seldom has to again.
func refill(room, from []Dot) []Dot {
	if cap(room) < len(from) {
		room = make([]Dot, 0, len(from)+len(from)/8+spare)
	}
	return append(room[:0], from...)
}

// spare is the room that a copy has beyond an eighth of what it was first made
// for. Chosen: what lies at the small places comes and goes.
const spare = 128
