// Package rules holds what the trade knows of the machine as signs: what rises
// and what falls when one thing is changed. Each is asked of the whole machine,
// in every crop where it applies; what the model does not meet is listed with
// the reason.
package rules

import (
	"riddle/sim/read/readout"
	"riddle/sim/setup"
	"riddle/sim/trade/crop"
)

// Sign is the direction of a change.
type Sign int

// The signs, by definition: a reading falls, changes little, or rises.
const (
	Falls  Sign = -1
	Little Sign = 0
	Rises  Sign = 1
)

// Reader answers a setup whose engine runs at a share of its set speed; 1 is
// an engine that gives way only as its load makes it.
type Reader func(s setup.Setup, engine float64) (readout.Report, error)

// Change is one thing that is changed, from the crop's starting settings.
type Change struct {
	Key    string // short, within the table
	Table  string // TH-T24 of threshing and straw, CL-E2 of cleaning
	Name   string // in the trade's words
	Source string
	Mark   string // published, common practice, memory, as for any figure

	apply  func(*setup.Setup)
	engine float64                 // share of its set speed; 0 is 1
	fits   func(c *crop.Crop) bool // nil: every crop
}

// Rule is one cell of a table: what a change does to a reading.
type Rule struct {
	ID      string
	Change  *Change
	Reading Reading
	Want    Sign
	OrNone  bool   // little change will do as well
	In      string // the only crop it is said of, or none for all

	not string // why nothing can be asked, where the machine has no such part to change
}

// What says the rule in a sentence.
func (r *Rule) What() string {
	verb := map[Sign]string{Falls: "falls", Little: "changes little", Rises: "rises"}[r.Want]
	if r.OrNone {
		verb += " or changes little"
	}
	return r.Change.Name + ": " + r.Reading.Name + " " + verb
}

// Applies reports whether the rule speaks of the crop.
func (r *Rule) Applies(c *crop.Crop) bool {
	return (r.In == "" || r.In == c.Name) && (r.Change.fits == nil || r.Change.fits(c))
}

// Asked reports whether the machine has what the rule changes; why tells what
// it lacks.
func (r *Rule) Asked() (ok bool, why string) { return r.not == "", r.not }

// Result is a rule held against a machine in one crop.
type Result struct {
	Rule          *Rule
	Crop          string
	Got           Sign
	Before, After float64 // of the reading
	Holds         bool
	Why           string // why it does not hold, where that is known
}

// Bounds of the signs.
const (
	// littleShare and littlePoints are what counts as little change where a rule
	// says so: less than a tenth of itself, or than a tenth of a point. Common
	// practice: less than a count on the ground can tell.
	littleShare, littlePoints = 0.10, 0.10
	// least is the share by which a reading must move to count as rising or
	// falling where a rule says that it does: what no rounding makes. Calibrated.
	least = 0.002
)

// sign tells the direction from before to after as a rule that wants it reads
// it.
func sign(want Sign, orNone bool, before, after float64) Sign {
	d := after - before
	size := max(before, after, 1e-9)
	share, points := least, 0.0
	if want == Little {
		share, points = littleShare, littlePoints
	}
	got := Little
	switch {
	case d > share*size && d > points:
		got = Rises
	case -d > share*size && -d > points:
		got = Falls
	}
	if orNone && got != want && d*float64(want) > -littleShare*size {
		return want // close enough to none
	}
	return got
}

// Check asks a machine the rule in a crop.
func (r *Rule) Check(read Reader, name string) (Result, error) {
	list, err := check(read, crop.Find(name), []*Rule{r})
	if err != nil || len(list) == 0 {
		return Result{Rule: r, Crop: name}, err
	}
	return list[0], nil
}

// CheckCrop asks a machine every rule that applies to a crop; each change is
// run once.
func CheckCrop(read Reader, name string) ([]Result, error) {
	all := All()
	list := make([]*Rule, len(all))
	for i := range all {
		list[i] = &all[i]
	}
	return check(read, crop.Find(name), list)
}

func check(read Reader, c *crop.Crop, list []*Rule) ([]Result, error) {
	base, err := setup.Default(c.Name)
	if err != nil {
		return nil, err
	}
	before, err := read(base, 1)
	if err != nil {
		return nil, err
	}
	known, results := map[*Change]readout.Report{}, []Result{}
	for _, r := range list {
		if ok, _ := r.Asked(); !ok || !r.Applies(c) {
			continue
		}
		after, ok := known[r.Change]
		if !ok {
			if after, err = r.Change.run(read, base); err != nil {
				return nil, err
			}
			known[r.Change] = after
		}
		results = append(results, r.judge(c.Name, &before, &after))
	}
	return results, nil
}

func (ch *Change) run(read Reader, s setup.Setup) (readout.Report, error) {
	ch.apply(&s)
	if err := s.Validate(); err != nil {
		return readout.Report{}, err
	}
	engine := ch.engine
	if engine == 0 {
		engine = 1
	}
	return read(s, engine)
}

func (r *Rule) judge(name string, before, after *readout.Report) Result {
	res := Result{Rule: r, Crop: name, Why: "the machine plugged, so there is nothing to read"}
	a, b := r.Reading.Get(before), r.Reading.Get(after)
	if a == nil || b == nil {
		return res
	}
	res.Before, res.After = *a, *b
	res.Got = sign(r.Want, r.OrNone, *a, *b)
	res.Holds, res.Why = res.Got == r.Want, ""
	if !res.Holds {
		res.Why = unmet(r.ID, name)
	}
	return res
}
