package scenarios

import (
	"encoding/json"
	"fmt"
	"maps"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"riddle/sim/crop"
	"riddle/sim/setup"
	"riddle/sim/trial"
)

// reader reads a parsed file into a Scenario and keeps the first thing that is
// wrong.
type reader struct {
	file string
	err  error
}

func (r *reader) fail(path, format string, args ...any) {
	if r.err == nil {
		r.err = &Error{File: r.file, Path: path, Reason: fmt.Sprintf(format, args...)}
	}
}

var nameForm = regexp.MustCompile(`^[a-z][a-z0-9]*(-[a-z0-9]+)*$`)

func (r *reader) scenario(tree any) *Scenario {
	o := r.object(tree, "$", "schema", "name", "title", "farm", "field", "weather", "crop", "settings", "conditions", "seed", "shows", "run", "expect", "goals?", "notes?")
	if form := o.text("schema", 40); r.err == nil && form != Form {
		r.fail("$.schema", "is %q; wanted is %q", form, Form)
	}
	s := &Scenario{
		Name: o.text("name", 40), Title: o.text("title", 80), Farm: o.text("farm", 60), Field: o.text("field", 60),
		Crop: o.text("crop", 40), Seed: o.count("seed"), Shows: o.text("shows", 300),
	}
	if r.err == nil && !nameForm.MatchString(s.Name) {
		r.fail("$.name", "is %q; wanted are lower case words joined by hyphens", s.Name)
	}
	if r.err == nil && crop.Find(s.Crop) == nil {
		r.fail("$.crop", "is %q; wanted is one of %s", s.Crop, strings.Join(crop.Names(), ", "))
	}
	s.Weather, s.Run = r.weather(o), r.run(o)
	s.Settings, s.Conditions = r.fields(o, s.Crop, false), r.fields(o, s.Crop, true)
	s.Expect, s.Goals = r.readings(o, "expect", s.Crop), r.readings(o, "goals", s.Crop)
	for i, v := range o.list("notes", 20) {
		s.Notes = append(s.Notes, r.text(v, fmt.Sprintf("$.notes[%d]", i), 400))
	}
	return s
}

func (r *reader) weather(o object) Weather {
	w := r.object(o.m["weather"], "$.weather", "words", "temperature_c", "humidity_pct")
	return Weather{Words: w.text("words", 120), Temperature: w.number("temperature_c", -20, 50), Humidity: w.number("humidity_pct", 0, 100)}
}

func (r *reader) run(o object) Run {
	w := r.object(o.m["run"], "$.run", "warmup_s", "seconds")
	run := Run{Warmup: w.number("warmup_s", 0, trial.MaxWarmup), Seconds: w.number("seconds", 0, trial.MaxSeconds)}
	if r.err == nil && run.Seconds == 0 {
		r.fail("$.run.seconds", "is 0; wanted is more")
	}
	return run
}

// fields reads settings or conditions and tries each on a machine.
func (r *reader) fields(o object, cropName string, conditions bool) map[string]float64 {
	key, known := "settings", []string{}
	if conditions {
		key = "conditions"
	}
	for i := range setup.Fields {
		if f := &setup.Fields[i]; f.Condition == conditions {
			known = append(known, f.Key+"?")
		}
	}
	w := r.object(o.m[key], "$."+key, known...)
	if r.err != nil {
		return nil
	}
	m, values := setup.Setup{Crop: cropName}, map[string]float64{}
	for i := range setup.Fields {
		f := &setup.Fields[i]
		if _, given := w.m[f.Key]; !given {
			continue
		}
		v := w.field(f)
		if err := f.Set(&m, v); err != nil && r.err == nil {
			e := err.(*setup.Error)
			r.fail(w.path+"."+f.Key, "is %s; wanted is %s", e.Value, e.Want)
		}
		values[f.Key] = v
	}
	return values
}

// object is a JSON object at a path.
type object struct {
	r    *reader
	path string
	m    map[string]any
}

// object reads an object that has exactly these keys; one with a question mark
// may be missing.
func (r *reader) object(v any, path string, keys ...string) object {
	m, ok := v.(map[string]any)
	if !ok {
		r.fail(path, "is %s; wanted is an object", kind(v))
		return object{r: r, path: path, m: map[string]any{}}
	}
	for _, given := range slices.Sorted(maps.Keys(m)) {
		if !slices.Contains(keys, given) && !slices.Contains(keys, given+"?") {
			r.fail(path+"."+cut(given), "is unknown; known are %s", strings.ReplaceAll(strings.Join(keys, ", "), "?", ""))
		}
	}
	for _, k := range keys {
		if _, ok := m[k]; !ok && !strings.HasSuffix(k, "?") {
			r.fail(path+"."+k, "is missing")
		}
	}
	return object{r, path, m}
}

func (o object) text(key string, most int) string { return o.r.text(o.m[key], o.path+"."+key, most) }

func (r *reader) text(v any, path string, most int) string {
	s, ok := v.(string)
	switch n := len([]rune(s)); {
	case !ok:
		r.fail(path, "is %s; wanted is a text", kind(v))
	case n == 0 || n > most:
		r.fail(path, "has %d characters; wanted are 1 to %d", n, most)
	}
	return s
}

func (o object) number(key string, from, to float64) float64 {
	n, ok := o.m[key].(json.Number)
	if !ok {
		o.r.fail(o.path+"."+key, "is %s; wanted is a number of %g to %g", kind(o.m[key]), from, to)
		return 0
	}
	v, err := n.Float64()
	if err != nil || !(v >= from && v <= to) {
		o.r.fail(o.path+"."+key, "is %s; wanted is a number of %g to %g", cut(n.String()), from, to)
	}
	return v
}

func (o object) count(key string) uint64 {
	n, ok := o.m[key].(json.Number)
	v, err := strconv.ParseUint(n.String(), 10, 64)
	if !ok || err != nil {
		o.r.fail(o.path+"."+key, "is %s; wanted is a whole number of 0 or more", kind(o.m[key]))
	}
	return v
}

// field reads the value of a setting or condition; a switch is true or false.
func (o object) field(f *setup.Field) float64 {
	if !f.Switch() {
		return o.number(f.Key, f.From, f.To)
	}
	on, ok := o.m[f.Key].(bool)
	if !ok {
		o.r.fail(o.path+"."+f.Key, "is %s; wanted is true or false", kind(o.m[f.Key]))
	}
	if on {
		return 1
	}
	return 0
}

// list returns a list, which may be missing, of at most so many items.
func (o object) list(key string, most int) []any {
	v, given := o.m[key]
	if !given {
		return nil
	}
	l, ok := v.([]any)
	if !ok || len(l) > most {
		o.r.fail(o.path+"."+key, "is %s; wanted is a list of at most %d", kind(v), most)
		return nil
	}
	return l
}

// kind names what stands there, for a message.
func kind(v any) string {
	switch v := v.(type) {
	case nil:
		return "nothing"
	case map[string]any:
		return "an object"
	case []any:
		return fmt.Sprintf("a list of %d", len(v))
	case string:
		return fmt.Sprintf("the text %q", cut(v))
	case json.Number:
		return "the number " + cut(v.String())
	case bool:
		return fmt.Sprint(v)
	}
	return "something else"
}
