package reading

import (
	"math"
	"strconv"

	"riddle/sim/read/readout"
	"riddle/sim/setup"
	"riddle/sim/trade/quantity"
	"riddle/web/speak"
)

// PriceOf is the price at which the crop starts, for a bushel.
func PriceOf(crop string) float64 { return readout.DefaultPrices(crop).PerBushel }

// Money is what the long window cost, as the readout works it out, in whatever
// money the price is in.
type Money struct {
	Price    float64          `json:"price"` // for a unit in which grain is sold
	Typed    string           `json:"typed"` // the same as a number field takes it
	Sold     string           `json:"sold"`  // the unit
	Land     string           `json:"land"`
	Lines    []MoneyLine      `json:"lines"`
	PerHour  *float64         `json:"perHour"`  // crop less cost and machine
	Refused  []*speak.Message `json:"refused"`  // uses that the sample is not fit for
	Free     *speak.Message   `json:"free"`     // what the buyer's list lets pass
	WorkRate speak.Q          `json:"fastness"` // land an hour
}

// MoneyLine is one line of the cost for a unit of land.
type MoneyLine struct {
	Key   string   `json:"key"`
	Value *float64 `json:"value"`
}

// Money shows what a report cost.
func (rd Reader) Money(r *readout.Report) Money {
	sold, tonnes := rd.System.Bulk(r.Crop)
	land, hectares := rd.System.Land()
	of, prices := &r.Money, readout.PricesAt(r.Crop, rd.Price)
	price := prices.PerTonne(r.Crop) * tonnes // of a unit that is sold
	m := Money{
		Price: price, Typed: threeDigits(price), Sold: sold, Land: land, PerHour: of.NetH, Refused: []*speak.Message{},
		WorkRate: rd.Q(r.Feed.AreaHaH, quantity.Work),
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
		m.Refused = append(m.Refused, speak.Say(key))
	}
	if name, upTo := readout.FreeOf(r, &prices); name != "" {
		m.Free = speak.Say("money.free", speak.With{"factor": speak.Say(speak.FactorKey(name)), "percent": upTo})
	}
	return m
}

// threeDigits writes a number with three digits that count.
func threeDigits(v float64) string {
	if v == 0 {
		return "0"
	}
	after := 2 - int(math.Floor(math.Log10(math.Abs(v))))
	unit := math.Pow10(after)
	return strconv.FormatFloat(math.Round(v*unit)/unit, 'f', -1, 64)
}

// PerBushel is the price of a bushel where that of a unit in which grain is sold is
// v.
func (rd Reader) PerBushel(v float64) (float64, error) {
	if !(v > 0 && v <= 1e6) {
		return 0, &setup.Error{Field: "price", Value: speak.Trim(v), Want: "a number above 0 to 1000000"}
	}
	if unit, _ := rd.System.Bulk(rd.Crop); unit != "bu" {
		p := readout.DefaultPrices(rd.Crop)
		v *= p.PerBushel / p.PerTonne(rd.Crop)
	}
	return v, nil
}

// PriceAnew works the money of a report out at the page's price; without a price
// there is none.
func (rd Reader) PriceAnew(r *readout.Report) {
	r.Money = readout.Money{}
	if p := rd.prices(); p != nil {
		r.Money = readout.MoneyOf(r, *p)
	}
}
