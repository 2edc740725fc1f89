package facts

import (
	"encoding/json"
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"

	"riddle/testdata/published"
)

// Reference names where the value comes from: author, year, title, table.
func (f *Fact) Reference() string {
	if f.At == "" {
		return f.Source.String()
	}
	return f.Source.String() + ", " + f.At
}

// shown is a fact as programs read it.
type shown struct {
	ID        string   `json:"id"`
	Subject   string   `json:"subject"`
	What      string   `json:"what"`
	Source    string   `json:"source"`
	Mark      string   `json:"mark"`
	Class     string   `json:"class"`
	Unit      string   `json:"unit"`
	Expected  float64  `json:"expected"`
	Got       *float64 `json:"got"` // null where it cannot be computed
	Tolerance float64  `json:"tolerance"`
	Holds     bool     `json:"holds"`
	Why       string   `json:"why,omitempty"`
}

// MarshalJSON writes the fact under the keys that other programs know.
func (f Fact) MarshalJSON() ([]byte, error) {
	s := shown{
		ID: f.ID, Subject: f.Subject, What: f.What, Source: f.Reference(), Mark: f.Mark, Class: f.Class, Unit: f.Unit,
		Expected: f.Expected, Tolerance: f.Tolerance, Holds: f.Holds,
	}
	if !math.IsNaN(f.Got) && !math.IsInf(f.Got, 0) {
		s.Got = &f.Got
	}
	if !f.Holds {
		s.Why = f.Why
	}
	return json.Marshal(s)
}

// Wanted is the expected value in words: a number and its tolerance, a band, or
// a rule.
func (f *Fact) Wanted() string {
	switch {
	case f.Rule && yesOrNo(f.Unit):
		return answer(f.Expected)
	case f.Rule:
		return direction(f.Expected)
	case f.Tolerance == 0:
		return number(f.Expected)
	case f.Band:
		return number(f.Expected-f.Tolerance) + " to " + number(f.Expected+f.Tolerance)
	}
	return number(f.Expected) + " ± " + number(f.Tolerance)
}

// Gotten is what the program gives, in words.
func (f *Fact) Gotten() string {
	switch {
	case math.IsNaN(f.Got):
		return "cannot be asked"
	case f.Rule && yesOrNo(f.Unit):
		return answer(f.Got)
	case f.Rule:
		return direction(f.Got)
	}
	return number(f.Got)
}

// Measure is the unit to print after a number; rules have none.
func (f *Fact) Measure() string {
	if f.Rule {
		return ""
	}
	return f.Unit
}

func yesOrNo(unit string) bool { return unit == "yes or no" }

func answer(v float64) string {
	if v > 0 {
		return "yes"
	}
	return "no"
}

func direction(v float64) string {
	switch {
	case v > 0:
		return "rises"
	case v < 0:
		return "falls"
	}
	return "stays"
}

// number prints four figures, or five from a thousand on, with a true minus.
func number(v float64) string {
	if v == 0 || math.Abs(v) < 1e-12 {
		return "0"
	}
	digits := 4
	if math.Abs(v) >= 1000 {
		digits = 5
	}
	text := strconv.FormatFloat(v, 'g', digits, 64)
	text = strings.Replace(strings.Replace(text, "e-0", "e-", 1), "e+0", "e+", 1)
	return strings.ReplaceAll(text, "-", "−")
}

// Count returns how many facts there are, and how many hold.
func Count(list []Fact) (all, hold int) {
	for _, f := range list {
		if f.Holds {
			hold++
		}
	}
	return len(list), hold
}

// Worth is what the checks of a class are worth, and how many hold.
type Worth struct {
	Class     string
	Means     string
	All, Hold int
}

// Not is how many do not hold.
func (w Worth) Not() int { return w.All - w.Hold }

var means = map[string]string{
	"emergent":   "comes out of the machine, decided none of its constants, and could have come out otherwise",
	"calibrated": "constants were chosen so that the start comes out at such a level: it shows that they do what they were chosen for, and how far surveys agree with that level",
	"input":      "a value that the machine is given, held against the table that it was taken from or others of its kind: it shows that it was copied well",
	"arithmetic": "units, tables, closed forms and the keeping of mass: it shows that the program calculates rightly, and nothing of a combine",
}

// Worths sums up the classes, the strongest first.
func Worths(list []Fact) []Worth {
	var all []Worth
	for _, class := range slices.Backward(published.Classes) {
		w := Worth{Class: class, Means: means[class]}
		w.All, w.Hold = Count(Of(list, func(f *Fact) bool { return f.Class == class }))
		all = append(all, w)
	}
	return all
}

// Of returns the facts for which is says yes.
func Of(list []Fact, is func(f *Fact) bool) []Fact {
	var some []Fact
	for i := range list {
		if is(&list[i]) {
			some = append(some, list[i])
		}
	}
	return some
}

// Printed sums up the numbers that works print of whole machines and stages.
func Printed(list []Fact) Worth {
	w := Worth{Class: "emergent"}
	w.All, w.Hold = Count(Of(list, func(f *Fact) bool { return f.Printed() }))
	return w
}

// Prefix is the beginning that ids have in common, and what it stands for.
type Prefix struct{ Letters, Means string }

// Prefixes explains the ids; the rest of one only tells it from others.
var Prefixes = []Prefix{
	{"TH", "threshing and straw walkers"}, {"CL", "cleaning: air, sieves, returns"}, {"CR", "crops, grades, loss and its measuring"},
	{"WM", "whole machines in trials and surveys"}, {"UN", "units, and samples of whole harvests"}, {"KE", "kernels"},
	{"DR", "drag"}, {"EN", "engine and power"}, {"NU", "numbers and chance"},
}

// Print writes the facts for people to read, headed by what the strongest class
// of them says.
func Print(w io.Writer, list []Fact) error {
	p := printer{w: w}
	p.head(list)
	subject := ""
	for i := range list {
		f := &list[i]
		if f.Subject != subject {
			subject = f.Subject
			p.line("\n%s\n", title(subject))
		}
		holds := "holds"
		if !f.Holds {
			holds = "DOES NOT HOLD"
		}
		p.line("%-24s %s\n", f.ID, f.What)
		p.line("%24s expected %s, got %s: %s\n", "", f.Wanted(), strings.TrimSpace(f.Gotten()+" "+f.Measure()), holds)
		p.line("%24s %s (%s; %s)\n", "", f.Reference(), f.Mark, f.Class)
		if !f.Holds && f.Why != "" {
			p.line("%24s why: %s\n", "", f.Why)
		}
	}
	return p.err
}

// head says what the checks are worth by class, and which of the strongest do
// not hold.
func (p *printer) head(list []Fact) {
	all, _ := Count(list)
	p.line("%d checks against the outside, from %d sources, by what they are worth:\n\n", all, Sources(list))
	for _, w := range Worths(list) {
		p.line("%-10s %4d: %d hold, %d do not. %s\n", w.Class, w.All, w.Hold, w.Not(), sentence(w.Means))
		if w.Class == "emergent" {
			n := Printed(list)
			p.line("%10s %4d of them are numbers that works print of whole machines or stages: %d hold, %d do not.\n", "", n.All, n.Hold, n.Not())
		}
	}
	p.line("\nEmergent, and does not hold (the reasons stand below):\n")
	for _, f := range Of(list, func(f *Fact) bool { return f.Class == "emergent" && !f.Holds }) {
		p.line("%-28s %s: expected %s, got %s\n", f.ID, f.What, f.Wanted(), strings.TrimSpace(f.Gotten()+" "+f.Measure()))
	}
	p.line("\nAn id begins with its field:")
	for i, x := range Prefixes {
		p.line("%s %s %s", map[bool]string{false: ";"}[i == 0], x.Letters, x.Means)
	}
	p.line(".\n")
}

// Sources returns how many works and kinds of knowledge the facts come from.
func Sources(list []Fact) int {
	seen := map[string]bool{}
	for _, f := range list {
		seen[f.Source.Key] = true
	}
	return len(seen)
}

func title(subject string) string {
	for _, s := range published.Subjects() {
		if s.Name == subject {
			return s.Title
		}
	}
	return subject
}

// printer keeps the first error of many writes.
type printer struct {
	w   io.Writer
	err error
}

func (p *printer) line(format string, args ...any) {
	if p.err == nil {
		_, p.err = fmt.Fprintf(p.w, format, args...)
	}
}
