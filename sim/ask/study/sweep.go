// Package study asks many questions of the same machine: what one setting or
// condition does over its range, and which settings cost least. It does not know
// how an answer was computed: a Reader is a particle run or a forecast.
package study

import (
	"fmt"
	"math"

	"riddle/sim/read/readout"
	"riddle/sim/setup"
	"riddle/sim/trade/crop"
)

// Reader answers what a setup gives. The same setup gives the same report.
type Reader func(setup.Setup) (readout.Report, error)

// The fewest and the most values of a sweep. Chosen.
const (
	FewestPoints = 2
	MostPoints   = 1000
)

// Sweep varies one setting or condition of a setup and leaves the rest.
type Sweep struct {
	Base     setup.Setup
	Field    *setup.Field
	From, To float64 // both ends are among the values; in the field's unit
	Points   int     // how many values, FewestPoints to MostPoints
}

// Validate reports what is wrong with the sweep.
func (w Sweep) Validate() error {
	want := ""
	switch c := crop.Find(w.Base.Crop); {
	case w.Field.Switch():
		want = "a setting or condition with a range; this one is on or off"
	case c != nil && !w.Field.On(c):
		want = "another field: the header for " + c.Name + " has no such setting"
	case w.From == w.To:
		want = "a range with two different ends"
	case w.Points < FewestPoints || w.Points > MostPoints:
		want = fmt.Sprintf("%d to %d points", FewestPoints, MostPoints)
	}
	if want != "" {
		return &setup.Error{Field: "vary", Value: w.text(), Want: want}
	}
	for _, i := range [...]int{0, w.Points - 1} {
		if _, err := w.Setup(i); err != nil {
			return err
		}
	}
	return nil
}

func (w Sweep) text() string {
	return fmt.Sprintf("%s=%g:%g:%d", w.Field.Name, w.From, w.To, w.Points)
}

// Value returns value i, 0 to Points−1, evenly spaced.
func (w Sweep) Value(i int) float64 {
	if i >= w.Points-1 {
		return w.To
	}
	v := w.From + float64((w.To-w.From)*float64(i)/float64(w.Points-1))
	return math.Round(v*1e9) / 1e9 // 5.3, not 5.300000000000001
}

// Setup returns the setup of value i.
func (w Sweep) Setup(i int) (setup.Setup, error) {
	s := w.Base
	err := w.Field.Set(&s, w.Value(i))
	return s, err
}

// Point is the answer at one value.
type Point struct {
	Value  float64        `json:"value"`
	Report readout.Report `json:"report"`
}

// Curve is the answers of a sweep in the order of its values.
type Curve struct {
	Vary   string  `json:"vary"` // name of the setting or condition
	Unit   string  `json:"unit"`
	Points []Point `json:"points"`
}

// Run asks for every value, one after another.
func (w Sweep) Run(read Reader) (Curve, error) {
	if err := w.Validate(); err != nil {
		return Curve{}, err
	}
	c := w.Empty()
	for i := range c.Points {
		if err := w.Fill(&c, i, read); err != nil {
			return Curve{}, err
		}
	}
	return c, nil
}

// Empty returns the curve without answers. Each Fill touches its own point, so
// that points can be asked for at the same time.
func (w Sweep) Empty() Curve {
	return Curve{Vary: w.Field.Name, Unit: string(w.Field.Unit), Points: make([]Point, w.Points)}
}

// Fill asks for value i.
func (w Sweep) Fill(c *Curve, i int, read Reader) error {
	s, err := w.Setup(i)
	if err != nil {
		return err
	}
	c.Points[i].Value = w.Value(i)
	c.Points[i].Report, err = read(s)
	return err
}
