package feed

import "riddle/sim/stage/flow"

// CopyTo makes another header the same at this moment. The two share nothing
// that changes: swarms keep their own room, and stream and counter are those of
// its machine.
func (s *Stage) CopyTo(to *Stage, rng flow.Stream, nextID *uint32) {
	was := *to
	*to = *s
	to.rng, to.nextID = rng, nextID
	to.Standing = was.Standing
	s.Standing.CopyTo(&to.Standing)
	to.Cutting = was.Cutting
	s.Cutting.CopyTo(&to.Cutting)
	to.Mat = was.Mat
	s.Mat.CopyTo(&to.Mat)
}
