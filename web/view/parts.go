package view

import (
	"math"

	"riddle/render"
	"riddle/sim/setup"
	"riddle/sim/trade/crop"
)

// PartChoice is a part of the machine to point out.
type PartChoice struct {
	ID      string `json:"id"`
	Zone    string `json:"zone"` // the closest in which it is seen
	Setting string `json:"setting"`
}

// Parts lists the parts of the machine in the order of the crop.
func Parts(c *crop.Crop) []PartChoice {
	var list []PartChoice
	for i := range render.Parts {
		if p := &render.Parts[i]; p.On(c) {
			list = append(list, PartChoice{p.ID, zoneOf(p), SettingOf(p)})
		}
	}
	return list
}

// SettingOf names the first setting of a part, or nothing.
func SettingOf(p *render.Part) string {
	if f := setup.SetsPart(p.ID); f != nil {
		return f.Name
	}
	return ""
}

// zoneOf returns the zone that shows the greatest share of a part closest, if
// it shows more than half of it.
func zoneOf(p *render.Part) string {
	best, least := "whole", math.Inf(1)
	for _, z := range render.Zones[1:] {
		r, a := z.Rect, p.Area
		w, h := min(r.X1, a.X1)-max(r.X0, a.X0), min(r.Y1, a.Y1)-max(r.Y0, a.Y0)
		if w <= 0 || h <= 0 || w*h < 0.6*(a.X1-a.X0)*(a.Y1-a.Y0) {
			continue
		}
		if size := (r.X1 - r.X0) * (r.Y1 - r.Y0); size < least {
			best, least = z.Name, size
		}
	}
	return best
}
