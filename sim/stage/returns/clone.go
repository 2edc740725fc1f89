package returns

// CopyTo makes another set of returns the same at this moment. The two share
// nothing that changes: swarms keep their own room.
func (s *Stage) CopyTo(to *Stage) {
	was := *to
	*to = *s
	to.Trough = was.Trough
	s.Trough.CopyTo(&to.Trough)
	to.Returning = was.Returning
	s.Returning.CopyTo(&to.Returning)
}
