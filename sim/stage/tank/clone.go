package tank

import "riddle/sim/stage/flow"

// CopyTo makes another tank the same at this moment. The two share nothing that
// changes: swarms keep their own room, and stream and counter are those of its
// machine.
func (s *Stage) CopyTo(to *Stage, rng flow.Stream, nextID *uint32) {
	was := *to
	*to = *s
	to.rng, to.nextID = rng, nextID
	to.Lifting = was.Lifting
	s.Lifting.CopyTo(&to.Lifting)
	to.Filling = was.Filling
	s.Filling.CopyTo(&to.Filling)
	to.Leaving = was.Leaving
	s.Leaving.CopyTo(&to.Leaving)
}
