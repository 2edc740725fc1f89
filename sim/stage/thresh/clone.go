package thresh

import (
	"riddle/sim/stage/flow"
	"riddle/sim/trade/crop"
)

// CopyTo makes another cylinder the same at this moment. The two share nothing
// that changes: swarms keep their own room, and stream, counter and crop are
// those of its machine.
func (s *Stage) CopyTo(to *Stage, rng flow.Stream, nextID *uint32, cond *crop.Condition) {
	was := *to
	*to = *s
	to.rng, to.nextID, to.cond = rng, nextID, cond
	to.Gap = was.Gap
	s.Gap.CopyTo(&to.Gap)
	to.Under = was.Under
	s.Under.CopyTo(&to.Under)
	to.fresh = was.fresh
	s.fresh.CopyTo(&to.fresh)
}
