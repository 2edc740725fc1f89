package scenarios

import (
	"fmt"

	"riddle/scenarios/strict"
	"riddle/sim/run/course"
	"riddle/sim/setup"
	"riddle/sim/trade/weather"
)

// FieldAndDay is what changes on the way: stretches of the field, the way after
// which they come round again (m, or 0), and the day. It is the form in which
// any file holds a course.
type FieldAndDay struct {
	Along []Stretch `json:"along,omitempty"`
	Round float64   `json:"round_m,omitempty"`
	Day   *Day      `json:"day,omitempty"`
}

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

// FieldAndDayOf returns the form of a course, or of none.
func FieldAndDayOf(c *course.Course) (s FieldAndDay) {
	if c == nil {
		return s
	}
	s.Round = c.Round
	for _, a := range c.Stretches {
		stretch := Stretch{Name: a.Name, From: a.From, To: a.To, Edge: a.Edge, Conditions: map[string]float64{}}
		for _, v := range a.Values {
			stretch.Conditions[v.Field.Key] = v.To
		}
		s.Along = append(s.Along, stretch)
	}
	if d := c.Day; d != nil {
		s.Day = &Day{
			Start: d.Start, Pace: d.Pace, Low: d.Low, High: d.High, Humidity: d.Humidity, Clear: d.Clear, Sunrise: d.Sunrise, Sunset: d.Sunset,
		}
		for _, h := range d.Hours {
			s.Day.Hours = append(s.Day.Hours, Hour{At: h.At, Temperature: h.T, Humidity: h.Humidity})
		}
	}
	return s
}

// Course returns the field and the day, or nil where nothing changes on the
// way.
func (s *FieldAndDay) Course() *course.Course {
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

// FieldAndDayKeys are the keys under which an object holds a field and a day.
var FieldAndDayKeys = []string{"along?", "round_m?", "day?"}

// ReadFieldAndDay reads what changes on the way in a crop.
func ReadFieldAndDay(r *strict.Reader, o strict.Object, cropName string) FieldAndDay {
	return FieldAndDay{along(r, o, cropName), given(o, "round_m", 0, 1, course.MaxWay), day(r, o)}
}

// along reads the stretches of the way.
func along(r *strict.Reader, o strict.Object, cropName string) (list []Stretch) {
	for i, v := range o.List("along", course.MaxStretches) {
		w := r.Object(v, fmt.Sprintf("%s.along[%d]", o.Path, i), "name", "from_m", "to_m", "edge_m?", "conditions")
		s := Stretch{Name: w.Text("name", 40), From: w.Number("from_m", 0, course.MaxWay), To: w.Number("to_m", 0, course.MaxWay)}
		s.Edge = given(w, "edge_m", 0, 0, course.MaxWay)
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
func given(o strict.Object, key string, usual, from, to float64) float64 {
	if _, ok := o.M[key]; !ok {
		return usual
	}
	return o.Number(key, from, to)
}

// Of a day where nothing else is said: a late-summer day without a cloud.
const usualClear, usualSunrise, usualSunset = 1, 6, 20

func day(r *strict.Reader, o strict.Object) *Day {
	v, ok := o.M["day"]
	if !ok {
		return nil
	}
	w := r.Object(v, o.Path+".day", "start_h", "pace?", "low_c", "high_c", "humidity_pct", "clear?", "sunrise_h?", "sunset_h?", "hours?")
	d := &Day{
		Start: w.Number("start_h", 0, 23.99), Pace: given(w, "pace", 1, 1, course.MaxPace),
		Low: w.Number("low_c", -20, 45), High: w.Number("high_c", -20, 50), Humidity: w.Number("humidity_pct", 1, 100),
		Clear: given(w, "clear", usualClear, 0, 1), Sunrise: given(w, "sunrise_h", usualSunrise, 0, 11), Sunset: given(w, "sunset_h", usualSunset, 13, 24),
	}
	if r.Err == nil && d.High < d.Low {
		r.Fail(w.Path+".high_c", "is %g; wanted is at least the low of %g", d.High, d.Low)
	}
	for i, v := range w.List("hours", 24) {
		h := r.Object(v, fmt.Sprintf("%s.hours[%d]", w.Path, i), "at_h", "temperature_c", "humidity_pct")
		hour := Hour{At: h.Number("at_h", 0, 23.99), Temperature: h.Number("temperature_c", -20, 50), Humidity: h.Number("humidity_pct", 0, 100)}
		if n := len(d.Hours); r.Err == nil && n > 0 && hour.At <= d.Hours[n-1].At {
			r.Fail(h.Path+".at_h", "is %g; wanted is later than %g", hour.At, d.Hours[n-1].At)
		}
		d.Hours = append(d.Hours, hour)
	}
	return d
}
