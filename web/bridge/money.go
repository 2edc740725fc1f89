package bridge

import (
	"riddle/sim/quantity"
	"riddle/sim/readout"
	"riddle/sim/setup"
)

// priceOf is the price at which the crop starts, for a tonne.
func priceOf(crop string) float64 {
	p := readout.DefaultPrices(crop)
	return p.PerTonne(crop)
}

// prices are those of the crop's start, at the price that is set.
func (s *Session) prices() *readout.Prices {
	crop := s.machine.Crop().Name
	p := readout.DefaultPrices(crop)
	p.PerBushel *= s.price / p.PerTonne(crop)
	return &p
}

// Money is what lost grain and a poorer sample cost over the long window, as
// the report has it, in whatever money the price is in.
type Money struct {
	Price    float64  `json:"price"` // for a unit in which grain is sold
	Sold     string   `json:"sold"`  // the unit
	Land     string   `json:"land"`
	PerLand  *float64 `json:"perLand"`
	PerHour  *float64 `json:"perHour"`
	Harvest  *float64 `json:"harvest"`  // worth of what stood on the land of an hour
	Fastness Q        `json:"fastness"` // land an hour
}

func (s *Session) money(r *readout.Report) Money {
	sold, tonnes := s.units.Bulk(r.Crop)
	land, hectares := s.units.Land()
	m := Money{
		Price: s.price * tonnes, Sold: sold, Land: land, Fastness: s.q(r.Feed.AreaHaH, quantity.Work),
		PerHour: r.Money.CostPerH, Harvest: r.Money.CropPerH,
	}
	if cost := r.Money.CostPerHa; cost != nil {
		v := *cost * hectares
		m.PerLand = &v
	}
	return m
}

// setPrice takes the price for a unit in which grain is sold.
func (s *Session) setPrice(v float64) error {
	if !(v >= 0 && v <= 1e6) {
		return &setup.Error{Field: "price", Value: trim(v), Want: "0 to 1000000"}
	}
	_, tonnes := s.units.Bulk(s.machine.Crop().Name)
	s.price = v / tonnes
	return nil
}
