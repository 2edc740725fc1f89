package main

import (
	"flag"

	"riddle/sim/ask/study"
	"riddle/sim/read/readout"
	"riddle/sim/setup"
)

// price is the option that sets what a bushel or a tonne brings.
// Where it is not given, that of the link or the file that was opened stands.
type price struct {
	text *string
	in   *inputs
}

func (p *price) option(f *flag.FlagSet, in *inputs) {
	p.in = in
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
	perBushel := p.in.price
	if p.text != nil {
		v, ok := readout.ReadPrice(crop, *p.text)
		if !ok {
			return prices, false, wrong("price", *p.text, readout.PriceWant)
		}
		perBushel = v
	}
	prices = readout.PricesAt(crop, perBushel)
	return prices, perBushel != 0, nil
}
