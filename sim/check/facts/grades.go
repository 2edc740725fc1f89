package facts

import (
	"math"
	"strconv"
	"strings"

	"riddle/sim/trade/grade"
	"riddle/testdata/published"
)

// grades is the standards by which the tank sample is graded.
var grades = map[string]law{
	"CR-G1":  cells,
	"CR-G3":  graded,
	"CR-G4":  graded,
	"CR-G5":  graded,
	"CR-G6":  graded,
	"CR-G8":  graded,
	"CR-G10": graded,
	"CR-G9a": func(c *published.Check) float64 {
		with, without := chaffy(c)
		return sign(float64(with.Grade.No - without.Grade.No))
	},
	"CR-G9b": func(c *published.Check) float64 {
		with, without := chaffy(c)
		return with.Dockage - without.Dockage
	},
	"CR-G11": func(c *published.Check) float64 { // how many sieves a piece falls through
		n := 0.0
		for _, s := range grade.SievesOf(c.Crop) {
			if s.Passes(c.Input["mm"]) {
				n++
			}
		}
		return n
	},
	"CR-2.8-sieve": func(c *published.Check) float64 {
		list := grade.SievesOf(c.Crop)
		if n := int(c.Input["n"]); n < len(list) {
			return list[n].MM
		}
		return math.NaN()
	},
}

// graded grades a lot that is clean but for the factors of the input.
func graded(c *published.Check) float64 {
	t := grade.Named(c.Of)
	if t == nil {
		return math.NaN()
	}
	return float64(t.Of(c.Input).No)
}

// cells counts the cells of one line of a grade table that hold: at the limit a
// lot has the grade or a better one, a step beyond it has not.
func cells(c *published.Check) (held float64) {
	table, key, _ := strings.Cut(c.Of, "/")
	t := grade.Named(table)
	if t == nil || t.Factor(key) == nil {
		return math.NaN()
	}
	for no := 1; ; no++ {
		limit, ok := c.Input[strconv.Itoa(no)]
		if !ok {
			return held
		}
		at := t.Of(map[string]float64{key: limit})
		beyond := t.Of(map[string]float64{key: limit + c.Input["step"]})
		if at.No <= no && beyond.No > no {
			held++
		}
	}
}

// chaffy grades a clean sample of a crop with and without a share of chaff.
func chaffy(c *published.Check) (with, without grade.Result) {
	s := grade.Sample{Loose: 1}
	without = grade.Judge(of(c).Crop, s, grade.BaseMoisture(c.Crop))
	s.Chaff = c.Input["chaff"] / (1 - c.Input["chaff"])
	return grade.Judge(of(c).Crop, s, grade.BaseMoisture(c.Crop)), without
}
