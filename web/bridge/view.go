package bridge

import (
	"fmt"
	"slices"

	"riddle/render"
	"riddle/sim/setup"
)

// Look is how the page wants the machine drawn.
type Look struct {
	Zone  string `json:"zone"`
	Theme string `json:"theme"`
	Air   bool   `json:"air"`
	Lit   string `json:"lit"` // part to point out
}

// check refuses a look that names what is not there.
func (l Look) check() error {
	if _, ok := render.FindZone(l.Zone); !ok {
		return &setup.Error{Field: "view", Value: l.Zone, Want: "one of the zones"}
	}
	if !slices.Contains(render.Themes, l.Theme) {
		return &setup.Error{Field: "theme", Value: l.Theme, Want: fmt.Sprint("one of ", render.Themes)}
	}
	return nil
}
