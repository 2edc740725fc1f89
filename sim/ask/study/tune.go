package study

import (
	"errors"

	"riddle/sim/read/readout"
	"riddle/sim/setup"
	"riddle/sim/trade/crop"
)

// Ask answers several setups, in their order.
type Ask func([]setup.Setup) ([]readout.Report, error)

// OneByOne asks a reader one setup after another.
func OneByOne(read Reader) Ask {
	return func(list []setup.Setup) ([]readout.Report, error) {
		reports := make([]readout.Report, len(list))
		for i, s := range list {
			var err error
			if reports[i], err = read(s); err != nil {
				return nil, err
			}
		}
		return reports, nil
	}
}

// Tunable lists the settings that a search may change. Ground speed is not
// among them: it trades loss against time, which is the operator's to weigh.
func Tunable(c *crop.Crop) []*setup.Field {
	list := []*setup.Field{}
	for i := range setup.Fields {
		f := &setup.Fields[i]
		if b, ok := f.Usual(c); ok && b.To > b.From && f.Name != "ground-speed" {
			list = append(list, f)
		}
	}
	return list
}

// Tuning is what a search found.
type Tuning struct {
	Before      readout.Report `json:"before"`
	After       readout.Report `json:"after"`
	Settings    map[string]any `json:"settings"` // as found, by the keys of the report
	Cost        Bill           `json:"cost"`
	Steps       []Step         `json:"steps"`
	Evaluations int            `json:"evaluations"`

	Found setup.Setup `json:"-"`
}

// Bill is the cost before and after. Before is null where the machine could
// not go on as it was set.
type Bill struct {
	Unit   string `json:"unit"`
	Before *Cost  `json:"before"`
	After  Cost   `json:"after"`
}

// Step is one change on the way from the settings before to those after.
type Step struct {
	Setting string   `json:"setting"`
	From    float64  `json:"from"`
	To      float64  `json:"to"`
	Unit    string   `json:"unit"`
	Before  *float64 `json:"cost_before"` // null where the machine could not go on
	After   *float64 `json:"cost_after"`
	Why     string   `json:"why"`
}

// Question is what a search is asked.
type Question struct {
	Base     setup.Setup // the settings before; its conditions and ground speed stay
	Hold     []string    // settings that stay too, by name
	Ask      Ask
	Progress func(asked int) // told the number of setups asked, if not nil
}

// Tune searches the usual ranges for the settings of least cost at which the
// machine may go on. The same question gives the same answer.
func Tune(q Question) (Tuning, error) {
	base, c := q.Base, crop.Find(q.Base.Crop)
	if c == nil {
		return Tuning{}, &setup.Error{Field: "crop", Value: base.Crop, Want: "a crop that is held"}
	}
	s := newSearch(q)
	best, err := s.run()
	if err != nil {
		return Tuning{}, err
	}
	if !best.ok {
		return Tuning{}, errors.New("no settings within the usual ranges let the machine go on in these conditions: slow down, or wait for a drier crop")
	}
	before, err := s.one(base)
	if err != nil {
		return Tuning{}, err
	}
	t := Tuning{Before: before.report, After: best.report, Found: best.setup, Settings: settings(&best.setup, c),
		Cost: Bill{Unit: CostUnit, After: best.cost}}
	if before.ok {
		t.Cost.Before = &before.cost
	}
	t.Steps, err = s.steps(before, best)
	t.Evaluations = s.asked
	return t, err
}

// settings lists the settings of a setup by their JSON keys, as a report does.
func settings(s *setup.Setup, c *crop.Crop) map[string]any {
	m := map[string]any{}
	for i := range setup.Fields {
		f := &setup.Fields[i]
		switch {
		case f.Condition:
		case !f.On(c):
			m[f.Key] = nil
		case f.Switch():
			m[f.Key] = f.Get(s) != 0
		default:
			m[f.Key] = f.Get(s)
		}
	}
	return m
}
