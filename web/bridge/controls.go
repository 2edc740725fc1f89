package bridge

import (
	"riddle/sim/crop"
	"riddle/sim/setup"
)

// Control is a setting or condition as the page shows it.
type Control struct {
	Name      string  `json:"name"`
	Label     string  `json:"label"`
	Purpose   string  `json:"purpose"`
	Unit      string  `json:"unit"`
	From      float64 `json:"from"`
	To        float64 `json:"to"`
	Step      float64 `json:"step"`
	Value     float64 `json:"value"`
	Text      string  `json:"text"` // value and unit
	Switch    bool    `json:"switch"`
	Condition bool    `json:"condition"`
	Has       bool    `json:"has"`   // the crop's header has it
	Usual     []Band  `json:"usual"` // where practice starts, or empty
	Range     string  `json:"range"` // usual and legal range in words
	Part      string  `json:"part"`  // of the machine that it sets, or empty
	Zone      string  `json:"zone"`  // in which its work is best seen
}

// Band is a range of values.
type Band struct {
	From float64 `json:"from"`
	To   float64 `json:"to"`
}

// placed says which part a setting stands under and where its work is seen.
type placed struct{ part, zone string }

var places = map[string]placed{
	"ground-speed":      {"header", "whole"},
	"cylinder-speed":    {"cylinder", "concave"},
	"concave-clearance": {"concave", "gap"},
	"pre-sieve":         {"pre-sieve", "upper"},
	"fan-speed":         {"fan", "upper"},
	"upper-sieve":       {"upper-sieve", "upper"},
	"lower-sieve":       {"lower-sieve", "lower"},
	"reel-index":        {"reel", "whole"},
	"cutting-height":    {"cutter-bar", "whole"},
	"chopper":           {"chopper", "ground"},
	"unload":            {"tank", "tank"},
}

// cropOrder puts the fan before the pre-sieve, as its wind meets the crop
// there; the other settings already stand in the order of the crop.
var cropOrder = []string{"ground-speed", "cylinder-speed", "concave-clearance", "fan-speed", "pre-sieve", "upper-sieve", "lower-sieve"}

// controls lists the seven settings of the flow in crop order, then the other
// settings, then the conditions.
func controls(s *setup.Setup) []Control {
	list := make([]Control, 0, len(setup.Fields))
	seen := map[string]bool{}
	for _, name := range cropOrder {
		list = append(list, control(setup.Find(name), s))
		seen[name] = true
	}
	for i := range setup.Fields {
		if f := &setup.Fields[i]; !seen[f.Name] {
			list = append(list, control(f, s))
		}
	}
	return list
}

func control(f *setup.Field, s *setup.Setup) Control {
	c := crop.Find(s.Crop)
	v := f.Get(s)
	out := Control{
		Name: f.Name, Label: f.Label, Purpose: f.Purpose, Unit: string(f.Unit), From: f.From, To: f.To, Step: f.Step,
		Value: v, Text: f.Format(v), Switch: f.Switch(), Condition: f.Condition, Has: f.On(c), Usual: []Band{},
		Part: places[f.Name].part, Zone: places[f.Name].zone,
	}
	if b, ok := f.Usual(c); ok {
		out.Usual = append(out.Usual, Band(b))
		out.Range = "usual " + trim(b.From) + "–" + trim(b.To)
	} else if !out.Switch {
		out.Range = "from " + trim(f.From) + " to " + trim(f.To)
	}
	if !out.Has {
		out.Range = "the header for " + s.Crop + " has none"
	}
	return out
}
