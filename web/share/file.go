package share

import (
	"encoding/json"
	"errors"
	"regexp"

	"riddle/scenarios/strict"
	"riddle/sim/read/readout"
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
	Price      float64        `json:"price_per_bu,omitempty"`
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
		Schema: FileForm, Model: k.Model, Crop: k.Setup.Crop, Situation: k.Situation, Seed: k.Setup.Seed, Price: k.Price,
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
	return placed(bad, text)
}

// oneLine keeps a reason of the reader, whose parts it has shortened, on a line.
func oneLine(s string) string {
	if len(s) > 160 {
		return cut(s)
	}
	return s
}

func readFile(text []byte) (k Kept, err error) {
	if err := noSetup(text); err != nil {
		return k, err
	}
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
	o := r.Object(top, "$", "schema", "model?", "crop", "situation?", "seed", "price_per_bu?", "settings", "conditions", "second?")
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
	if k.Price = priceIn(r, o); r.Err != nil {
		return k, r.Err
	}
	if err := lacking(o, name); err != nil {
		return k, err
	}
	assign(r, &k.Setup, o.Fields(name, false))
	assign(r, &k.Setup, o.Fields(name, true))
	if v, given := o.M["second"]; given {
		if m, ok := v.(map[string]any); ok {
			if err := lacking(strict.Object{M: m}, name); err != nil {
				return k, err
			}
		}
		to := k.Setup
		assign(r, &to, r.Object(v, "$.second", "settings").Fields(name, false))
		k.Second = &to.Settings
	}
	return k, r.Err
}

// priceIn reads the price of a bushel, which may be missing.
func priceIn(r *strict.Reader, o strict.Object) float64 {
	if _, given := o.M["price_per_bu"]; !given {
		return 0
	}
	v := o.Number("price_per_bu", 0, readout.MaxPrice)
	if r.Err == nil && v == 0 {
		r.Fail(o.Path+".price_per_bu", "is 0; it must be %s", readout.PriceWant)
	}
	return v
}

// lacking says which of the settings in an object the crop's header has not.
func lacking(o strict.Object, cropName string) error {
	m, _ := o.M["settings"].(map[string]any)
	for i := range setup.Fields {
		f := &setup.Fields[i]
		if v := m[f.Key]; v != nil {
			if err := none(f, cropName); err != nil {
				return err
			}
		}
	}
	return nil
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
