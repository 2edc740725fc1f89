package bridge

import (
	"math"
	"slices"
	"strconv"

	"riddle/render"
	"riddle/sim/setup"
	"riddle/sim/trade/crop"
	"riddle/sim/trade/quantity"
)

// Control is a setting or condition as the page shows it, in the units that
// are chosen. Its words stand in the catalogue under field.NAME.
type Control struct {
	Name      string   `json:"name"`
	Unit      string   `json:"unit"`
	From      float64  `json:"from"`
	To        float64  `json:"to"`
	Step      float64  `json:"step"`
	Digits    int      `json:"digits"` // after the point
	Most      int      `json:"most"`   // digits of a value that is not on a step
	Parts     int      `json:"parts"`  // of the unit, where it is read as a fraction, else 0
	Value     float64  `json:"value"`
	Held      string   `json:"held"`  // the value as the machine holds it, with its unit
	Start     float64  `json:"start"` // where Reset brings it
	Switch    bool     `json:"switch"`
	Condition bool     `json:"condition"`
	Has       bool     `json:"has"`   // the crop's header has it
	Usual     []Band   `json:"usual"` // where practice starts, or empty
	Part      string   `json:"part"`  // of the machine that it sets, or empty
	Zone      string   `json:"zone"`  // in which its work is best seen
	Stand     string   `json:"stand"` // the group on the page in which it stands
	Couples   []string `json:"couples"`
}

// Band is a range of values.
type Band struct {
	From float64 `json:"from"`
	To   float64 `json:"to"`
}

// zones says in which zone the work of a setting is best seen.
var zones = map[string]string{
	"ground-speed": "whole", "reel-index": "whole", "cutting-height": "whole", "cylinder-speed": "concave", "concave-clearance": "gap",
	"pre-sieve": "upper", "fan-speed": "upper", "upper-sieve": "upper", "lower-sieve": "lower", "chopper": "ground", "unload": "tank",
}

// couples says with which settings one has to be judged together, since both
// work on the same grain (common practice).
var couples = map[string][]string{
	"ground-speed": {"reel-index", "cylinder-speed", "fan-speed"}, "reel-index": {"ground-speed"}, "cutting-height": {"ground-speed"},
	"cylinder-speed": {"concave-clearance"}, "concave-clearance": {"cylinder-speed"}, "pre-sieve": {"upper-sieve", "fan-speed"},
	"fan-speed": {"upper-sieve", "lower-sieve"}, "upper-sieve": {"fan-speed", "lower-sieve"}, "lower-sieve": {"upper-sieve", "fan-speed"},
}

// stand returns the group on the page in which a control stands: under the
// machine, or where its part is.
func stand(f *setup.Field) string {
	switch {
	case f.Condition:
		return "conditions"
	case f.Name == "unload":
		return "tank-settings"
	case f.Name == "chopper":
		return "rear-settings"
	}
	return "settings"
}

// partOf returns the part that a setting sets, or nil.
func partOf(name string, c *crop.Crop) *render.Part {
	for i := range render.Parts {
		if p := &render.Parts[i]; p.On(c) && slices.Contains(p.Sets, name) {
			return p
		}
	}
	return nil
}

// settingOf returns the name of the first setting of the part, or nothing.
func settingOf(p *render.Part) string {
	if p == nil || len(p.Sets) == 0 {
		return ""
	}
	return p.Sets[0]
}

// cropOrder is the order in which the crop meets the settings; the wind of the
// fan meets it ahead of the pre-sieve.
var cropOrder = []string{"reel-index", "cutting-height", "ground-speed", "cylinder-speed", "concave-clearance", "fan-speed", "pre-sieve", "upper-sieve", "lower-sieve"}

// controls lists the settings in crop order, then the conditions.
func controls(s, start *setup.Setup, units quantity.System) []Control {
	list := make([]Control, 0, len(setup.Fields))
	seen := map[string]bool{}
	for _, name := range cropOrder {
		list = append(list, control(setup.Find(name), s, start, units))
		seen[name] = true
	}
	for i := range setup.Fields {
		if f := &setup.Fields[i]; !seen[f.Name] {
			list = append(list, control(f, s, start, units))
		}
	}
	return list
}

func control(f *setup.Field, s, start *setup.Setup, units quantity.System) Control {
	c := crop.Find(s.Crop)
	scale, notches := units.Scale(f.Unit, s.Crop), units.Notches(f.Unit, s.Crop, f.Step)
	out := Control{
		Name: f.Name, Unit: scale.Unit, From: scale.Shown(f.From), To: scale.Shown(f.To),
		Step: notches.Step, Digits: notches.Digits, Most: notches.Digits + 1, Parts: notches.Parts,
		Value: scale.Shown(f.Get(s)), Held: held(f, f.Get(s)), Start: scale.Shown(f.Get(start)), Switch: f.Switch(), Condition: f.Condition, Has: f.On(c),
		Usual: []Band{}, Zone: zones[f.Name], Stand: stand(f), Couples: couples[f.Name],
	}
	if scale.Size != 1 {
		out.Most = out.Digits
		out.From = math.Ceil(out.From/out.Step-1e-9) * out.Step
		out.To = math.Floor(out.To/out.Step+1e-9) * out.Step
	}
	if p := partOf(f.Name, c); p != nil {
		out.Part = p.ID
	}
	if b, ok := f.Usual(c); ok {
		out.Usual = append(out.Usual, Band{scale.Shown(b.From), scale.Shown(b.To)})
	}
	return out
}

// held writes a value of a field with its unit and all its digits.
func held(f *setup.Field, v float64) string {
	text := strconv.FormatFloat(v, 'g', -1, 64)
	if f.Switch() || f.Unit == quantity.Ratio {
		return text
	}
	return text + " " + string(f.Unit)
}
