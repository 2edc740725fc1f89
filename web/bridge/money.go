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

// Money is what the grain lost over the long window is worth, in whatever
// money the price is in.
type Money struct {
	Price    float64  `json:"price"` // for a unit in which grain is sold
	Sold     string   `json:"sold"`  // the unit
	Land     string   `json:"land"`
	PerLand  *float64 `json:"perLand"`
	PerHour  *float64 `json:"perHour"`
	Harvest  *float64 `json:"harvest"`  // worth of what is harvested an hour
	Fastness Q        `json:"fastness"` // land an hour
}

func (s *Session) money(r *readout.Report) Money {
	sold, tonnes := s.units.Bulk(r.Crop)
	land, hectares := s.units.Land()
	m := Money{Price: s.price * tonnes, Sold: sold, Land: land, Fastness: s.q(r.Feed.AreaHaH, quantity.Work)}
	if lost := r.LossKgHa.Total; lost != nil {
		v := *lost / 1000 * s.price * hectares
		m.PerLand = &v
		if area := r.Feed.AreaHaH; area != nil {
			h := *lost / 1000 * s.price * *area
			m.PerHour = &h
		}
	}
	if t := r.Feed.GrainTH; t != nil {
		v := *t * s.price
		m.Harvest = &v
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
