package scenarios

import (
	"fmt"

	"riddle/scenarios/strict"
	"riddle/sim/course"
	"riddle/sim/setup"
	"riddle/sim/weather"
)

// Stretch is a part of the way in which conditions are others.
type Stretch struct {
	Name       string             `json:"name"`
	From       float64            `json:"from_m"` // driven by the cutter bar
	To         float64            `json:"to_m"`
	Edge       float64            `json:"edge_m,omitempty"` // over which each end goes over, 0 sharp
	Conditions map[string]float64 `json:"conditions"`
}

// Day is the weather that goes by while the machine works. Grain and straw
// start from the situation's conditions.
type Day struct {
	Start    float64 `json:"start_h"`
	Pace     float64 `json:"pace"` // seconds of the day a second of the machine
	Low      float64 `json:"low_c"`
	High     float64 `json:"high_c"`
	Humidity float64 `json:"humidity_pct"` // at the warmest hour
	Clear    float64 `json:"clear"`        // sky at night, 0 to 1
	Sunrise  float64 `json:"sunrise_h"`
	Sunset   float64 `json:"sunset_h"`
	Hours    []Hour  `json:"hours,omitempty"` // the air as given, instead
}

// Hour is the air at an hour of the day.
type Hour struct {
	At          float64 `json:"at_h"`
	Temperature float64 `json:"temperature_c"`
	Humidity    float64 `json:"humidity_pct"`
}

// Course returns the field and the day of the situation, or nil where nothing
// changes on the way.
func (s *Scenario) Course() *course.Course {
	if len(s.Along) == 0 && s.Day == nil {
		return nil
	}
	c := &course.Course{Round: s.Round}
	for _, a := range s.Along {
		stretch := course.Stretch{Name: a.Name, From: a.From, To: a.To, Edge: a.Edge}
		for i := range setup.Fields {
			if v, ok := a.Conditions[setup.Fields[i].Key]; ok {
				stretch.Values = append(stretch.Values, course.Value{Field: &setup.Fields[i], To: v})
			}
		}
		c.Stretches = append(c.Stretches, stretch)
	}
	if d := s.Day; d != nil {
		c.Day = &course.Day{Start: d.Start, Pace: d.Pace, Day: weather.Day{
			Low: d.Low, High: d.High, Humidity: d.Humidity, Clear: d.Clear, Sunrise: d.Sunrise, Sunset: d.Sunset,
		}}
		for _, h := range d.Hours {
			c.Day.Hours = append(c.Day.Hours, weather.Hour{At: h.At, T: h.Temperature, Humidity: h.Humidity})
		}
	}
	return c
}

// along reads the stretches of the way.
func (r *reader) along(o strict.Object, cropName string) (list []Stretch) {
	for i, v := range o.List("along", course.MaxStretches) {
		w := r.Object(v, fmt.Sprintf("$.along[%d]", i), "name", "from_m", "to_m", "edge_m?", "conditions")
		s := Stretch{Name: w.Text("name", 40), From: w.Number("from_m", 0, course.MaxWay), To: w.Number("to_m", 0, course.MaxWay)}
		s.Edge = r.given(w, "edge_m", 0, 0, course.MaxWay)
		s.Conditions = w.Fields(cropName, true)
		for i := range setup.Fields {
			f := &setup.Fields[i]
			if _, given := s.Conditions[f.Key]; given && !course.Varies(f.Name) {
				r.Fail(w.Path+".conditions."+f.Key, "does not change along the way")
			}
		}
		if r.Err == nil && !(s.To > s.From && s.Edge <= s.To-s.From) {
			r.Fail(w.Path, "goes from %g to %g m with an edge of %g m; wanted are a rising way and an edge of at most its length", s.From, s.To, s.Edge)
		}
		list = append(list, s)
	}
	return list
}

// given reads a number that may be missing.
func (r *reader) given(o strict.Object, key string, usual, from, to float64) float64 {
	if _, ok := o.M[key]; !ok {
		return usual
	}
	return o.Number(key, from, to)
}

// Of a day where nothing else is said: a late-summer day without a cloud.
const usualClear, usualSunrise, usualSunset = 1, 6, 20

func (r *reader) day(o strict.Object) *Day {
	v, ok := o.M["day"]
	if !ok {
		return nil
	}
	w := r.Object(v, "$.day", "start_h", "pace?", "low_c", "high_c", "humidity_pct", "clear?", "sunrise_h?", "sunset_h?", "hours?")
	d := &Day{
		Start: w.Number("start_h", 0, 23.99), Pace: r.given(w, "pace", 1, 1, course.MaxPace),
		Low: w.Number("low_c", -20, 45), High: w.Number("high_c", -20, 50), Humidity: w.Number("humidity_pct", 1, 100),
		Clear: r.given(w, "clear", usualClear, 0, 1), Sunrise: r.given(w, "sunrise_h", usualSunrise, 0, 11), Sunset: r.given(w, "sunset_h", usualSunset, 13, 24),
	}
	if r.Err == nil && d.High < d.Low {
		r.Fail("$.day.high_c", "is %g; wanted is at least the low of %g", d.High, d.Low)
	}
	for i, v := range w.List("hours", 24) {
		h := r.Object(v, fmt.Sprintf("$.day.hours[%d]", i), "at_h", "temperature_c", "humidity_pct")
		hour := Hour{At: h.Number("at_h", 0, 23.99), Temperature: h.Number("temperature_c", -20, 50), Humidity: h.Number("humidity_pct", 0, 100)}
		if n := len(d.Hours); r.Err == nil && n > 0 && hour.At <= d.Hours[n-1].At {
			r.Fail(h.Path+".at_h", "is %g; wanted is later than %g", hour.At, d.Hours[n-1].At)
		}
		d.Hours = append(d.Hours, hour)
	}
	return d
}
