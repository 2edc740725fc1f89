package facts

import (
	"fmt"
	"math"

	"riddle/sim/read/measure"
	"riddle/sim/trade/grade"
	"riddle/sim/trade/quantity"
	"riddle/testdata/published"
)

// units is units, their names and what a bushel is.
var units = map[string]law{
	"CR-U1": func(c *published.Check) float64 { return 1000 * read(1, "bu/ac", quantity.Yield, c.Crop) },
	"CR-U2": func(c *published.Check) float64 { return 1e6 / (quantity.Bushel(c.Crop) * measure.PoundG) },
	"CR-U3": func(c *published.Check) float64 {
		return c.Input["mass"] * grade.ToMoisture(c.Input["from"], c.Input["to"])
	},
	"CR-U5":  func(c *published.Check) float64 { return grade.KgPerHL(c.Crop, c.Input["pounds"]) },
	"CR-U6a": headed,
	"CR-U6b": func(c *published.Check) float64 {
		return headed(c) * 1000 / measure.PoundG / quantity.Bushel(c.Crop)
	},
	"UN-bushel":        func(c *published.Check) float64 { return quantity.Bushel(c.Crop) },
	"UN-bulk":          func(c *published.Check) float64 { return quantity.BulkDensity(c.Crop) },
	"UN-read-inch":     func(*published.Check) float64 { return parsed("1/2in", quantity.Opening) },
	"UN-read-fraction": func(*published.Check) float64 { return parsed("1 3/8 in", quantity.Opening) },
	"UN-read-mile":     func(*published.Check) float64 { return parsed("3.1mph", quantity.Speed) },
	"UN-read-foot":     func(*published.Check) float64 { return parsed("30ft", quantity.Width) },
	"UN-read-pound":    func(*published.Check) float64 { return parsed("1000lb/ac", quantity.Yield) },
}

func headed(c *published.Check) float64 {
	return measure.YieldByHeads(c.Input["heads"], c.Input["kernels"], c.Input["thousand"])
}

// parsed reads a text as the program reads it from anybody, in the base unit.
func parsed(text string, dim quantity.Dimension) float64 {
	v, err := quantity.Parse(text, dim, "")
	if err != nil {
		return math.NaN()
	}
	return v
}

// read reads a value with its unit as the program reads it from anybody.
func read(value float64, unit string, dim quantity.Dimension, crop string) float64 {
	v, err := quantity.Parse(fmt.Sprintf("%.17g%s", value, unit), dim, crop)
	if err != nil {
		return math.NaN()
	}
	return v
}

// inches and feet in metres.
func inches(v float64) float64 { return read(v, "in", quantity.Width, "") }
func feet(v float64) float64   { return read(v, "ft", quantity.Width, "") }
