package bridge

import (
	"riddle/scenarios"
	"riddle/sim/run/course"
	"riddle/sim/run/journal"
	"riddle/sim/setup"
)

// situation is a day on the farm that the page can start from. Its words stand
// in the catalogue under situation.NAME.
type situation struct {
	Name  string `json:"name"`
	Crop  string `json:"crop"`
	Farm  string `json:"farm"`
	Field string `json:"field"`

	temperature, humidity float64 // °C, %
	setup                 func() (setup.Setup, error)
	course                *course.Course
}

func newSituation(s *scenarios.Scenario) *situation {
	return &situation{
		Name: s.Name, Crop: s.Crop, Farm: s.Farm, Field: s.Field, setup: s.Setup, course: s.Course(),
		temperature: s.Weather.Temperature, humidity: s.Weather.Humidity,
	}
}

// situations lists those that are held, in their own order.
func situations() (list []*situation) {
	for _, s := range scenarios.All() {
		list = append(list, newSituation(s))
	}
	return list
}

// begin returns the start of a run: field and day are those of the situation,
// and what was set otherwise than it has it is in the user's hand. Without a
// situation it is the crop's own.
func (x *situation) begin(from, set setup.Setup) journal.Start {
	start := journal.Start{From: from, Setup: set}
	if x == nil {
		return start
	}
	start.Situation, start.Course = x.Name, x.course
	for i := range setup.Fields {
		if f := &setup.Fields[i]; f.Get(&from) != f.Get(&set) {
			start.Held = append(start.Held, f.Name)
		}
	}
	return start
}

func findSituation(name string) *situation {
	s := scenarios.Find(name)
	if s == nil {
		return nil
	}
	return newSituation(s)
}
