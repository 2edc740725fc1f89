package scenarios

import (
	"fmt"
	"regexp"
	"strings"

	"riddle/scenarios/strict"
	"riddle/sim/run/trial"
	"riddle/sim/trade/crop"
)

// reader reads a parsed file into a Scenario and keeps the first thing that is
// wrong.
type reader struct{ strict.Reader }

var nameForm = regexp.MustCompile(`^[a-z][a-z0-9]*(-[a-z0-9]+)*$`)

func (r *reader) scenario(tree any) *Scenario {
	o := r.Object(tree, "$", "schema", "name", "title", "farm", "field", "weather", "crop", "settings", "conditions", "seed", "shows", "run", "expect", "goals?", "notes?", "along?", "round_m?", "day?")
	if form := o.Text("schema", 40); r.Err == nil && form != Form {
		r.Fail("$.schema", "is %q; wanted is %q", form, Form)
	}
	s := &Scenario{
		Name: o.Text("name", 40), Title: o.Text("title", 80), Farm: o.Text("farm", 60), Field: o.Text("field", 60),
		Crop: o.Text("crop", 40), Seed: o.Count("seed"), Shows: o.Text("shows", 300),
	}
	if r.Err == nil && !nameForm.MatchString(s.Name) {
		r.Fail("$.name", "is %q; wanted are lower case words joined by hyphens", s.Name)
	}
	if r.Err == nil && crop.Find(s.Crop) == nil {
		r.Fail("$.crop", "is %q; wanted is one of %s", s.Crop, strings.Join(crop.Names(), ", "))
	}
	s.Weather, s.Run = r.weather(o), r.run(o)
	s.Settings, s.Conditions = o.Fields(s.Crop, false), o.Fields(s.Crop, true)
	s.FieldAndDay = ReadFieldAndDay(&r.Reader, o, s.Crop)
	s.Expect, s.Goals = r.readings(o, "expect", s.Crop), r.readings(o, "goals", s.Crop)
	for i, v := range o.List("notes", 20) {
		s.Notes = append(s.Notes, r.Text(v, fmt.Sprintf("$.notes[%d]", i), 400))
	}
	return s
}

func (r *reader) weather(o strict.Object) Weather {
	w := r.Object(o.M["weather"], "$.weather", "words", "temperature_c", "humidity_pct")
	return Weather{Words: w.Text("words", 120), Temperature: w.Number("temperature_c", -20, 50), Humidity: w.Number("humidity_pct", 0, 100)}
}

func (r *reader) run(o strict.Object) Run {
	w := r.Object(o.M["run"], "$.run", "warmup_s", "seconds")
	run := Run{Warmup: w.Number("warmup_s", 0, trial.MaxWarmup), Seconds: w.Number("seconds", 0, trial.MaxSeconds)}
	if r.Err == nil && run.Seconds == 0 {
		r.Fail("$.run.seconds", "is 0; wanted is more")
	}
	return run
}
