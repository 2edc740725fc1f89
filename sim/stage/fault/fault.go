// Package fault is what is wrong with a machine, as data beside its setup: a
// kind, how far it goes, and where. An operator has no such switches and a view
// is not told; what a fault does shows in what the machine does.
package fault

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"riddle/sim/setup"
)

// Fault is one thing that is wrong.
type Fault struct {
	Kind   Kind
	Degree float64 // 0 none to 1 as far as it goes
	Where  Where
}

// Most is how many faults a machine can have at once. Chosen.
const Most = 24

// Set is the faults of a machine. The zero value is a sound machine; two sets
// can be compared.
type Set struct {
	list [Most]Fault
	n    uint8
}

// Of returns the set of some faults.
func Of(list ...Fault) Set {
	s := Set{}
	if len(list) > Most {
		panic("more faults than a machine can have")
	}
	s.n = uint8(copy(s.list[:], list))
	return s
}

// OfParts returns the faults of parts that stand still.
func OfParts(parts setup.Parts) Set {
	s := Set{}
	for w := firstPart; w < wheres; w++ {
		if parts.Has(partAt(w)) {
			s.list[s.n] = Fault{Stopped, 1, w}
			s.n++
		}
	}
	return s
}

// List returns the faults in the order in which they were given.
func (s *Set) List() []Fault { return s.list[:s.n] }

// Any reports whether anything is wrong.
func (s *Set) Any() bool { return s.n > 0 }

// And returns both sets of faults; what stands in both counts once.
func (s Set) And(other Set) Set {
	for _, f := range other.List() {
		if s.has(f) {
			continue
		}
		if s.n == Most {
			panic("more faults than a machine can have")
		}
		s.list[s.n] = f
		s.n++
	}
	return s
}

func (s *Set) has(f Fault) bool {
	for _, g := range s.List() {
		if g == f {
			return true
		}
	}
	return false
}

// Add puts one more fault into the set, or says why it cannot be had.
func (s *Set) Add(f Fault) error {
	if err := f.validate(); err != nil {
		return err
	}
	for _, g := range s.List() {
		if g.Kind == f.Kind && g.Where == f.Where {
			return wrong(f.String(), "given once for "+f.name())
		}
	}
	if s.n == Most {
		return wrong(f.String(), fmt.Sprintf("at most %d faults", Most))
	}
	s.list[s.n] = f
	s.n++
	return nil
}

// validate reports what is wrong with a fault that somebody gave.
func (f Fault) validate() error {
	k := f.Kind.about()
	switch {
	case k == nil:
		return wrong("none", "one of "+strings.Join(Names(), ", "))
	case !(f.Degree >= 0 && f.Degree <= 1):
		return wrong(strconv.FormatFloat(f.Degree, 'g', -1, 64), "a degree from 0 (none) to 1 (full) for "+k.Name)
	case f.Where >= wheres || !k.has(f.Where):
		return wrong(f.Where.String(), k.wantsPlace())
	case !k.Built:
		return wrong(k.Name, "one of "+strings.Join(built(), ", ")+"; this one is not modeled yet")
	}
	return nil
}

// name is the fault without its degree.
func (f Fault) name() string {
	if f.Where == Whole {
		return f.Kind.String()
	}
	return f.Kind.String() + " at " + f.Where.String()
}

// String writes the fault as Parse reads it.
func (f Fault) String() string {
	text := f.Kind.String() + ":" + strconv.FormatFloat(f.Degree, 'g', -1, 64)
	if f.Where != Whole {
		text += ":" + f.Where.String()
	}
	return text
}

// Form is how a fault is written.
const Form = "KIND[:DEGREE[:PLACE]], such as concave-blocked:0.5:front"

// Parse reads KIND[:DEGREE[:PLACE]]; without a degree it goes as far as it can.
func Parse(text string) (Fault, error) {
	parts := strings.Split(text, ":")
	if len(parts) > 3 {
		return Fault{}, wrong(text, Form)
	}
	f := Fault{Kind: find(strings.TrimSpace(parts[0])), Degree: 1}
	if f.Kind == None || f.Kind == Stopped {
		return Fault{}, wrong(parts[0], "one of "+strings.Join(Names(), ", "))
	}
	if len(parts) > 1 {
		d, err := degree(parts[1])
		if err != nil {
			return Fault{}, wrong(parts[1], "a degree from 0 (none) to 1 (full) for "+f.Kind.String())
		}
		f.Degree = d
	}
	if len(parts) > 2 {
		w, ok := findWhere(parts[2])
		if !ok || w == Whole {
			return Fault{}, wrong(parts[2], f.Kind.about().wantsPlace())
		}
		f.Where = w
	}
	return f, f.validate()
}

// degree reads 0.5 or 50%.
func degree(text string) (float64, error) {
	number, percent := strings.CutSuffix(strings.TrimSpace(text), "%")
	d, err := strconv.ParseFloat(strings.TrimSpace(number), 64)
	if percent {
		d /= 100
	}
	if err == nil && math.IsNaN(d) {
		err = strconv.ErrRange
	}
	return d, err
}

// Told is a fault as files and reports tell it.
type Told struct {
	Kind   string  `json:"kind"`
	Degree float64 `json:"degree"`
	Place  string  `json:"place,omitempty"`
}

// Told returns the faults as files and reports tell them; nil where there are
// none.
func (s *Set) Told() (list []Told) {
	for _, f := range s.List() {
		t := Told{Kind: f.Kind.String(), Degree: f.Degree}
		if f.Where != Whole {
			t.Place = f.Where.String()
		}
		list = append(list, t)
	}
	return list
}

// Read takes up a fault as a file tells it, a part that stands still among them.
func (t Told) Read() (Fault, error) {
	f := Fault{Kind: find(t.Kind), Degree: t.Degree}
	if f.Kind == None {
		return f, wrong(t.Kind, "one of "+strings.Join(Names(), ", ")+", or "+Stopped.String())
	}
	if t.Place != "" {
		w, ok := findWhere(t.Place)
		if !ok || w == Whole {
			return f, wrong(t.Place, f.Kind.about().wantsPlace())
		}
		f.Where = w
	}
	return f, f.validate()
}

// Words says the fault for people: what is wrong, how far, and where.
func (t Told) Words() string {
	text := fmt.Sprintf("%s, %g %%", strings.ReplaceAll(t.Kind, "-", " "), math.Round(t.Degree*1000)/10)
	if t.Place != "" {
		text += ", " + t.Place
	}
	return text
}

func wrong(value, want string) error {
	const most = 60 // characters; chosen
	if r := []rune(value); len(r) > most {
		value = string(r[:most]) + "…"
	}
	return &setup.Error{Field: "fault", Value: fmt.Sprintf("%q", value), Want: want}
}
