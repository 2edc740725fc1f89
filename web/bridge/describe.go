package bridge

import (
	"riddle/render"
	"riddle/sim"
	"riddle/sim/crop"
)

// Description is what the page needs to know once.
type Description struct {
	Model      string       `json:"model"`
	TickHz     int          `json:"tickHz"`
	Speeds     []Choice     `json:"speeds"`
	Crops      []Choice     `json:"crops"`
	Situations []*situation `json:"situations"`
	Zones      []Choice     `json:"zones"`
	Themes     []Choice     `json:"themes"`
}

// Choice is one entry of a list to choose from.
type Choice struct {
	Value string `json:"value"`
	Label string `json:"label"`
}

// themeLabels names the themes of the picture in words.
var themeLabels = map[string]string{"paper": "Paper", "night": "Night", "projector": "Projector"}

// Describe lists what there is to choose from.
func Describe() Description {
	d := Description{Model: sim.Model, TickHz: sim.TickHz, Situations: situations()}
	for _, v := range Speeds {
		d.Speeds = append(d.Speeds, Choice{trim(v), "×" + trim(v)})
	}
	for _, name := range crop.Names() {
		d.Crops = append(d.Crops, Choice{name, title(name)})
	}
	for _, z := range render.Zones {
		d.Zones = append(d.Zones, Choice{z.Name, z.Title})
	}
	for _, name := range render.Themes {
		d.Themes = append(d.Themes, Choice{name, themeLabels[name]})
	}
	return d
}
