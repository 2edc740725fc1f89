package bridge

// Command is a message as the page writes it.
type Command struct {
	Do    string  `json:"do"`
	Name  string  `json:"name,omitempty"`
	Text  string  `json:"text,omitempty"`
	Value float64 `json:"value,omitempty"`
}

// carryOut reads a message and answers as a host does.
func carryOut(s *Session, text string, do func(command) error) string {
	m, err := read(text)
	if err != nil {
		return encode(Reply{Error: err.Error()})
	}
	before := s.run.Revision
	if err := do(m.(command)); err != nil {
		return encode(s.refusal(err))
	}
	if s.run.Revision != before {
		return encode(Reply{Setup: s.Setup()})
	}
	return encode(Reply{})
}

func (s *Session) Do(text string) string {
	return carryOut(s, text, func(c command) error { return c.do(s) })
}

func (p *Pair) Do(text string) string { return carryOut(p.First, text, p.do) }

func (p *Pair) DoSecond(text string) string { return carryOut(p.Second, text, p.doSecond) }

func never() bool { return false }
