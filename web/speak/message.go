// Package speak is how the machine speaks to a reader: in messages, which are keys
// of the catalogues with what is put into them, and in numbers with their unit.
// It words what is seen; it reads and steps nothing.
package speak

import (
	"riddle/sim/setup"
	"riddle/sim/trade/quantity"
)

// Message is a text of the page: its key in the catalogue of words, and what
// is put into it. Values are numbers with their unit (Q), sums of money, further
// messages, lists of messages, counts, or names that no language changes.
type Message struct {
	Key  string         `json:"key"`
	With map[string]any `json:"with,omitempty"`
}

// With is what is put into a message.
type With = map[string]any

// Say makes a message.
func Say(key string, with ...With) *Message {
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

// Sum is a sum of money for a unit of land, grain or time, in whatever money the
// page's price is in.
type Sum struct {
	Money float64 `json:"money"`
	Per   string  `json:"per"`
}

// Seconds shows a time after the first tick.
func Seconds(v float64) Q { return Q{V: &v, Unit: "s", D: 1} }

// Share shows a percentage with its standard error, if it has one.
func Share(v, se *float64) Q { return Q{V: v, Unit: "%", D: 1, Fine: true, SE: se} }

// Plain shows a number without a unit.
func Plain(v float64, digits int) Q { return Q{V: &v, D: digits} }

// Units is the system of units in which is spoken, and the crop, by which some
// units go.
type Units struct {
	System quantity.System
	Crop   string
}

// Q shows a value in base units of its kind.
func (u Units) Q(v *float64, dim quantity.Dimension) Q {
	scale := u.System.Scale(dim, u.Crop)
	out := Q{Unit: scale.Unit, D: scale.Digits, Parts: u.System.Parts(dim)}
	if v != nil {
		x := scale.Shown(*v)
		out.V = &x
	}
	return out
}

// Of shows a value that is there.
func (u Units) Of(v float64, dim quantity.Dimension) Q { return u.Q(&v, dim) }

// Counted shows a value with its standard error.
func (u Units) Counted(v, se *float64, dim quantity.Dimension) Q {
	out := u.Q(v, dim)
	if v != nil && se != nil {
		x := *se / u.System.Scale(dim, u.Crop).Size
		out.SE = &x
	}
	return out
}

// Value shows a value of a field.
func (u Units) Value(f *setup.Field, v float64) any {
	if f.Switch() {
		if v != 0 {
			return Say("on")
		}
		return Say("off")
	}
	out, n := u.Of(v, f.Unit), u.System.Notches(f.Unit, u.Crop, f.Step)
	out.D, out.Parts = n.Digits, n.Parts
	return out
}

// Thick shows the thickness of a mat, m.
func (u Units) Thick(m float64) Q {
	if m < 0.1 {
		return u.Of(1000*m, quantity.Opening)
	}
	return u.Of(100*m, quantity.Height)
}
