package bridge

import "riddle/sim/trade/quantity"

// Message is a text of the page: its key in the catalogue of words, and what
// is put into it. Values are numbers with their unit (Q), further messages,
// lists of messages, counts, or names that no language changes.
type Message struct {
	Key  string         `json:"key"`
	With map[string]any `json:"with,omitempty"`
}

// With is what is put into a message.
type With = map[string]any

// say makes a message.
func say(key string, with ...With) *Message {
	m := Message{Key: key}
	if len(with) > 0 {
		m.With = with[0]
	}
	return &m
}

// Q is a number as it is shown: its value, nil where it cannot be computed, in
// a unit, with digits after the point. Fine asks for another digit below ten.
type Q struct {
	V     *float64 `json:"v"`
	Unit  string   `json:"u,omitempty"`
	D     int      `json:"d"`
	Fine  bool     `json:"fine,omitempty"`
	Parts int      `json:"parts,omitempty"` // of the unit, where it is read as a fraction
	SE    *float64 `json:"se,omitempty"`    // standard error, where it is a count
}

// q shows a value in base units of its kind.
func (s *Session) q(v *float64, dim quantity.Dimension) Q {
	scale := s.units.Scale(dim, s.machine.Crop().Name)
	out := Q{Unit: scale.Unit, D: scale.Digits, Parts: s.units.Parts(dim)}
	if v != nil {
		x := scale.Shown(*v)
		out.V = &x
	}
	return out
}

func (s *Session) qv(v float64, dim quantity.Dimension) Q { return s.q(&v, dim) }

// counted shows a value with its standard error.
func (s *Session) counted(v, se *float64, dim quantity.Dimension) Q {
	out := s.q(v, dim)
	if v != nil && se != nil {
		x := *se / s.units.Scale(dim, s.machine.Crop().Name).Size
		out.SE = &x
	}
	return out
}

// share shows a percentage with its standard error, if it has one.
func share(v, se *float64) Q { return Q{V: v, Unit: "%", D: 1, Fine: true, SE: se} }

// plain shows a number without a unit.
func plain(v float64, digits int) Q { return Q{V: &v, D: digits} }
