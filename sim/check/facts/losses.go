package facts

import (
	"riddle/sim/read/measure"
	"riddle/sim/trade/quantity"
	"riddle/testdata/published"
)

// cornRule is the kernels of corn a square foot that make a bushel an acre.
// Published, University of Missouri G1290.
const cornRule = 2.0

// losses is the sums that are done on the ground behind a machine.
var losses = map[string]law{
	"CR-L1": func(c *published.Check) float64 {
		return measure.KernelsPerFt2(quantity.Bushel(c.Crop), c.Input["thousand"])
	},
	"CR-3.1-rule": func(c *published.Check) float64 {
		return measure.KernelsPerFt2(quantity.Bushel(c.Crop), of(c).KernelMass)
	},
	"CR-3.1-metric": func(c *published.Check) float64 { return measure.KernelsPerM2(c.Input["kg_ha"], c.Input["thousand"]) },
	"CR-3.1-crrb": func(c *published.Check) float64 {
		b := quantity.Bushel(c.Crop)
		return b / measure.KernelsPerFt2(b, c.Input["thousand"])
	},
	"CR-L2a": func(c *published.Check) float64 { return beans(c.Input) },
	"CR-L2b": func(c *published.Check) float64 {
		return measure.Counts{Header: beans(c.Input)}.Losses(4, 1).Header // four beans make a bushel
	},
	"CR-L3":      tenFeet,
	"CR-L12":     tenFeet,
	"CR-3.3-E5a": tenFeet,
	"CR-L4":      func(c *published.Check) float64 { return measure.FrameInches(c.Input["width_in"]) },
	"CR-L5":      func(c *published.Check) float64 { return measure.EarPlotFeet(c.Input["rows"], 30) },
	"CR-L7": func(c *published.Check) float64 {
		return c.Input["kernels"] / measure.KernelsPerFt2(45, c.Input["thousand"])
	},
	"CR-L9a": func(c *published.Check) float64 { return trail(c.Input).Machine },
	"CR-L9b": func(c *published.Check) float64 { return trail(c.Input).Total },
	"CR-L9c": func(c *published.Check) float64 { return measure.Percent(trail(c.Input).Total, c.Input["harvested"]) },
	"CR-L11": func(c *published.Check) float64 {
		return measure.Counts{Trail: c.Input["trail"]}.Losses(cornRule, c.Input["cf"]).Machine
	},
	"CR-L13":     ears,
	"CR-3.3-E8a": concentration,
	"CR-3.3-E8b": func(c *published.Check) float64 {
		return measure.PanBushels(c.Input["grams"], concentration(c), quantity.Bushel(c.Crop))
	},
	"CR-3.3-E8c": func(c *published.Check) float64 {
		return measure.PanKgHa(c.Input["grams"]/measure.PerFt2(1), concentration(c))
	},
	"CR-3.3-E11":   func(c *published.Check) float64 { return measure.Percent(c.Input["loss"], c.Input["harvested"]) },
	"CR-3.2-count": func(c *published.Check) float64 { return measure.CountError(c.Input["n"]) },
	"CR-L15": func(c *published.Check) float64 {
		in := c.Input
		wide := measure.Counts{Trail: in["lost"]}.Losses(20, 1)
		cf := measure.Concentration(in["cut"], in["discharge"])
		narrow := measure.Counts{Trail: in["lost"] * cf}.Losses(20, cf)
		return wide.Machine / narrow.Machine
	},
}

// beans is the mean of four counts behind less that of four in the crop.
func beans(in map[string]float64) float64 {
	return (in["a"] + in["b"] + in["c"] + in["d"] - in["e"] - in["f"] - in["g"] - in["h"]) / 4
}

// tenFeet turns kernels of corn in ten square feet into bushels an acre.
func tenFeet(c *published.Check) float64 {
	return measure.Counts{Header: c.Input["kernels"] / 10}.Losses(cornRule, 1).Header
}

func trail(in map[string]float64) measure.Found {
	return measure.Counts{Standing: in["standing"], Header: in["header"], Trail: in["trail"]}.
		Losses(in["rule"], measure.Concentration(in["cut"], in["discharge"]))
}

// earBushel is the ears that shell out to a bushel of corn, lb. Published, USDA
// Handbook 697.
const earBushel = 70.0

// ears returns the bushels an acre that ears in a hundredth of an acre make.
func ears(c *published.Check) float64 {
	acres := measure.EarPlotFeet(1, 30) * 30 / 12 / measure.AcreFt2
	return c.Input["ears"] * c.Input["pound"] / earBushel / acres
}

func concentration(c *published.Check) float64 {
	return measure.Concentration(c.Input["cut"], c.Input["discharge"])
}
