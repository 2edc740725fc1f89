package straw

import "riddle/sim/stage/flow"

// CopyTo makes another set of walkers the same at this moment. The two share
// nothing that changes: swarms keep their own room, and stream and counter are
// those of its machine.
func (s *Stage) CopyTo(to *Stage, rng flow.Stream, nextID *uint32) {
	was := *to
	*to = *s
	to.rng, to.nextID = rng, nextID
	to.Plate = was.Plate
	s.Plate.CopyTo(&to.Plate)
	to.Mat = was.Mat
	s.Mat.CopyTo(&to.Mat)
	to.Under = was.Under
	s.Under.CopyTo(&to.Under)
	to.Pan = was.Pan
	s.Pan.CopyTo(&to.Pan)
	to.Hood = was.Hood
	s.Hood.CopyTo(&to.Hood)
	to.Rows = was.Rows
	s.Rows.CopyTo(&to.Rows)
}
