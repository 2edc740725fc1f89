// Package share saves what a user has set up, in the fragment of a link or
// as a file. Both are read strictly; an error is reported in one sentence, and
// nothing else is returned with it.
package share

import (
	"riddle/scenarios"
	"riddle/sim/read/readout"
	"riddle/sim/setup"
	"riddle/sim/trade/crop"
)

// Kept is one machine in a field, and the settings of a second one beside it
// where two are compared. Parts that a lesson made stand still are not kept.
type Kept struct {
	Model     string // the laws it was made under; empty where it is not said
	Situation string // that it started from; empty for the crop's own start
	Setup     setup.Setup
	Price     float64         // of a bushel, in the user's own money; 0 is the crop's own
	Second    *setup.Settings // nil where there is one machine
}

// second returns the whole setup of the second machine.
func (k *Kept) second() setup.Setup {
	s := k.Setup
	s.Settings = *k.Second
	return s
}

// base returns what a link or a file starts from, before its own values.
func base(cropName, situation string) (setup.Setup, error) {
	if crop.Find(cropName) == nil {
		return setup.Setup{}, unknownCrop(cropName)
	}
	if situation == "" {
		return setup.Default(cropName)
	}
	sc := scenarios.Find(situation)
	switch {
	case sc == nil:
		return setup.Setup{}, &Error{Code: Value, Field: "situation", Value: cut(situation), Want: "one that this version holds"}
	case sc.Crop != cropName:
		return setup.Setup{}, &Error{Code: Value, Field: "crop", Value: cropName, Want: sc.Crop + ", the crop of " + situation}
	}
	return sc.Setup()
}

// checkPrice refuses a price that is no price of a bushel.
func checkPrice(v float64, text string) error {
	if v > 0 && v <= readout.MaxPrice {
		return nil
	}
	return &Error{Code: Value, Field: priceKey, Value: cut(text), Want: readout.PriceWant}
}

// none says that a crop's header has not what is set, or nothing where it has.
func none(f *setup.Field, cropName string) error {
	if f.On(crop.Find(cropName)) {
		return nil
	}
	return &Error{Code: None, Field: f.Name, Value: cropName}
}

// fieldsOf lists the fields that the crop has: settings alone, or all.
func fieldsOf(cropName string, settingsOnly bool) (list []*setup.Field) {
	c := crop.Find(cropName)
	for i := range setup.Fields {
		if f := &setup.Fields[i]; f.On(c) && !(settingsOnly && f.Condition) {
			list = append(list, f)
		}
	}
	return list
}
