// Package scenarios holds situations in the field: a crop on a day, and a
// machine that is set in some way, well or badly. One definition serves the
// page, headless runs, tests and benchmarks. A situation is data in JSON; its
// form is published as schema.json, and nothing in it can run.
package scenarios

import (
	"embed"
	"slices"
	"sync"

	"riddle/scenarios/strict"
	"riddle/sim/run/trial"
	"riddle/sim/setup"
)

// Form names the form of a situation file.
const Form = "riddle.scenario/1"

// Scenario is one situation.
type Scenario struct {
	Name    string  `json:"name"`  // lower case words joined by hyphens
	Title   string  `json:"title"` // a short line
	Farm    string  `json:"farm"`
	Field   string  `json:"field"`
	Weather Weather `json:"weather"`
	Crop    string  `json:"crop"`

	// Settings and conditions by their keys in a report, in the unit that the
	// key names; switches are 1 and 0. What is left out is where practice
	// starts in the crop.
	Settings   map[string]float64 `json:"settings"`
	Conditions map[string]float64 `json:"conditions"`
	Seed       uint64             `json:"seed"`

	FieldAndDay // what changes on the way

	Shows  string    `json:"shows"` // what it shows, in a sentence
	Run    Run       `json:"run"`
	Expect []Reading `json:"expect"`          // what a run of that length reads
	Goals  []Reading `json:"goals,omitempty"` // what a learner should bring it to
	Notes  []string  `json:"notes,omitempty"` // for teachers
}

// Weather is the day.
type Weather struct {
	Words       string  `json:"words"`
	Temperature float64 `json:"temperature_c"` // °C
	Humidity    float64 `json:"humidity_pct"`  // relative, %
}

// Run is how long a headless run is whose readings are stated, s.
type Run struct {
	Warmup  float64 `json:"warmup_s"`
	Seconds float64 `json:"seconds"`
}

// Setup returns the machine in its field.
func (s *Scenario) Setup() (setup.Setup, error) {
	m, err := setup.Default(s.Crop)
	if err != nil {
		return m, err
	}
	m.Seed = s.Seed
	for i := range setup.Fields {
		f := &setup.Fields[i]
		values := s.Settings
		if f.Condition {
			values = s.Conditions
		}
		if v, ok := values[f.Key]; ok {
			if err := f.Set(&m, v); err != nil {
				return m, err
			}
		}
	}
	return m, nil
}

// Plan returns the run whose readings are stated.
func (s *Scenario) Plan() trial.Plan {
	return trial.Plan{Warmup: s.Run.Warmup, Seconds: s.Run.Seconds, Course: s.Course(), Situation: s.Name}
}

//go:embed *.json
var files embed.FS

const schemaFile = "schema.json"

// Schema returns the JSON schema of a situation file.
func Schema() []byte {
	text, err := files.ReadFile(schemaFile)
	if err != nil {
		panic(err)
	}
	return text
}

// order of the situations: a crop's well set machine before what goes wrong.
var order = []string{
	"wheat-well-set", "wheat-fan-too-high", "wheat-tough-at-dusk", "wheat-weedy", "wheat-side-slope", "wheat-overload", "wheat-green-patch", "wheat-evening-dew",
	"soybeans-well-set", "soybeans-lower-shut", "soybeans-very-dry", "soybeans-damp-morning", "soybeans-rolling-ground",
	"corn-well-set", "corn-cylinder-fast", "corn-headland-crawl",
	"canola-set-for-wheat",
}

var embedded = sync.OnceValue(func() []*Scenario {
	list := make([]*Scenario, 0, len(order))
	for _, name := range order {
		text, err := files.ReadFile(name + ".json")
		if err != nil {
			panic(err)
		}
		s, err := read(name+".json", text)
		if err != nil {
			panic(err) // the files are part of the program
		}
		list = append(list, s)
	}
	return list
})

// All returns the situations that come with the program, in their usual order.
func All() []*Scenario { return slices.Clone(embedded()) }

// Names returns their names.
func Names() []string { return slices.Clone(order) }

// Find returns the situation of a name, or nil.
func Find(name string) *Scenario {
	for _, s := range embedded() {
		if s.Name == name {
			return s
		}
	}
	return nil
}

// Error is what is wrong with a situation file.
type Error = strict.Error
