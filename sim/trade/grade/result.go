package grade

import "riddle/sim/trade/crop"

// NoTable is why a sample of a crop has no grade.
const NoTable = "no grade table is held for this crop"

// NoSample is why an empty tank has none.
const NoSample = "nothing fell into the tank"

// Result is a graded sample. What cannot be told is nil.
type Result struct {
	Found
	Table   *Table // nil where none is held
	Grade   *Grade
	By      string              // the factors that set the grade, or why there is none
	KgPerHL *float64            // test weight
	Factors map[string]*float64 // every factor of the standard and what is weighed besides; nil where the machine's sample does not tell it
}

// Judge weighs and grades a sample of a crop at a grain moisture, % wet basis.
func Judge(c *crop.Crop, s Sample, moisture float64) Result {
	r := Result{Found: Weigh(c, s, moisture), Table: TableOf(c.Name)}
	empty := !(s.Whole() > 0)
	if !empty {
		w := KgPerHL(c.Name, r.TestWeight)
		r.KgPerHL = &w
	}
	switch {
	case r.Table == nil:
		r.By = NoTable
		return r
	case empty:
		r.By = NoSample
	default:
		g := r.Table.Of(r.Values)
		r.Grade, r.By = &g, r.Table.Names(g)
	}
	r.Factors = map[string]*float64{}
	for _, a := range Factors(c.Name) {
		r.Factors[a.Key] = nil
		if v, ok := r.Values[a.Key]; ok {
			r.Factors[a.Key] = &v
		}
	}
	return r
}
