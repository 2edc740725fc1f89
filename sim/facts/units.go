package facts

import (
	"fmt"
	"math"

	"riddle/sim/quantity"
)

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
