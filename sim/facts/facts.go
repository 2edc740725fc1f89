// Package facts holds the model against the outside: for each published value
// it computes what the program itself gives, with the program's own laws.
package facts

import (
	"maps"
	"math"
	"strings"

	"riddle/sim/crop"
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

// laws are the computations, by the id of the check or by what the ids of
// several have in common.
var laws = merge(threshing, walkers, drag, air, sieves, loop, units, numbers, power, crops, grades, harvest, losses, speed, moisture)

func merge(parts ...map[string]law) map[string]law {
	all := map[string]law{}
	for _, p := range parts {
		maps.Copy(all, p)
	}
	return all
}

// find returns the computation of a check: the one under its whole id, or under
// the longest beginning that ends at a hyphen or before a lower-case letter.
func find(id string) (key string, f law) {
	for key = id; key != ""; {
		if f := laws[key]; f != nil {
			return key, f
		}
		if last := len(key) - 1; key[last] >= 'a' && key[last] <= 'z' {
			if f := laws[key[:last]]; f != nil {
				return key[:last], f
			}
		}
		key = key[:max(0, strings.LastIndexByte(key, '-'))]
	}
	return "", nil
}

// Find computes one check.
func Find(c published.Check) Fact {
	got := math.NaN()
	if _, f := find(c.ID); f != nil {
		got = f(&c)
	}
	// A product of rounding must not decide: a millionth of the tolerance is let
	// through.
	off := math.Abs(got - c.Expected)
	return Fact{Check: c, Got: got, Holds: off <= float64(c.Tolerance*(1+1e-6))}
}

// All computes every check in the order of the subjects, and tells progress,
// if there is any, the share that is done.
func All(progress func(done float64)) []Fact {
	checks := published.All()
	list := make([]Fact, len(checks))
	for i, c := range checks {
		list[i] = Find(c)
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

// of returns the crop that a check is about; wheat where it names none.
func of(c *published.Check) *crop.Crop {
	if c.Crop == "" {
		return crop.Find("wheat")
	}
	return crop.Find(c.Crop)
}
