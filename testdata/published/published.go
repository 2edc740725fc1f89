// Package published holds the values from outside that the model is held
// against: one file of checks a subject, and the works that they come from.
// It knows nothing of the model; package sim/check/facts computes what it gives.
package published

import (
	"embed"
	"fmt"
	"sync"
)

//go:embed *.json
var files embed.FS

// Source is a work, or a kind of knowledge, that a value comes from.
type Source struct {
	Key    string `json:"-"`
	Author string `json:"author"` // or the body that issued it
	Year   int    `json:"year,omitempty"`
	Title  string `json:"title"`
	In     string `json:"in,omitempty"`   // journal, series or place
	Seen   string `json:"seen,omitempty"` // how much of it was seen, if not all
}

// String names the source in one line.
func (s Source) String() string {
	text := s.Author
	if s.Year != 0 {
		text += fmt.Sprintf(", %d", s.Year)
	}
	text += ", " + s.Title
	if s.In != "" {
		text += ", " + s.In
	}
	return text
}

// Marks are how far a value can be trusted, as in the model's own source.
var Marks = []string{"published", "common practice", "memory", "computed", "calibrated"}

// Classes are what a check is worth, strongest last: "arithmetic" is computed
// from a definition, a table or a closed form, or holds by the keeping of mass;
// "input" is a value that the model is given, held against what it was taken
// from or against others of its kind; "calibrated" is a result whose level was
// set, by constants chosen for it; "emergent" comes out of the machine, decided
// no constant, and could have come out otherwise.
var Classes = []string{"arithmetic", "input", "calibrated", "emergent"}

// CanFail reports whether a check is of a class that has to be able to fail.
func (c *Check) CanFail() bool { return c.Class == "calibrated" || c.Class == "emergent" }

// Printed reports whether a check is a number that a work prints of a whole
// machine or of a whole stage: emergent, published, and neither a sign, a yes
// nor a count of places.
func (c *Check) Printed() bool {
	return c.Class == "emergent" && c.Mark == "published" && !c.Rule && c.Unit != "places" && c.Unit != "minima"
}

// Check is one value from outside: a number within a tolerance, a band (its
// middle and half its width), or a rule of sign (−1, 0 or 1, tolerance 0).
type Check struct {
	ID        string
	Subject   string
	What      string
	Source    Source
	At        string // table, section or page of the source
	Mark      string
	Class     string // what it is worth, one of Classes
	Unit      string
	Expected  float64
	Tolerance float64
	Band      bool   // a range rather than a value and its tolerance
	Rule      bool   // of sign
	Crop      string // that it is about, or empty
	Of        string // what else it is about, such as a grade table and its factor
	Input     map[string]float64
	Zero      string // why zero can be expected of a check that must be able to fail
	Why       string // it does not hold, and what would have to change
}

// Subject is the subject of a file.
type Subject struct{ Name, Title string }

// All returns every check in the order of the subjects.
func All() []Check {
	l := load()
	return append([]Check(nil), l.checks...)
}

// Subjects returns the subjects in their order.
func Subjects() []Subject { return append([]Subject(nil), load().subjects...) }

// load reads the files once. What is wrong in them is found by the test that
// reads them; a program that holds bad ones cannot start its work.
var load = sync.OnceValue(func() library {
	l, err := read(files)
	if err != nil {
		panic(err)
	}
	return l
})
