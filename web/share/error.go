package share

import (
	"strings"

	"riddle/sim/trade/crop"
)

// Code is a kind of fault. The page has a sentence for each, with the slots
// {field}, {value} and {want}.
type Code string

// The kinds of fault.
const (
	Long    Code = "long"    // longer than is read
	Foreign Code = "foreign" // nothing that Riddle made
	Newer   Code = "newer"   // of a version that is not known here
	Broken  Code = "broken"  // cannot be parted into names and values, or is no JSON
	Short   Code = "short"   // the end is missing
	Twice   Code = "twice"   // a name stands twice
	Missing Code = "missing" // a name must be there and is not
	Unknown Code = "unknown" // a name is not known
	Value   Code = "value"   // a value is not accepted
)

// Error is what is wrong with a link or a file.
type Error struct {
	Code               Code
	Field, Value, Want string
}

// sentences for the kinds of fault, in plain English.
var sentences = map[Code]string{
	Long:    "It is longer than {want}.",
	Foreign: "It was not made by Riddle: {field} is missing.",
	Newer:   "It was made by another version of Riddle ({field} is {value}; this one reads {want}).",
	Broken:  "It is damaged at {field}: {value}.",
	Short:   "It is cut off: its end is missing after {value}.",
	Twice:   "It is damaged: {field} stands in it twice.",
	Missing: "It is damaged: {field} is missing.",
	Unknown: "It names {field}, which is not known here; it may come from a newer version.",
	Value:   "In it, {field} is {value}; wanted is {want}.",
}

func (e *Error) Error() string {
	return strings.NewReplacer("{field}", e.Field, "{value}", e.Value, "{want}", e.Want).Replace(sentences[e.Code])
}

func unknownCrop(name string) error {
	return &Error{Code: Value, Field: "crop", Value: cut(name), Want: "one of " + strings.Join(crop.Names(), ", ")}
}

// cut shortens a text that came from outside, on one line, for a message.
func cut(s string) string {
	const most = 40
	r := []rune(strings.Join(strings.Fields(strings.ToValidUTF8(s, "�")), " "))
	for i := range r {
		if r[i] < ' ' || r[i] == 0x7f {
			r[i] = '�'
		}
	}
	if len(r) > most {
		return string(r[:most]) + "…"
	}
	return string(r)
}
