package facts

import (
	"math"

	"riddle/sim/ask/forecast"
	"riddle/sim/setup"
	"riddle/sim/trade/grade"
	"riddle/testdata/published"
)

// harvest is what graders found in samples of whole harvests, against the tank
// at each crop's starting settings.
var harvest = map[string]law{"UN-harvested": harvested, "UN-harvest": func(c *published.Check) float64 {
	return grade.KgPerHL(c.Crop, c.Input["pounds"])
}}

// harvested reads a grade factor, or the test weight in lb/bu, from a forecast
// at the starting settings, at the moisture of the input if it names one.
func harvested(c *published.Check) float64 {
	s, err := setup.Default(c.Crop)
	if err != nil {
		return math.NaN()
	}
	if m, ok := c.Input["moisture"]; ok {
		s.Conditions.GrainMoisture = m
	}
	r, err := forecast.Report(s)
	if err != nil || r.Tank.GradeFactors[c.Of] == nil {
		return math.NaN()
	}
	return *r.Tank.GradeFactors[c.Of]
}
