package bridge

import (
	"riddle/scenarios"
	"riddle/sim/setup"
)

// situation is a day on the farm that the page can start from.
type situation struct {
	Name    string `json:"name"`
	Title   string `json:"title"`
	Crop    string `json:"crop"`
	Place   string `json:"place"`   // farm and field
	Weather string `json:"weather"` // in words
	Shows   string `json:"shows"`   // a sentence

	setup func() (setup.Setup, error)
}

func newSituation(s *scenarios.Scenario) *situation {
	return &situation{
		Name: s.Name, Title: s.Title, Crop: s.Crop, Place: s.Farm + ", " + s.Field, Shows: s.Shows, setup: s.Setup,
		Weather: title(s.Weather.Words) + ", " + trim(s.Weather.Temperature) + " °C, " + trim(s.Weather.Humidity) + " % humidity.",
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
