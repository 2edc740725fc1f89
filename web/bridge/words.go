package bridge

import (
	"strconv"
	"strings"

	"riddle/render"
	"riddle/scenarios"
	"riddle/sim"
	"riddle/sim/read/story"
	"riddle/sim/setup"
	"riddle/sim/stage/flow"
	"riddle/sim/trade/crop"
)

// Words are the English words that the model itself gives to what it knows, by
// their keys in the page's catalogue. They are the source of those words; the
// catalogues of other languages translate them.
func Words() map[string]string {
	w := story.Words()
	for i := range setup.Fields {
		f := &setup.Fields[i]
		w["field."+f.Name], w["field."+f.Name+".does"] = f.Label, f.Purpose
	}
	for i := range render.Parts {
		p := &render.Parts[i]
		w["part."+p.ID], w["part."+p.ID+".does"] = p.Name, p.Purpose
	}
	for _, name := range crop.Names() {
		w["crop."+name] = title(name)
		gradeWords(w, name)
	}
	for _, z := range render.Zones {
		w["zone."+z.Name] = z.Title
	}
	for k := flow.Kind(0); k < flow.Kinds; k++ {
		w["kind."+kindID(k)] = title(k.String())
	}
	for _, p := range sim.Plugs {
		w["plug."+slug(p.Where)], w["plug."+slug(p.Where)+".why"] = p.Where, p.Why
	}
	for _, s := range scenarios.All() {
		k := "situation." + s.Name
		w[k], w[k+".shows"], w[k+".weather"] = s.Title, s.Shows, title(s.Weather.Words)
		for i := range s.Along {
			w[k+".along."+strconv.Itoa(i)] = s.Along[i].Name
		}
	}
	return w
}

var kindIDs = [flow.Kinds]string{"sound", "light", "broken", "piece", "chaff", "short", "straw", "weed"}

func kindID(k flow.Kind) string { return kindIDs[k] }

// slug makes a key of words.
func slug(s string) string { return strings.ReplaceAll(s, " ", "-") }

// trim prints a value with no more digits than it needs.
func trim(v float64) string { return strconv.FormatFloat(v, 'g', 6, 64) }

// title gives a name its capital.
func title(s string) string {
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}
