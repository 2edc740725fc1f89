package shoe

import "riddle/sim/stage/flow"

// CopyTo makes another shoe the same at this moment. The two share nothing that
// changes: swarms keep their own room, and the stream is that of its machine.
func (s *Stage) CopyTo(to *Stage, rng flow.Stream) {
	was := *to
	*to = *s
	to.rng = rng
	to.Conveyor = was.Conveyor
	s.Conveyor.CopyTo(&to.Conveyor)
	to.Falling = was.Falling
	s.Falling.CopyTo(&to.Falling)
	to.Pre = was.Pre
	s.Pre.CopyTo(&to.Pre)
	to.Collecting = was.Collecting
	s.Collecting.CopyTo(&to.Collecting)
	to.Upper = was.Upper
	s.Upper.CopyTo(&to.Upper)
	to.Between = was.Between
	s.Between.CopyTo(&to.Between)
	to.Lower = was.Lower
	s.Lower.CopyTo(&to.Lower)
	to.Dropping = was.Dropping
	s.Dropping.CopyTo(&to.Dropping)
	to.UpperMat = was.UpperMat
	s.UpperMat.CopyTo(&to.UpperMat)
}
