package ground

// CopyTo makes another stubble the same at this moment. The two share nothing
// that changes: swarms keep their own room.
func (s *Stage) CopyTo(to *Stage) {
	was := *to
	*to = *s
	to.Lost = was.Lost
	s.Lost.CopyTo(&to.Lost)
}
