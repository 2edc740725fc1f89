package strict

import "riddle/sim/setup"

// Fields reads the settings or the conditions of an object and tries each on a
// machine in the crop. They are kept by their keys; switches are 1 and 0.
func (o Object) Fields(cropName string, conditions bool) map[string]float64 {
	r := o.r
	key, known := "settings", []string{}
	if conditions {
		key = "conditions"
	}
	for i := range setup.Fields {
		if f := &setup.Fields[i]; f.Condition == conditions {
			known = append(known, f.Key+"?")
		}
	}
	w := r.Object(o.M[key], o.Path+"."+key, known...)
	if r.Err != nil {
		return nil
	}
	m, values := setup.Setup{Crop: cropName}, map[string]float64{}
	for i := range setup.Fields {
		f := &setup.Fields[i]
		if _, given := w.M[f.Key]; !given {
			continue
		}
		v := w.Field(f)
		if err := f.Set(&m, v); err != nil && r.Err == nil {
			e := err.(*setup.Error)
			r.Fail(w.Path+"."+f.Key, "is %s; it must be %s", e.Value, e.Want)
		}
		values[f.Key] = v
	}
	return values
}
