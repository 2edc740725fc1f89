package main

import (
	"flag"
	"strconv"
	"strings"

	"riddle/sim/ask/study"
	"riddle/sim/read/readout"
	"riddle/sim/setup"
)

// mostPrice is the highest price that is taken, a bushel. Chosen: beyond any
// grain in any currency in use, and short of what a table can hold.
const mostPrice = 1e6

// price is the option that sets what a bushel or a tonne brings.
type price struct{ text *string }

func (p *price) option(f *flag.FlagSet) {
	f.Func("price", "", func(s string) error { p.text = &s; return nil })
}

// put prices a report anew where a price was given: so much a bushel, or a
// tonne if it ends with /t. The currency is the user's own.
func (p *price) put(r *readout.Report) error {
	prices, given, err := p.read(r.Crop)
	if err == nil && given {
		r.Money = readout.MoneyOf(r, prices)
	}
	return err
}

// reader prices what a reader answers.
func (p *price) reader(read study.Reader) study.Reader {
	return func(s setup.Setup) (readout.Report, error) {
		r, err := read(s)
		if err == nil {
			err = p.put(&r)
		}
		return r, err
	}
}

func (p *price) read(crop string) (prices readout.Prices, given bool, err error) {
	prices = readout.DefaultPrices(crop)
	if p.text == nil {
		return prices, false, nil
	}
	number, tonne := strings.CutSuffix(strings.TrimSpace(*p.text), "/t")
	if !tonne {
		number = strings.TrimSuffix(number, "/bu")
	}
	v, err := strconv.ParseFloat(strings.TrimSpace(number), 64)
	if err == nil && tonne {
		v *= prices.PerBushel / prices.PerTonne(crop)
	}
	if err != nil || !(v > 0 && v <= mostPrice) {
		return prices, false, wrong("price", *p.text, "a number above 0 to 1000000, a bushel, or a tonne with /t")
	}
	prices.PerBushel, prices.AsOf = v, "as given"
	return prices, true, nil
}
