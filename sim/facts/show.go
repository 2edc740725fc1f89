package facts

import (
	"encoding/json"
	"fmt"
	"io"
	"math"
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
		ID: f.ID, Subject: f.Subject, What: f.What, Source: f.Reference(), Mark: f.Mark, Unit: f.Unit,
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

// Print writes the facts for people to read.
func Print(w io.Writer, list []Fact) error {
	p := printer{w: w}
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
		p.line("%24s %s (%s)\n", "", f.Reference(), f.Mark)
		if !f.Holds && f.Why != "" {
			p.line("%24s why: %s\n", "", f.Why)
		}
	}
	all, hold := Count(list)
	p.line("\n%d checks against the outside, from %d sources: %d hold, %d do not.\n", all, Sources(list), hold, all-hold)
	return p.err
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
