// Package quantity reads and writes values with units at the edges of the
// machine; inside, every value is a plain number in the base unit of its kind.
package quantity

import (
	"fmt"
	"math"
	"sort"
	"strconv"
	"strings"
)

// Dimension is a kind of quantity. Its value is the name of its base unit.
type Dimension string

const (
	Speed       Dimension = "km/h"
	Rotation    Dimension = "rpm"
	Opening     Dimension = "mm"
	Height      Dimension = "cm"
	Width       Dimension = "m"
	Yield       Dimension = "t/ha"
	Share       Dimension = "%"
	Slope       Dimension = "degrees"
	Ratio       Dimension = "" // a plain number
	OnOff       Dimension = "on, off"
	inchInMetre           = 0.0254     // published: international yard and pound agreement 1959
	acreInM2              = 4046.8564  // by definition: 43,560 square feet of 0.3048 m
	poundInKg             = 0.45359237 // published: international yard and pound agreement 1959
)

// Bushel returns the legal weight of a bushel of the crop in pounds, or 0
// where the crop has none. Published: U.S. Department of Agriculture 1992,
// Weights, Measures, and Conversion Factors for Agricultural Commodities and
// Their Products, Agricultural Handbook 697.
func Bushel(crop string) float64 {
	return map[string]float64{
		"wheat": 60, "soybeans": 60, "corn": 56, "sorghum": 56, "barley": 48, "oats": 32, "rice": 45, "canola": 50,
	}[crop]
}

// units maps each spelling of a unit to its size in the base unit, by
// definition (international yard and pound agreement 1959). Yields in bushels
// depend on the crop and are handled apart.
var units = map[Dimension]map[string]float64{
	Speed:    {"km/h": 1, "kmh": 1, "kph": 1, "mph": 1.609344, "m/s": 3.6},
	Rotation: {"rpm": 1, "1/min": 1, "r/min": 1},
	Opening:  {"mm": 1, "cm": 10, "in": inchInMetre * 1000, "\"": inchInMetre * 1000},
	Height:   {"cm": 1, "mm": 0.1, "m": 100, "in": inchInMetre * 100, "ft": inchInMetre * 1200, "\"": inchInMetre * 100},
	Width:    {"m": 1, "cm": 0.01, "ft": inchInMetre * 12, "in": inchInMetre},
	Yield:    {"t/ha": 1, "kg/ha": 0.001, "lb/ac": poundInKg / 1000 / (acreInM2 / 10000)},
	Share:    {"%": 1, "percent": 1},
	Slope:    {"degrees": 1, "degree": 1, "deg": 1, "°": 1},
	Ratio:    {},
}

// Parse reads a number with or without a unit and returns it in the base unit
// of the dimension. Fractions such as 1/2in or 1 3/8in are read. The crop is
// needed for bushels an acre only. On/off values are 1 and 0.
func Parse(text string, dim Dimension, crop string) (float64, error) {
	s := strings.TrimSpace(text)
	if dim == OnOff {
		switch strings.ToLower(s) {
		case "on", "true", "1":
			return 1, nil
		case "off", "false", "0":
			return 0, nil
		}
		return 0, fmt.Errorf("%q is neither on nor off", text)
	}
	number, unit := split(s, dim)
	v, err := Number(number)
	if err != nil {
		return 0, fmt.Errorf("%q is not a number%s", text, wanted(dim))
	}
	if unit == "" {
		return v, nil
	}
	if dim == Yield && unit == "bu/ac" {
		lb := Bushel(crop)
		if lb == 0 {
			return 0, fmt.Errorf("%q: no bushel weight is held for %q", text, crop)
		}
		return v * lb * units[Yield]["lb/ac"], nil
	}
	size, ok := units[dim][unit]
	if !ok {
		return 0, fmt.Errorf("%q has the unit %q%s", text, unit, wanted(dim))
	}
	return v * size, nil
}

// split parts a text into its number and its unit: the longest known unit that
// it ends with, or else all that follows the last digit.
func split(s string, dim Dimension) (number, unit string) {
	low, best := strings.ToLower(s), ""
	for u := range units[dim] {
		if strings.HasSuffix(low, u) && len(u) > len(best) {
			best = u
		}
	}
	cut := len(low) - len(best)
	if best == "" {
		cut = strings.LastIndexAny(low, "0123456789.") + 1
	}
	if dim == Yield && strings.HasSuffix(low, "bu/ac") {
		cut = len(low) - len("bu/ac")
	}
	return strings.TrimSpace(low[:cut]), strings.TrimSpace(low[cut:])
}

// wanted names the units that a dimension takes.
func wanted(dim Dimension) string {
	names := make([]string, 0, 8)
	for u := range units[dim] {
		names = append(names, u)
	}
	if dim == Yield {
		names = append(names, "bu/ac")
	}
	if len(names) == 0 {
		return ", wanted is a plain number"
	}
	sort.Strings(names)
	return ", wanted is a number in " + strings.Join(names, ", ")
}

// Number reads a decimal, a fraction, or a whole number and a fraction, such as
// 1 3/8 or 1-3/8.
func Number(s string) (float64, error) {
	whole := 0.0
	s = strings.TrimSpace(s)
	if i := strings.IndexAny(s, " -"); i > 0 && strings.Index(strings.TrimSpace(s[i:]), "/") > 0 {
		w, err := strconv.ParseUint(s[:i], 10, 16)
		if err != nil {
			return 0, err
		}
		whole, s = float64(w), strings.TrimSpace(s[i+1:])
	}
	if over, under, ok := strings.Cut(s, "/"); ok {
		a, err := strconv.ParseFloat(strings.TrimSpace(over), 64)
		if err != nil {
			return 0, err
		}
		b, err := strconv.ParseFloat(strings.TrimSpace(under), 64)
		if err != nil {
			return 0, err
		}
		if b == 0 {
			return 0, fmt.Errorf("division by zero")
		}
		return whole + a/b, nil
	}
	v, err := strconv.ParseFloat(s, 64)
	if err == nil && (math.IsNaN(v) || math.IsInf(v, 0)) {
		return v, fmt.Errorf("not a finite number")
	}
	return v, err
}

// BulkDensity returns the density of the grain in bulk, kg/m³: the legal
// weight of a bushel over its 35.239 L, the value that ASABE D241.4 is
// remembered to give (from memory).
func BulkDensity(crop string) float64 {
	const bushelM3 = 0.03523907 // by definition: Winchester bushel, 2150.42 in³
	return Bushel(crop) * poundInKg / bushelM3
}
