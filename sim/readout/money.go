package readout

import (
	"riddle/sim/crop"
	"riddle/sim/grade"
	"riddle/sim/num"
	"riddle/sim/quantity"
)

// Prices are what a buyer pays and takes off. All of it can be set; the
// defaults are common practice, without one source, and only give the order.
type Prices struct {
	PerBushel float64 // of clean, dry grain of the basis grade, in any currency
	AsOf      string  // of when and where the price is, in words

	Basis     int     // the numbered grade that has the full price
	GradeStep float64 // taken off for each grade below the basis, % of the price
	Sample    float64 // taken off for U.S. Sample grade, %
	Point     float64 // taken off for each point of moisture above base, %, beside the water itself
	Tolerance float64 // foreign material up to which nothing is taken off the weight, %; dockage always is
}

// prices are of the order that U.S. farms got a bushel in the seasons 2021/22
// to 2023/24, in dollars. Common practice, from market reports; no one source.
var prices = map[string]float64{
	"wheat": 6.5, "barley": 5.5, "oats": 4, "soybeans": 12, "corn": 5.2, "canola": 12.5, "rice": 7, "sorghum": 5,
}

// basis is the grade that contracts name, where it is not No. 1. Common
// practice.
var basis = map[string]int{"corn": 2, "oats": 2, "barley": 2, "sorghum": 2}

// What is taken off, % of the price. Common practice; no one source, each buyer
// has a list of its own.
const (
	gradeStep   = 2   // a grade
	sampleStep  = 15  // U.S. Sample grade
	dryingPoint = 1   // a point of moisture, for fuel and handling
	paidForeign = 1   // % foreign material that is paid for as grain, in soybeans and in rice, whose grades are not held
	anyForeign  = 100 // in other crops grade and dockage take care of it
)

// DefaultPrices returns the prices that are taken where none are given.
func DefaultPrices(crop string) Prices {
	p := Prices{
		PerBushel: prices[crop], AsOf: "order of U.S. farm prices, dollars a bushel, 2021 to 2024",
		Basis: max(1, basis[crop]), GradeStep: gradeStep, Sample: sampleStep, Point: dryingPoint, Tolerance: anyForeign,
	}
	if crop == "soybeans" || crop == "rice" {
		p.Tolerance = paidForeign
	}
	return p
}

// PerTonne returns the price of a tonne of a crop.
func (p *Prices) PerTonne(crop string) float64 {
	const poundKg = 0.45359237 // definition: international agreement 1959
	return p.PerBushel / (quantity.Bushel(crop) * poundKg) * 1000
}

// moisture returns what moisture takes off the value, %: the water above base,
// and the drying. Grain drier than base is paid by its weight.
func (p *Prices) moisture(crop string, percent float64) float64 {
	base := grade.BaseMoisture(crop)
	wet := num.Positive(percent - base)
	if wet == 0 {
		return 0
	}
	left := grade.ToMoisture(percent, base) * max(0, 1-p.Point*wet/100)
	return 100 * (1 - left)
}

// weight returns what is taken off the weight for dockage and foreign material
// beyond the tolerance, %.
func (p *Prices) weight(g *grade.Result) float64 {
	return g.Dockage + num.Positive(g.Foreign-p.Tolerance)
}

// grade returns what the grade takes off, %.
func (p *Prices) grade(g *grade.Grade) float64 {
	if g.Sample {
		return p.Sample
	}
	return p.GradeStep * float64(max(0, g.No-p.Basis))
}

// money works out what the losses and the sample of a window cost.
func money(m *Masses, over *Span, c *crop.Crop, g *grade.Result, hectares float64) Money {
	p := over.Prices
	if p == nil {
		usual := DefaultPrices(c.Name)
		p = &usual
	}
	tonne := p.PerTonne(c.Name)
	wet := p.moisture(c.Name, over.Setup.Conditions.GrainMoisture)
	r := Money{PerBushel: &p.PerBushel, PerTonne: &tonne, AsOf: p.AsOf, Moisture: &wet}

	dry := 1 - wet/100 // grain that is lost wet would have been sold wet
	lost := (m.LostHeader + m.processing()) * m.Scale / 1000 * tonne * dry
	stood := (m.TankGrain + m.LostHeader + m.processing()) * m.Scale / 1000 * tonne
	r.CropPerHa, r.LossPerHa, r.LossPerH = ratio(stood, hectares), ratio(lost, hectares), ratio(lost*3600, over.Seconds)
	if !(m.TankGrain > 0) {
		return r
	}
	weight, poor := p.weight(g), 0.0
	r.Dockage = &weight
	if g.Grade != nil {
		poor = p.grade(g.Grade)
		r.Grade = &poor
	}
	full := (m.TankGrain + m.TankForeign) * m.Scale / 1000 * tonne
	less := full * dry * (1 - (1-weight/100)*(1-poor/100))
	r.MoistureHa = ratio(full*wet/100, hectares)
	r.DiscountHa, r.DiscountH = ratio(less, hectares), ratio(less*3600, over.Seconds)
	r.CostPerHa, r.CostPerH = ratio(lost+less, hectares), ratio((lost+less)*3600, over.Seconds)
	return r
}
