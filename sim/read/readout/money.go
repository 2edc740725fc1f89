package readout

import (
	"slices"

	"riddle/sim/num"
	"riddle/sim/trade/crop"
)

// MoneyOf works out what the losses, the sample and the time of a report cost at
// prices of one's own. It is the one place that does.
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
	if r.LeftHa == nil || r.Tank.Kg == nil || r.Tank.Foreign == nil || r.Tank.Broken == nil || r.ungraded() {
		return m
	}
	kg := ratio(*r.Tank.Kg, *r.LeftHa)
	if kg == nil {
		return m
	}
	stood := (*r.LossKgHa.Total + *kg*(1-*r.Tank.Foreign/100)) / 1000 * tonne
	full := *kg / 1000 * tonne
	weight, off := p.weight(&r.Tank), p.grade(r.Crop, &r.Tank)
	paid := 1 - weight/100
	if off != nil {
		paid *= 1 - *off/100
	}
	less, water := full*dry*(1-paid), full*wet/100
	m.CropPerHa, m.CropPerH, m.MoistureHa, m.Dockage, m.Grade = &stood, hour(stood), &water, &weight, off
	m.DiscountHa, m.DiscountH = &less, hour(less)
	quality := m.breakage(r, &p, full*dry, weight)
	cost := lost + less + quality
	m.CostPerHa, m.CostPerH = &cost, hour(cost)
	m.time(*r.Feed.AreaHaH, &p, stood*dry)
	return m
}

// breakage works out what broken grain costs beside the buyer's list, and
// returns the sum; full is the worth of what is in the tank.
func (m *Money) breakage(r *Report, p *Prices, full, weight float64) float64 {
	fines := 0.0
	if r.Tank.Fines != nil {
		fines = *r.Tank.Fines
		if p.Tolerance < anyForeign { // part of what was taken off the weight
			fines = num.Positive(fines - weight)
		}
	}
	screened := full * fines / 100 * (1 - p.Screenings)
	storage := full * p.Stored * wasted(*r.Tank.Broken) / 100
	use := 0.0
	m.Refused = refused(crop.Find(r.Crop), &r.Tank)
	if slices.Contains(m.Refused, Malt) {
		use = full * p.Premium / 100
	}
	m.FinesHa, m.StorageHa, m.UseHa = &screened, &storage, &use
	return screened + storage + use
}

// time adds what a slow machine costs: its hours, and what the weather does to
// what still stands. That is the timeliness cost of ASAE EP496 (standard): of the
// worth W, a share K is lost a day, and the mean hectare of A waits for half of
// the days that it takes at C ha/h, T hours of a day and a share p of days fit,
//
//	W K A/(2 C T p)
func (m *Money) time(area float64, p *Prices, worth float64) {
	machine := p.MachineH / area
	weather := 0.0
	if p.Hours > 0 && p.Fit > 0 {
		weather = worth * p.Delay / 100 * p.Hectares / (2 * area * p.Hours * p.Fit)
	}
	whole := *m.CostPerHa + machine + weather
	net := *m.CropPerHa - *m.CostPerHa - machine
	netH := net * area
	m.MachineHa, m.WeatherHa, m.WholeHa, m.NetHa, m.NetH = &machine, &weather, &whole, &net, &netH
}
