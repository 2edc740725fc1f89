package share

import (
	"encoding/json"
	"errors"
	"regexp"

	"riddle/scenarios/strict"
	"riddle/sim/setup"
)

// FileForm names the form of a file and its version.
const FileForm = "riddle.setup/1"

// content is a file as it is written: settings and conditions by their keys in
// a report, in the unit that the key names.
type content struct {
	Schema     string         `json:"schema"`
	Model      string         `json:"model,omitempty"`
	Crop       string         `json:"crop"`
	Situation  string         `json:"situation,omitempty"`
	Seed       uint64         `json:"seed"`
	Settings   map[string]any `json:"settings"`
	Conditions map[string]any `json:"conditions"`
	Second     *settings      `json:"second,omitempty"`
}

type settings struct {
	Settings map[string]any `json:"settings"`
}

// File returns what is kept as the text of a file.
func (k *Kept) File() []byte {
	c := content{
		Schema: FileForm, Model: k.Model, Crop: k.Setup.Crop, Situation: k.Situation, Seed: k.Setup.Seed,
		Settings: byKey(&k.Setup, false), Conditions: byKey(&k.Setup, true),
	}
	if k.Second != nil {
		s := k.second()
		c.Second = &settings{byKey(&s, false)}
	}
	text, err := json.MarshalIndent(c, "", "  ")
	if err != nil {
		panic(err) // every value is finite
	}
	return append(text, '\n')
}

func byKey(s *setup.Setup, conditions bool) map[string]any {
	m := map[string]any{}
	for _, f := range fieldsOf(s.Crop, false) {
		switch {
		case f.Condition != conditions:
		case f.Switch():
			m[f.Key] = f.Get(s) != 0
		default:
			m[f.Key] = f.Get(s)
		}
	}
	return m
}

var formName = regexp.MustCompile(`^riddle\.setup/[0-9]{1,6}$`)

// ReadFile reads the text of a file.
func ReadFile(text []byte) (Kept, error) {
	k, err := readFile(text)
	var bad *strict.Error
	if errors.As(err, &bad) {
		err = fileError(bad, text)
	}
	if err != nil {
		return Kept{}, err
	}
	return k, nil
}

// fileError says what the strict reader found in the words of this package.
func fileError(bad *strict.Error, text []byte) error {
	if len(text) > strict.MaxBytes {
		return &Error{Code: Long, Want: "64 kB"}
	}
	at := bad.Path
	if at == "" || at == "$" {
		at = "its beginning"
	}
	return &Error{Code: Broken, Field: cut(at), Value: oneLine(bad.Reason)}
}

// oneLine keeps a reason of the reader, whose parts it has shortened, on a line.
func oneLine(s string) string {
	if len(s) > 160 {
		return cut(s)
	}
	return s
}

func readFile(text []byte) (k Kept, err error) {
	top, err := strict.Parse("file", text)
	if err != nil {
		return k, err
	}
	if m, ok := top.(map[string]any); !ok || m["schema"] == nil {
		return k, &Error{Code: Foreign, Field: "schema"}
	} else if form, _ := m["schema"].(string); form != FileForm {
		if formName.MatchString(form) {
			return k, &Error{Code: Newer, Field: "schema", Value: cut(form), Want: FileForm}
		}
		return k, &Error{Code: Foreign, Field: "schema " + FileForm}
	}
	return fromTree(top)
}

// fromTree reads the tree of a file of this form.
func fromTree(top any) (k Kept, err error) {
	r := &strict.Reader{File: "file"}
	o := r.Object(top, "$", "schema", "model?", "crop", "situation?", "seed", "settings", "conditions", "second?")
	optional := func(key string) string {
		if _, given := o.M[key]; given {
			return o.Text(key, 60)
		}
		return ""
	}
	k.Model, k.Situation = optional("model"), optional("situation")
	name, seed := o.Text("crop", 40), o.Count("seed")
	if r.Err != nil {
		return k, r.Err
	}
	if !modelForm.MatchString(k.Model) {
		return k, &Error{Code: Value, Field: "model", Value: cut(k.Model), Want: "the name of a model with its version"}
	}
	if k.Setup, err = base(name, k.Situation); err != nil {
		return k, err
	}
	k.Setup.Seed = seed
	assign(r, &k.Setup, o.Fields(name, false))
	assign(r, &k.Setup, o.Fields(name, true))
	if v, given := o.M["second"]; given {
		to := k.Setup
		assign(r, &to, r.Object(v, "$.second", "settings").Fields(name, false))
		k.Second = &to.Settings
	}
	return k, r.Err
}

// assign puts values that the reader has tried into a setup.
func assign(r *strict.Reader, s *setup.Setup, values map[string]float64) {
	for i := range setup.Fields {
		f := &setup.Fields[i]
		v, given := values[f.Key]
		if r.Err != nil || !given {
			continue
		}
		if err := f.Set(s, v); err != nil {
			panic(err) // tried already
		}
	}
}
