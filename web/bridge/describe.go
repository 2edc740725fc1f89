package bridge

import (
	"riddle/render"
	"riddle/sim"
	"riddle/sim/trade/crop"
)

// Description is what the page needs to know once.
type Description struct {
	Model      string            `json:"model"`
	TickHz     int               `json:"tickHz"`
	Speeds     []float64         `json:"speeds"`
	Crops      []string          `json:"crops"`
	Situations []*situation      `json:"situations"`
	Zones      []string          `json:"zones"`
	Themes     []string          `json:"themes"`
	Stories    []string          `json:"stories"` // that can be asked for
	Units      []string          `json:"units"`   // systems of units
	Losses     []lossName        `json:"losses"`  // in the order of the table
	Words      map[string]string `json:"words"`
}

// lossName is a row of the table of losses, and whether charts draw it.
type lossName struct {
	ID    string `json:"id"`
	Drawn bool   `json:"drawn"`
}

// Describe lists what there is to choose from.
func Describe() Description {
	d := Description{
		Model: sim.Model, TickHz: sim.TickHz, Speeds: Speeds, Crops: crop.Names(), Situations: situations(), Themes: render.Themes, Stories: storyNames(),
		Words: Words(),
	}
	for _, u := range unitSystems {
		d.Units = append(d.Units, string(u))
	}
	for _, l := range lossRows {
		d.Losses = append(d.Losses, lossName{l.id, !l.inner && !l.sum})
	}
	for _, z := range render.Zones {
		d.Zones = append(d.Zones, z.Name)
	}
	return d
}
