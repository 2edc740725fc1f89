package bridge

import "riddle/sim/setup"

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

// situations lists those that are held, in their own order.
func situations() []situation { return nil }

func findSituation(name string) *situation {
	all := situations()
	for i := range all {
		if all[i].Name == name {
			return &all[i]
		}
	}
	return nil
}
