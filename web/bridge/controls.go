package bridge

import (
	"slices"

	"riddle/render"
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
	Stand     string  `json:"stand"` // the group on the page in which it stands
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
		Zone: zones[f.Name], Stand: stand(f),
	}
	if p := partOf(f.Name, c); p != nil {
		out.Part = p.ID
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
