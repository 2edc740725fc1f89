package bridge

import (
	"strconv"
	"strings"

	"riddle/render"
	"riddle/sim"
	"riddle/sim/run/trial"
	"riddle/sim/trade/crop"
	"riddle/web/follow"
	"riddle/web/reading"
	"riddle/web/runner"
	"riddle/web/speak"
)

// Description is what the page needs to know once.
type Description struct {
	Model      string            `json:"model"`
	TickHz     int               `json:"tickHz"`
	Speeds     []speak.Q         `json:"speeds"`
	Crops      []string          `json:"crops"`
	Situations []*runner.Scene   `json:"situations"`
	Zones      []string          `json:"zones"`
	Themes     []string          `json:"themes"`
	Stories    []string          `json:"stories"` // that can be asked for
	Units      []string          `json:"units"`   // systems of units
	Losses     []lossName        `json:"losses"`  // in the order of the table
	Recall     int               `json:"recall"`  // s that the chart reaches back
	Words      map[string]string `json:"words"`
}

// lossName is a row of the table of losses, and whether charts draw it.
type lossName struct {
	ID    string `json:"id"`
	Drawn bool   `json:"drawn"`
	All   bool   `json:"all"` // the sum of all others
}

// Describe lists what there is to choose from.
func Describe() Description {
	d := Description{
		Model: sim.Model, TickHz: sim.TickHz, Crops: crop.Names(), Situations: runner.Scenes(), Themes: render.Themes, Stories: follow.Names(),
		Words: speak.Words(), Recall: trial.Recall,
	}
	for _, v := range runner.Speeds {
		_, after, _ := strings.Cut(strconv.FormatFloat(v, 'f', -1, 64), ".")
		d.Speeds = append(d.Speeds, speak.Plain(v, len(after)))
	}
	for _, u := range systems {
		d.Units = append(d.Units, string(u))
	}
	for i, l := range reading.Rows {
		d.Losses = append(d.Losses, lossName{l.ID, !l.Inner && !l.Sum, i == reading.RowCount-1})
	}
	for _, z := range render.Zones {
		d.Zones = append(d.Zones, z.Name)
	}
	return d
}
