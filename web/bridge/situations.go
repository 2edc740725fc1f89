package bridge

import (
	"riddle/scenarios"
	"riddle/sim/course"
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

func findSituation(name string) *situation {
	s := scenarios.Find(name)
	if s == nil {
		return nil
	}
	return newSituation(s)
}
