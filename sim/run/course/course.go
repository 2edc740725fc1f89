// Package course is the field along the way and the day as it goes by: what a
// machine meets as it drives. It changes conditions only, and never one that
// the user has set.
package course

import (
	"fmt"
	"slices"

	"riddle/sim/num"
	"riddle/sim/setup"
	"riddle/sim/stage/section"
	"riddle/sim/trade/weather"
)

// Value is what a condition is in a stretch.
type Value struct {
	Field *setup.Field
	To    float64 // in the field's unit
}

// Stretch is a part of the way in which conditions are others.
type Stretch struct {
	Name     string  // in words, such as "green patch"
	From, To float64 // m driven by the cutter bar
	Edge     float64 // m over which each end goes over, 0 sharp
	Values   []Value
}

// Day is the weather that goes by while the machine works.
type Day struct {
	weather.Day
	Start float64 // hour of the day at the first tick
	Pace  float64 // seconds of the day for each second of the machine
}

// Course is a field and a day. Later stretches lie over earlier ones.
type Course struct {
	Stretches []Stretch
	Round     float64 // m after which the way comes round again, or 0
	Day       *Day    // or nil
}

// Limits of a course. Chosen.
const (
	MaxStretches = 24
	MaxWay       = 20000 // m
	MaxPace      = 120
)

// where a condition is met, as metres from the cutter bar.
type place uint8

const (
	nowhere place = iota // it is none of the way
	stand                // in the crop that comes over the horizon
	crop                 // in what is being threshed, cut two seconds ago
	wheels               // under the machine
)

// places says where each condition is met. Moisture and light grain act in the
// machine at once and everywhere; they follow the crop that reaches the
// cylinder, which is a simplification.
var places = map[string]place{
	"yield": stand, "mog-ratio": stand, "green-weeds": stand, "grain-moisture": crop, "straw-moisture": crop, "light-grain": crop,
	"side-slope": wheels, "fore-slope": wheels,
}

var (
	horizonAhead = section.CutterBar.X - section.Horizon             // m from the bar
	wheelsBehind = section.FrontWheel.Centre.X - section.CutterBar.X // m from the bar
)

const (
	// feedTime is the way from bar to cylinder, s: as the feeder's chain speed is
	// calibrated.
	feedTime = 2.0
)

// Varies reports whether a condition can change along the way, by its name.
func Varies(field string) bool { return places[field] != nowhere }

// share returns how far a stretch holds at a place, 0 to 1.
func (s *Stretch) share(x float64) float64 {
	if s.Edge == 0 {
		if x >= s.From && x < s.To {
			return 1
		}
		return 0
	}
	in := num.SmoothStep((x-s.From)/s.Edge + 0.5)
	return in * (1 - num.SmoothStep((x-s.To)/s.Edge+0.5))
}

// Validate reports the first thing that is wrong with a course in a crop.
func (c *Course) Validate(start setup.Setup) error {
	if len(c.Stretches) > MaxStretches {
		return &setup.Error{Field: "stretches", Value: fmt.Sprint(len(c.Stretches)), Want: fmt.Sprintf("at most %d", MaxStretches)}
	}
	if !(c.Round >= 0 && c.Round <= MaxWay) {
		return &setup.Error{Field: "round", Value: fmt.Sprintf("%g m", c.Round), Want: fmt.Sprintf("0 to %d m", MaxWay)}
	}
	for i := range c.Stretches {
		if err := c.Stretches[i].validate(start); err != nil {
			return err
		}
	}
	if c.Day == nil {
		return nil
	}
	return c.Day.validate(start.Crop)
}

func (s *Stretch) validate(start setup.Setup) error {
	if !(s.From >= 0 && s.From < s.To && s.To <= MaxWay) {
		return &setup.Error{Field: s.Name, Value: fmt.Sprintf("%g to %g m", s.From, s.To), Want: fmt.Sprintf("a stretch from 0 m or more to a point farther on, at most %d m", MaxWay)}
	}
	if !(s.Edge >= 0 && s.Edge <= s.To-s.From) {
		return &setup.Error{Field: s.Name, Value: fmt.Sprintf("edge %g m", s.Edge), Want: fmt.Sprintf("0 to %g m, its own length", s.To-s.From)}
	}
	for _, v := range s.Values {
		if !Varies(v.Field.Name) {
			return &setup.Error{Field: s.Name, Value: v.Field.Name, Want: "a condition that can change along the way"}
		}
		if err := v.Field.Set(&start, v.To); err != nil {
			return err
		}
	}
	return nil
}

func (d *Day) validate(crop string) error {
	if weather.HabitOf(crop) == nil {
		return &setup.Error{Field: "day", Value: crop, Want: "a crop with moisture data"}
	}
	if !(d.Start >= 0 && d.Start < 24) {
		return &setup.Error{Field: "day start", Value: fmt.Sprintf("%g h", d.Start), Want: "0 to below 24 h"}
	}
	if !(d.Pace >= 1 && d.Pace <= MaxPace) {
		return &setup.Error{Field: "day pace", Value: fmt.Sprintf("%g", d.Pace), Want: fmt.Sprintf("1 to %d seconds of the day per second", MaxPace)}
	}
	if err := d.Day.Validate(); err != nil {
		return &setup.Error{Field: "day", Value: err.Error(), Want: "possible weather"}
	}
	return nil
}

// drives lists the fields that the course changes, in the order of
// setup.Fields.
func (c *Course) drives() (fields []*setup.Field) {
	named := map[string]bool{}
	for i := range c.Stretches {
		for _, v := range c.Stretches[i].Values {
			named[v.Field.Name] = true
		}
	}
	if c.Day != nil {
		named["grain-moisture"], named["straw-moisture"] = true, true
	}
	for i := range setup.Fields {
		if f := &setup.Fields[i]; named[f.Name] {
			fields = append(fields, f)
		}
	}
	return slices.Clip(fields)
}
