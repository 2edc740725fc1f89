package bridge

import (
	"riddle/sim/read/readout"
	"riddle/sim/setup"
	"riddle/sim/trade/quantity"
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

// Money is what the long window cost, as the readout works it out, in whatever
// money the price is in.
type Money struct {
	Price    float64     `json:"price"` // for a unit in which grain is sold
	Sold     string      `json:"sold"`  // the unit
	Land     string      `json:"land"`
	Lines    []MoneyLine `json:"lines"`
	PerHour  *float64    `json:"perHour"`  // crop less cost and machine
	Refused  []*Message  `json:"refused"`  // uses that the sample is not fit for
	Free     *Message    `json:"free"`     // what the buyer's list lets pass
	Fastness Q           `json:"fastness"` // land an hour
}

// MoneyLine is one line of the cost for a unit of land.
type MoneyLine struct {
	Key   string   `json:"key"`
	Value *float64 `json:"value"`
}

func (s *Session) money(r *readout.Report) Money {
	sold, tonnes := s.units.Bulk(r.Crop)
	land, hectares := s.units.Land()
	of := &r.Money
	m := Money{
		Price: s.price * tonnes, Sold: sold, Land: land, PerHour: of.NetH, Refused: []*Message{},
		Fastness: s.q(r.Feed.AreaHaH, quantity.Work),
	}
	for _, l := range []MoneyLine{
		{"money.lost", of.LossPerHa}, {"money.list", of.DiscountHa}, {"money.fines", of.FinesHa}, {"money.storage", of.StorageHa},
		{"money.use", of.UseHa}, {"money.cost", of.CostPerHa}, {"money.machine", of.MachineHa}, {"money.weather", of.WeatherHa}, {"money.whole", of.WholeHa},
	} {
		if l.Key == "money.use" && (l.Value == nil || *l.Value == 0) {
			continue
		}
		if l.Value != nil {
			v := *l.Value * hectares
			l.Value = &v
		}
		m.Lines = append(m.Lines, l)
	}
	for _, use := range of.Refused {
		key := "money.refused.seed"
		if use == readout.Malt {
			key = "money.refused.malt"
		}
		m.Refused = append(m.Refused, say(key))
	}
	if name, upTo := readout.FreeOf(r, s.prices()); name != "" {
		m.Free = say("money.free", With{"factor": say(factorKey(name)), "percent": upTo})
	}
	return m
}

// setPrice takes the price for a unit in which grain is sold.
func (s *Session) setPrice(v float64) error {
	if !(v > 0 && v <= 1e6) {
		return &setup.Error{Field: "price", Value: trim(v), Want: "a number above 0 to 1000000"}
	}
	_, tonnes := s.units.Bulk(s.machine.Crop().Name)
	s.price = v / tonnes
	return nil
}
