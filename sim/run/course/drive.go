package course

import (
	"math"

	"riddle/sim/num"
	"riddle/sim/setup"
	"riddle/sim/trade/weather"
)

// Machine is what is driven along a course.
type Machine interface {
	Setup() setup.Setup
	Adjust(setup.Setup) error
	Travelled() float64 // m of the cutter bar
	Seconds() float64   // since the first tick
}

// Progress is one machine's way along a course. A nil Progress changes nothing.
type Progress struct {
	course *Course
	start  setup.Setup
	track  *weather.Track
	along  []along
	now    setup.Setup // kept, so that a step makes nothing
}

// along is one condition on its way.
type along struct {
	field *setup.Field
	at    place
	base  float64 // where no stretch holds
	held  bool    // somebody has taken it in hand
	damp  weatherPart
}

// weatherPart says which moisture the day moves.
type weatherPart uint8

const (
	noPart weatherPart = iota
	grainPart
	strawPart
)

// On returns the way of a machine that starts with this setup, or an error if
// the course cannot be driven in its crop. A nil course gives a nil Progress.
func (c *Course) On(start setup.Setup) (*Progress, error) {
	if c == nil {
		return nil, nil
	}
	if err := c.Validate(start); err != nil {
		return nil, err
	}
	d := &Progress{course: c, start: start}
	for _, f := range c.drives() {
		a := along{field: f, at: places[f.Name], base: f.Get(&start)}
		switch {
		case c.Day == nil:
		case f.Name == "grain-moisture":
			a.damp = grainPart
		case f.Name == "straw-moisture":
			a.damp = strawPart
		}
		d.along = append(d.along, a)
	}
	if day := c.Day; day != nil {
		k := &start.Conditions
		mog := k.Yield * k.MOGRatio / 10 // kg/m²
		crop := weather.NewCrop(weather.HabitOf(start.Crop), &day.Day, day.Start, k.GrainMoisture, k.StrawMoisture, mog)
		d.track = weather.NewTrack(crop, &day.Day, day.Start)
	}
	return d, nil
}

// Hold leaves a condition to whoever has just set it: the course does not
// touch it again.
func (d *Progress) Hold(field string) {
	if d == nil {
		return
	}
	for i := range d.along {
		if d.along[i].field.Name == field {
			d.along[i].held = true
		}
	}
}

// Held lists the conditions of the course that somebody has taken in hand.
func (d *Progress) Held() (fields []string) {
	if d == nil {
		return nil
	}
	for i := range d.along {
		if d.along[i].held {
			fields = append(fields, d.along[i].field.Name)
		}
	}
	return fields
}

// Clone returns the same way for another machine, which takes things in hand by
// itself.
func (d *Progress) Clone() *Progress {
	if d == nil {
		return nil
	}
	c := &Progress{}
	d.CopyTo(c)
	return c
}

// CopyTo makes another way the same, in the other's own room.
func (d *Progress) CopyTo(to *Progress) {
	if d == nil {
		return
	}
	room := to.along
	*to = *d // course and weather never change
	to.along = append(room[:0], d.along...)
}

// Again returns the way of a new machine along the same course, with what is
// held still held.
func (d *Progress) Again(start setup.Setup) (*Progress, error) {
	if d == nil {
		return nil, nil
	}
	next, err := d.course.On(start)
	if err != nil {
		return nil, err
	}
	for i := range d.along {
		next.along[i].held = d.along[i].held
	}
	return next, nil
}

// Moves reports whether the course has a condition in hand.
func (d *Progress) Moves(field string) bool {
	if d == nil {
		return false
	}
	for i := range d.along {
		if d.along[i].field.Name == field {
			return !d.along[i].held
		}
	}
	return false
}

// Back returns a setup with the conditions of the course as they were at the
// start, save those that somebody holds.
func (d *Progress) Back(s setup.Setup) setup.Setup {
	if d == nil {
		return s
	}
	for i := range d.along {
		if a := &d.along[i]; !a.held {
			if err := a.field.Set(&s, a.base); err != nil {
				panic(err) // it was legal at the start
			}
		}
	}
	return s
}

// Step brings the conditions of a machine to where and when it is. It is to be
// called between the machine's steps.
func (d *Progress) Step(m Machine) {
	if d == nil || len(d.along) == 0 {
		return
	}
	d.now = m.Setup()
	way, seconds, changed := m.Travelled(), m.Seconds(), false
	for i := range d.along {
		a := &d.along[i]
		if a.held {
			continue
		}
		v := d.value(a, way, seconds)
		if v == a.field.Get(&d.now) {
			continue
		}
		if err := a.field.Set(&d.now, v); err != nil {
			panic(err) // every value of a course lies between legal ones
		}
		changed = true
	}
	if changed {
		if err := m.Adjust(d.now); err != nil {
			panic(err)
		}
	}
}

// value returns what a condition is with the cutter bar so far on its way.
func (d *Progress) value(a *along, way, seconds float64) float64 {
	v := a.base
	if a.damp != noPart {
		grain, straw := d.track.At(d.hours(seconds))
		if v = grain; a.damp == strawPart {
			v = straw
		}
	}
	x := d.round(way + d.ahead(a.at))
	for i := range d.course.Stretches {
		s := &d.course.Stretches[i]
		for _, to := range s.Values {
			if to.Field == a.field {
				v += float64(s.share(x) * (to.To - v))
			}
		}
	}
	return fine(a.field, v)
}

// ahead returns how far ahead of the cutter bar a condition is met, m.
func (d *Progress) ahead(p place) float64 {
	switch p {
	case stand:
		return horizonAhead
	case crop:
		return -feedTime * d.now.Settings.GroundSpeed / 3.6
	}
	return -wheelsBehind
}

// round brings a place into the way that comes round again.
func (d *Progress) round(x float64) float64 {
	if r := d.course.Round; r > 0 && x > 0 {
		return x - float64(r*math.Floor(x/r))
	}
	return x
}

// fine brings a value into a tenth of its control's step, so that it changes
// now and then and reads well, and into its legal range.
func fine(f *setup.Field, v float64) float64 {
	parts := math.Floor(10/f.Step + 0.5)
	return num.Clamp(math.Floor(float64(v*parts)+0.5)/parts, f.From, f.To)
}

// hours returns the time of the day that has gone by, h.
func (d *Progress) hours(seconds float64) float64 { return seconds * d.course.Day.Pace / 3600 }

// Place returns the name of the stretch in which the cutter bar is, or nothing.
func (d *Progress) Place(m Machine) string {
	if d == nil {
		return ""
	}
	x, name := d.round(m.Travelled()), ""
	for i := range d.course.Stretches {
		if s := &d.course.Stretches[i]; s.share(x) > 0.5 {
			name = s.Name
		}
	}
	return name
}

// Air returns the hour of the day and its air; ok is false where the course has
// no day.
func (d *Progress) Air(m Machine) (hour float64, air weather.Air, ok bool) {
	if d == nil || d.course.Day == nil {
		return 0, weather.Air{}, false
	}
	hour = d.course.Day.Start + d.hours(m.Seconds())
	hour -= float64(24 * math.Floor(hour/24))
	return hour, d.course.Day.At(hour), true
}
