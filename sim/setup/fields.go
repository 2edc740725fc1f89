package setup

import (
	"fmt"
	"slices"
	"strconv"

	"riddle/sim/trade/crop"
	"riddle/sim/trade/quantity"
)

// Field describes one setting or condition: how it is called, in what unit and
// within what range, and where it stands in a Setup.
type Field struct {
	Name      string // as on the command line
	Key       string // as in JSON, with its unit
	Label     string // in words
	Purpose   string // what it does, in a sentence
	Unit      quantity.Dimension
	From, To  float64 // legal range; of a switch 0 and 1
	Step      float64 // a sensible step of a control
	Condition bool    // a condition, not a setting
	Cut       bool    // only where the header has a cutter bar

	// Where the field belongs, for whoever shows it.
	Meets   int      // its place in the order in which the crop meets the settings, from 1; 0 has none
	Parts   []string // of the machine that it sets, by their names in the picture; the first that is there stands for it
	Zone    string   // of the picture in which its work is best seen
	Couples []string // settings with which it has to be judged together, since both work on the same grain. Common practice, no source
	Moves   Effects  // what it moves besides the losses of the machine

	get func(*Setup) *float64
	sw  func(*Setup) *bool
	use func(*crop.Usual) crop.Band
}

// Effects are readings that a field moves besides the losses of the machine, so
// that a chart of it shows them.
type Effects uint8

const (
	MovesHeader  Effects = 1 << iota // the loss ahead of the machine
	MovesBroken                      // broken grain in the tank
	TradesBroken                     // less of it is more grain left unthreshed, so that their sum has a least value
	MovesForeign                     // foreign matter in the tank
	MovesReturns
)

// Has reports whether all of the effects f are among them.
func (e Effects) Has(f Effects) bool { return e&f == f }

// Fields lists every setting in crop order, then every condition. Their legal
// ranges are by definition of this program.
var Fields = []Field{
	{Name: "ground-speed", Key: "ground_speed_km_h", Label: "Ground speed", Purpose: "How fast crop comes in.",
		Meets: 3, Parts: []string{"header-auger", "wheels"}, Zone: "whole", Couples: []string{"reel-index", "cylinder-speed", "fan-speed"}, Moves: MovesHeader,
		Unit: quantity.Speed, From: 0.5, To: 14, Step: 0.1,
		get: func(s *Setup) *float64 { return &s.Settings.GroundSpeed }, use: func(u *crop.Usual) crop.Band { return u.GroundSpeed }},
	{Name: "cylinder-speed", Key: "cylinder_speed_rpm", Label: "Cylinder speed", Purpose: "How hard the rasp bars strike.",
		Meets: 4, Parts: []string{"cylinder"}, Zone: "concave", Couples: []string{"concave-clearance"}, Moves: MovesBroken | TradesBroken,
		Unit: quantity.Rotation, From: 150, To: 1400, Step: 10,
		get: func(s *Setup) *float64 { return &s.Settings.CylinderSpeed }, use: func(u *crop.Usual) crop.Band { return u.CylinderSpeed }},
	{Name: "concave-clearance", Key: "concave_clearance_mm", Label: "Concave clearance", Purpose: "The gap in which the crop is threshed; mean of front and rear.",
		Meets: 5, Parts: []string{"concave"}, Zone: "gap", Couples: []string{"cylinder-speed"}, Moves: MovesBroken | TradesBroken,
		Unit: quantity.Opening, From: 2, To: 60, Step: 1,
		get: func(s *Setup) *float64 { return &s.Settings.Clearance }, use: func(u *crop.Usual) crop.Band { return u.Clearance }},
	{Name: "pre-sieve", Key: "pre_sieve_mm", Label: "Pre-sieve", Purpose: "Lets grain through ahead of the upper sieve; 0 is closed.",
		Meets: 7, Parts: []string{"pre-sieve"}, Zone: "upper", Couples: []string{"upper-sieve", "fan-speed"}, Moves: MovesForeign,
		Unit: quantity.Opening, From: 0, To: 25, Step: 0.5,
		get: func(s *Setup) *float64 { return &s.Settings.PreSieve }, use: func(u *crop.Usual) crop.Band { return u.PreSieve }},
	{Name: "fan-speed", Key: "fan_speed_rpm", Label: "Fan speed", Purpose: "How hard the air blows up through the sieves to lift the chaff off.",
		Meets: 6, Parts: []string{"fan"}, Zone: "upper", Couples: []string{"upper-sieve", "lower-sieve"}, Moves: MovesForeign, // its wind meets the crop ahead of the pre-sieve
		Unit: quantity.Rotation, From: 200, To: 1800, Step: 10,
		get: func(s *Setup) *float64 { return &s.Settings.Fan }, use: func(u *crop.Usual) crop.Band { return u.Fan }},
	{Name: "upper-sieve", Key: "upper_sieve_mm", Label: "Upper sieve", Purpose: "Open enough for all the grain and the unthreshed pieces.",
		Meets: 8, Parts: []string{"upper-sieve"}, Zone: "upper", Couples: []string{"fan-speed", "lower-sieve"}, Moves: MovesForeign,
		Unit: quantity.Opening, From: 2, To: 24, Step: 0.5,
		get: func(s *Setup) *float64 { return &s.Settings.Upper }, use: func(u *crop.Usual) crop.Band { return u.Upper }},
	{Name: "lower-sieve", Key: "lower_sieve_mm", Label: "Lower sieve", Purpose: "Open no more than the grain needs.",
		Meets: 9, Parts: []string{"lower-sieve"}, Zone: "lower", Couples: []string{"upper-sieve", "fan-speed"}, Moves: MovesForeign | MovesReturns,
		Unit: quantity.Opening, From: 1, To: 19, Step: 0.5,
		get: func(s *Setup) *float64 { return &s.Settings.Lower }, use: func(u *crop.Usual) crop.Band { return u.Lower }},
	{Name: "reel-index", Key: "reel_index", Label: "Reel index", Purpose: "Reel bar speed divided by ground speed.",
		Meets: 1, Parts: []string{"reel"}, Zone: "whole", Couples: []string{"ground-speed"}, Moves: MovesHeader,
		Unit: quantity.Ratio, From: 0.5, To: 2.5, Step: 0.05, Cut: true,
		get: func(s *Setup) *float64 { return &s.Settings.ReelIndex }, use: func(u *crop.Usual) crop.Band { return u.ReelIndex }},
	{Name: "cutting-height", Key: "cutting_height_cm", Label: "Cutting height", Purpose: "How much straw comes in, and which heads are missed.",
		Meets: 2, Parts: []string{"cutter-bar"}, Zone: "whole", Couples: []string{"ground-speed"}, Moves: MovesHeader,
		Unit: quantity.Height, From: 3, To: 100, Step: 1, Cut: true,
		get: func(s *Setup) *float64 { return &s.Settings.CuttingHeight }, use: func(u *crop.Usual) crop.Band { return u.CuttingHeight }},
	{Name: "chopper", Key: "chopper", Label: "Straw chopper", Purpose: "On: the straw is chopped and spread. Off: it drops in a windrow.",
		Parts: []string{"chopper"}, Zone: "ground",
		Unit: quantity.OnOff, To: 1, Step: 1, sw: func(s *Setup) *bool { return &s.Settings.Chopper }},
	{Name: "unload", Key: "unload", Label: "Unloading", Purpose: "Unloads the tank into the truck.",
		Parts: []string{"unloading-augers"}, Zone: "tank",
		Unit: quantity.OnOff, To: 1, Step: 1, sw: func(s *Setup) *bool { return &s.Settings.Unload }},

	{Name: "yield", Key: "yield_t_ha", Label: "Yield", Purpose: "Grain standing in the field.", Condition: true,
		Unit: quantity.Yield, From: 0.3, To: 25, Step: 0.1, get: func(s *Setup) *float64 { return &s.Conditions.Yield }},
	{Name: "mog-ratio", Key: "mog_ratio", Label: "MOG ratio", Purpose: "Material other than grain (MOG: straw, chaff, weeds) per kilogram of grain, at the usual cutting height.", Condition: true,
		Unit: quantity.Ratio, From: 0.05, To: 4, Step: 0.05, get: func(s *Setup) *float64 { return &s.Conditions.MOGRatio }},
	{Name: "grain-moisture", Key: "grain_moisture_pct", Label: "Grain moisture", Purpose: "Wet basis. Wet heads and pods hold their grain; dry kernels break.", Condition: true,
		Moves: MovesHeader | MovesBroken,
		Unit:  quantity.Share, From: 4, To: 40, Step: 0.5, get: func(s *Setup) *float64 { return &s.Conditions.GrainMoisture }},
	{Name: "straw-moisture", Key: "straw_moisture_pct", Label: "Straw moisture", Purpose: "Wet basis. Tough straw mats and holds grain.", Condition: true,
		Unit: quantity.Share, From: 4, To: 80, Step: 1, get: func(s *Setup) *float64 { return &s.Conditions.StrawMoisture }},
	{Name: "green-weeds", Key: "green_weeds_pct", Label: "Green weeds", Purpose: "Share of the MOG (material other than grain).", Condition: true,
		Moves: MovesForeign,
		Unit:  quantity.Share, From: 0, To: 50, Step: 1, get: func(s *Setup) *float64 { return &s.Conditions.GreenWeeds }},
	{Name: "light-grain", Key: "light_grain_pct", Label: "Light grain", Purpose: "Shrunken kernels, share of the grain.", Condition: true,
		Moves: MovesForeign,
		Unit:  quantity.Share, From: 0, To: 50, Step: 0.5, get: func(s *Setup) *float64 { return &s.Conditions.LightGrain }},
	{Name: "side-slope", Key: "side_slope_deg", Label: "Side slope", Purpose: "The load slides to the low side.", Condition: true,
		Unit: quantity.Slope, From: -15, To: 15, Step: 1, get: func(s *Setup) *float64 { return &s.Conditions.SideSlope }},
	{Name: "fore-slope", Key: "fore_slope_deg", Label: "Fore slope", Purpose: "Above 0 is uphill: the load moves rearward faster and more is blown out, so less air is usually better. Below 0 is downhill: the load lies deeper and trash gets through, so more air is usually better. The fan speed curve shows it.", Condition: true,
		Unit: quantity.Slope, From: -15, To: 15, Step: 1, get: func(s *Setup) *float64 { return &s.Conditions.ForeSlope }},
	{Name: "bar-wear", Key: "bar_wear", Label: "Bar wear", Purpose: "From 0, new, to 1, worn out.", Condition: true,
		Moves: MovesBroken,
		Unit:  quantity.Ratio, From: 0, To: 1, Step: 0.05, get: func(s *Setup) *float64 { return &s.Conditions.BarWear }},
	{Name: "header-width", Key: "header_width_m", Label: "Header width", Purpose: "Width of cut.", Condition: true,
		Unit: quantity.Width, From: 1, To: 15, Step: 0.1, get: func(s *Setup) *float64 { return &s.Conditions.HeaderWidth }},
}

// InCropOrder lists the settings in the order in which the crop meets them, then
// all else in the order of Fields.
func InCropOrder() []*Field {
	list := make([]*Field, len(Fields))
	for i := range Fields {
		list[i] = &Fields[i]
	}
	place := func(f *Field) int {
		if f.Meets == 0 {
			return len(Fields)
		}
		return f.Meets
	}
	slices.SortStableFunc(list, func(a, b *Field) int { return place(a) - place(b) })
	return list
}

// SetsPart returns the first field that sets a part of the machine, or nil.
func SetsPart(part string) *Field {
	for i := range Fields {
		if slices.Contains(Fields[i].Parts, part) {
			return &Fields[i]
		}
	}
	return nil
}

// Find returns the field of the given command-line name, or nil.
func Find(name string) *Field {
	for i := range Fields {
		if Fields[i].Name == name {
			return &Fields[i]
		}
	}
	return nil
}

// On reports whether the header of the crop has what the field sets.
func (f *Field) On(c *crop.Crop) bool { return !f.Cut || !c.Header.Snaps }

// Switch reports whether the field is on or off.
func (f *Field) Switch() bool { return f.sw != nil }

// Usual returns the range in which practice starts the setting in the crop; ok
// is false where none is held.
func (f *Field) Usual(c *crop.Crop) (b crop.Band, ok bool) {
	if f.use == nil || !f.On(c) {
		return crop.Band{}, false
	}
	return f.use(&c.Usual), true
}

// Get returns the field's value in a setup; of a switch 1 for on and 0 for off.
func (f *Field) Get(s *Setup) float64 {
	if f.sw == nil {
		return *f.get(s)
	}
	if *f.sw(s) {
		return 1
	}
	return 0
}

// Set puts a value into a setup, or reports why it cannot; then the setup is
// as it was.
func (f *Field) Set(s *Setup, v float64) error {
	if c := crop.Find(s.Crop); c != nil && !f.On(c) {
		return &Error{Field: f.Name, Value: f.Format(v), Want: "left out: the header for " + s.Crop + " has no such setting"}
	}
	if err := f.check(v); err != nil {
		return err
	}
	if f.sw != nil {
		*f.sw(s) = v != 0
	} else {
		*f.get(s) = v
	}
	return nil
}

// Read parses a value with or without a unit and puts it into a setup.
func (f *Field) Read(s *Setup, text string) error {
	v, err := quantity.Parse(text, f.Unit, s.Crop)
	if err != nil {
		return &Error{Field: f.Name, Value: fmt.Sprintf("%q", text), Want: f.Want()}
	}
	if err := f.Set(s, v); err != nil {
		e := err.(*Error)
		return &Error{Field: e.Field, Value: text, Want: e.Want}
	}
	return nil
}

// Format prints a value of the field with its unit.
func (f *Field) Format(v float64) string {
	if f.Switch() {
		if v != 0 {
			return "on"
		}
		return "off"
	}
	s := strconv.FormatFloat(v, 'g', 6, 64)
	if f.Unit == quantity.Ratio {
		return s
	}
	return s + " " + string(f.Unit)
}

func (f *Field) check(v float64) error {
	if v >= f.From && v <= f.To { // false for a value that is no number
		return nil
	}
	return &Error{Field: f.Name, Value: f.Format(v), Want: f.Want()}
}

// Want says in words what the field accepts.
func (f *Field) Want() string {
	if f.Switch() {
		return "on or off"
	}
	unit := string(f.Unit)
	if f.Unit == quantity.Ratio {
		unit = "without a unit"
	}
	return fmt.Sprintf("%g to %g %s", f.From, f.To, unit)
}
