// Package setup is everything that fixes a run before it starts: the crop, the
// settings of the machine, the conditions of the field, and the seed.
package setup

import (
	"fmt"
	"strings"

	"riddle/sim/trade/crop"
)

// Settings are what the operator can change. Units in the comments.
type Settings struct {
	GroundSpeed   float64 // km/h
	CylinderSpeed float64 // rpm
	Clearance     float64 // of the concave, mean of front and rear, mm
	PreSieve      float64 // gap, mm; 0 is closed
	Fan           float64 // rpm
	Upper         float64 // gap of the upper sieve, mm
	Lower         float64 // gap of the lower sieve, mm
	ReelIndex     float64 // reel bar speed over ground speed; not for corn
	CuttingHeight float64 // cm; not for corn
	Chopper       bool
	Unload        bool
}

// Conditions are what the field and the day give.
type Conditions struct {
	Yield         float64 // t/ha
	MOGRatio      float64 // kg MOG a kg grain at the default cutting height
	GrainMoisture float64 // % wet basis
	StrawMoisture float64 // % wet basis
	GreenWeeds    float64 // % of MOG
	LightGrain    float64 // % of grain
	SideSlope     float64 // degrees
	ForeSlope     float64 // degrees, + uphill
	BarWear       float64 // 0 new to 1 worn out
	HeaderWidth   float64 // m
}

// Parts is a set of parts of the machine that stand still. It is how a fault
// is set for a lesson or a test; an operator has no such switch.
type Parts uint32

// The parts that can stand still.
const (
	HeaderPart Parts = 1 << iota
	FeederPart
	CylinderPart
	ConcavePart // its grate is blocked
	BeaterPart
	WalkerPart
	ConveyorPart
	PreSievePart
	FanPart
	UpperPart // closed
	LowerPart // closed
	ReturnsPart
	ElevatorPart
)

// Has reports whether part p is in the set.
func (s Parts) Has(p Parts) bool { return s&p != 0 }

// Setup is a whole machine in a field.
type Setup struct {
	Crop       string
	Settings   Settings
	Conditions Conditions
	Seed       uint64
	Stopped    Parts
}

// Default returns the setup from which practice starts in the crop.
func Default(name string) (Setup, error) {
	c := crop.Find(name)
	if c == nil {
		return Setup{}, &Error{Field: "crop", Value: name, Want: "one of " + strings.Join(crop.Names(), ", ")}
	}
	s := c.Start
	return Setup{
		Crop: name,
		Settings: Settings{
			GroundSpeed: s.GroundSpeed, CylinderSpeed: s.CylinderSpeed, Clearance: s.Clearance, PreSieve: s.PreSieve,
			Fan: s.Fan, Upper: s.Upper, Lower: s.Lower, ReelIndex: s.ReelIndex, CuttingHeight: s.CuttingHeight, Chopper: true,
		},
		Conditions: Conditions{
			Yield: s.Yield, MOGRatio: s.MOGRatio, GrainMoisture: s.GrainMoisture, StrawMoisture: s.StrawMoisture,
			LightGrain: s.LightGrain, HeaderWidth: s.HeaderWidth,
		},
		Seed: 1,
	}, nil
}

// Validate reports the first field that is out of its legal range.
func (s *Setup) Validate() error {
	c := crop.Find(s.Crop)
	if c == nil {
		return &Error{Field: "crop", Value: s.Crop, Want: "one of " + strings.Join(crop.Names(), ", ")}
	}
	for i := range Fields {
		f := &Fields[i]
		if !f.On(c) {
			continue
		}
		if err := f.check(f.Get(s)); err != nil {
			return err
		}
	}
	return nil
}

// Error is a bad input: what was given for which field, and what is wanted.
type Error struct {
	Field, Value, Want string
}

func (e *Error) Error() string {
	return fmt.Sprintf("%s: %s is not accepted; wanted is %s", e.Field, e.Value, e.Want)
}
