package readout

import (
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

// weight returns what is taken off the weight for dockage and for foreign
// material beyond the tolerance, %.
func (p *Prices) weight(t *Tank) float64 {
	if d := t.GradeFactors["dockage_pct"]; d != nil {
		return *d
	}
	if t.Foreign == nil {
		return 0
	}
	return num.Positive(*t.Foreign - p.Tolerance)
}

// grade returns what the grade takes off, %, or nil where there is none.
func (p *Prices) grade(name *string) *float64 {
	if name == nil {
		return nil
	}
	off := p.Sample
	for no := 1; no <= grade.MostGrades; no++ {
		if *name == grade.NameOf(no) {
			off = p.GradeStep * float64(max(0, no-p.Basis))
		}
	}
	return &off
}

// MoneyOf works out what the losses and the sample of a report cost at prices
// of one's own.
func MoneyOf(r *Report, p Prices) Money {
	tonne := p.PerTonne(r.Crop)
	percent, _ := r.Conditions["grain_moisture_pct"].(float64)
	wet := p.moisture(r.Crop, percent)
	m := Money{PerBushel: &p.PerBushel, PerTonne: &tonne, AsOf: p.AsOf, Moisture: &wet}
	if r.LossKgHa.Total == nil || r.Feed.AreaHaH == nil {
		return m
	}
	hour := func(perHa float64) *float64 { v := perHa * *r.Feed.AreaHaH; return &v }
	dry := 1 - wet/100 // grain that is lost wet would have been sold wet
	lost := *r.LossKgHa.Total / 1000 * tonne * dry
	m.LossPerHa, m.LossPerH = &lost, hour(lost)
	if r.LeftHa == nil || r.Tank.Kg == nil || r.Tank.Foreign == nil || r.ungraded() {
		return m
	}
	kg := ratio(*r.Tank.Kg, *r.LeftHa)
	if kg == nil {
		return m
	}
	stood := (*r.LossKgHa.Total + *kg*(1-*r.Tank.Foreign/100)) / 1000 * tonne
	full := *kg / 1000 * tonne
	weight, off := p.weight(&r.Tank), p.grade(r.Tank.Grade)
	paid := 1 - weight/100
	if off != nil {
		paid *= 1 - *off/100
	}
	less, water := full*dry*(1-paid), full*wet/100
	both := lost + less
	m.CropPerHa, m.CropPerH, m.MoistureHa, m.Dockage, m.Grade = &stood, hour(stood), &water, &weight, off
	m.DiscountHa, m.DiscountH, m.CostPerHa, m.CostPerH = &less, hour(less), &both, hour(both)
	return m
}
