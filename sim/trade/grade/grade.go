package grade

import (
	"math"
	"strconv"
	"strings"
)

// Grade is what a table makes of a lot.
type Grade struct {
	No     int      // 1 and up; one past the last numbered grade is U.S. Sample grade
	Name   string   // as the standards say it
	Sample bool     // past every numbered grade: U.S. Sample grade, but for malting barley
	By     []string // keys of the factors that set it, in the order of the table; none for U.S. No. 1
}

// Of grades a lot by its factors. A factor that was not weighed keeps no grade
// back.
func (t *Table) Of(values map[string]float64) Grade {
	g := Grade{No: 1}
	for i := range t.Factors {
		f := &t.Factors[i]
		v, weighed := values[f.Key]
		if !weighed {
			continue
		}
		switch no := f.Of(v); {
		case no > g.No:
			g.No, g.By = no, []string{f.Key}
		case no == g.No && no > 1:
			g.By = append(g.By, f.Key)
		}
	}
	g.Sample = g.No > len(t.Factors[0].Limits)
	g.Name = NameOf(g.No)
	switch {
	case g.Sample && t.Past != "":
		g.Name = t.Past
	case g.Sample:
		g.Name = "U.S. Sample grade"
	}
	return g
}

// MostGrades is the number of numbered grades in the longest table. Definition.
const MostGrades = 5

// NameOf returns the name of a numbered grade.
func NameOf(no int) string { return "U.S. No. " + strconv.Itoa(no) }

// Every is what is said to set U.S. No. 1.
const Every = "every factor"

// Of returns the best numbered grade that a value of the factor allows, or one
// more than the last where none does.
func (f *Factor) Of(value float64) int {
	v := f.Record.Round(value)
	for i, limit := range f.Limits {
		if f.Least && v >= limit || !f.Least && v <= limit {
			return i + 1
		}
	}
	return len(f.Limits) + 1
}

// Round writes a value down.
func (r Record) Round(v float64) float64 {
	const hair = 1e-9 // so that a half that binary numbers cannot hold counts as one; chosen
	switch r {
	case Halves:
		return math.Floor(float64(v*2)+hair) / 2
	case Hundredths:
		return math.Floor(float64(v*100)+0.5+hair) / 100
	}
	return math.Floor(float64(v*10)+0.5+hair) / 10
}

// As says as what a lot is graded: the class that is taken for granted, if any,
// and the section of the standard.
func (t *Table) As() string {
	if t.Class == "" {
		return t.Crop + ", " + t.Section
	}
	return t.Class + ", " + t.Section
}

// OfKnown grades a lot by factors that may be nil where they are not known.
func (t *Table) OfKnown(factors map[string]*float64) Grade {
	known := map[string]float64{}
	for i := range t.Factors {
		if v := factors[t.Factors[i].Key]; v != nil {
			known[t.Factors[i].Key] = *v
		}
	}
	return t.Of(known)
}

// Factor returns the factor with a key, or nil.
func (t *Table) Factor(key string) *Factor {
	for i := range t.Factors {
		if t.Factors[i].Key == key {
			return &t.Factors[i]
		}
	}
	return nil
}

// Names says in words which factors set the grade.
func (t *Table) Names(g Grade) string {
	if len(g.By) == 0 {
		return Every
	}
	names := make([]string, len(g.By))
	for i, key := range g.By {
		names[i] = t.Factor(key).Name
	}
	if len(names) == 1 {
		return names[0]
	}
	return strings.Join(names[:len(names)-1], ", ") + " and " + names[len(names)-1]
}
