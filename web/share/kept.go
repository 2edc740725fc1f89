// Package share keeps what a person has set up: in the fragment of a link, or
// as a file. Both are read strictly; a fault is said in one sentence, and
// nothing is given back along with it.
package share

import (
	"riddle/scenarios"
	"riddle/sim/setup"
	"riddle/sim/trade/crop"
)

// Kept is one machine in a field, and the settings of a second one beside it
// where two are compared. Parts that a lesson made stand still are not kept.
type Kept struct {
	Model     string // the laws it was made under; empty where it is not said
	Situation string // that it started from; empty for the crop's own start
	Setup     setup.Setup
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
