// Package facts checks the model against the outside: for each published value
// it computes what the program itself gives, with the program's own laws.
package facts

import (
	"maps"
	"math"
	"strings"

	"riddle/sim/stage/design"
	"riddle/sim/trade/crop"
	"riddle/testdata/published"
)

// Fact is one value from outside and what the program gives for it.
type Fact struct {
	published.Check
	Got   float64 // NaN where it cannot be computed
	Holds bool
}

// law computes what the program gives for a check.
type law func(c *published.Check) float64

// Bench computes checks. It remembers the machines that it has asked, since many
// checks ask for the same.
type Bench struct {
	laws     map[string]law // by the id of a check, or by what the ids of several have in common
	machines *machines
}

// NewBench returns a bench that has asked nothing yet.
func NewBench() *Bench {
	m := newMachines()
	return &Bench{
		laws: merge(threshing, walkers, drag, air, sieves, loop, units, numbers, crops, grades, harvest, losses, speed, moisture,
			m.power(), m.threshing(), m.cleaning(), m.whole(), m.particles(), m.signs(), m.trials()),
		machines: m,
	}
}

func merge(parts ...map[string]law) map[string]law {
	all := map[string]law{}
	for _, p := range parts {
		maps.Copy(all, p)
	}
	return all
}

// find returns the computation of a check: the one under its whole id, or under
// the longest beginning that ends at a hyphen or before a lower-case letter.
func (b *Bench) find(id string) (key string, f law) {
	for key = id; key != ""; {
		if f := b.laws[key]; f != nil {
			return key, f
		}
		if last := len(key) - 1; key[last] >= 'a' && key[last] <= 'z' {
			if f := b.laws[key[:last]]; f != nil {
				return key[:last], f
			}
		}
		key = key[:max(0, strings.LastIndexByte(key, '-'))]
	}
	return "", nil
}

// Find computes one check.
func (b *Bench) Find(c published.Check) Fact {
	got := math.NaN()
	if _, f := b.find(c.ID); f != nil {
		got = f(&c)
	}
	// A product of rounding must not decide: a millionth of the tolerance is let
	// through.
	off := math.Abs(got - c.Expected)
	fact := Fact{Check: c, Got: got, Holds: off <= float64(c.Tolerance*(1+1e-6))}
	if !fact.Holds && fact.Why == "" {
		fact.Why = b.machines.why(c.ID)
	}
	return fact
}

// All computes every check in the order of the subjects, and tells progress,
// if there is any, the share that is done.
func All(progress func(done float64)) []Fact {
	checks := published.All()
	list, bench := make([]Fact, len(checks)), NewBench()
	for i, c := range checks {
		list[i] = bench.Find(c)
		if progress != nil {
			progress(float64(i+1) / float64(len(checks)))
		}
	}
	return list
}

// sign returns −1, 0 or 1.
func sign(x float64) float64 {
	switch {
	case x > 0:
		return 1
	case x < 0:
		return -1
	}
	return 0
}

// truth is 1 for yes and 0 for no, as rules are told.
func truth(yes bool) float64 {
	if yes {
		return 1
	}
	return 0
}

// fit returns the machine as it meets the crop of a name.
func fit(name string) *design.Fit { return design.WithWalkers.In(crop.Find(name)) }

// of returns the crop that a check is about, as the machine meets it; wheat where it names none.
func of(c *published.Check) *design.Fit {
	if c.Crop == "" {
		return fit("wheat")
	}
	return fit(c.Crop)
}
