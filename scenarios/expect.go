package scenarios

import (
	"encoding/json"
	"fmt"
	"strings"
	"sync"

	"riddle/scenarios/strict"
	"riddle/sim/read/readout"
	"riddle/sim/setup"
	"riddle/sim/stage/flow"
)

// Reading is what one number or word of a report should be, and why.
type Reading struct {
	Reading string   `json:"reading"`        // path in the report, such as loss_pct.shoe
	From    *float64 `json:"from,omitempty"` // at least
	To      *float64 `json:"to,omitempty"`   // at most
	Is      string   `json:"is,omitempty"`   // exactly this word
	Why     string   `json:"why"`
}

// String says what is wanted.
func (e *Reading) String() string {
	switch {
	case e.Is != "":
		return e.Reading + " is " + e.Is
	case e.From == nil:
		return fmt.Sprintf("%s is at most %g", e.Reading, *e.To)
	case e.To == nil:
		return fmt.Sprintf("%s is at least %g", e.Reading, *e.From)
	}
	return fmt.Sprintf("%s is %g to %g", e.Reading, *e.From, *e.To)
}

// Check returns nil where the report reads as stated, or an error that names
// the reading, what was got, what was wanted and why.
func (e *Reading) Check(r *readout.Report) error {
	got, _, err := lookUp(r, e.Reading)
	if err != nil {
		return err
	}
	if e.holds(got) {
		return nil
	}
	return fmt.Errorf("%s is %v; wanted: %s, because %s", e.Reading, got, e, e.Why)
}

func (e *Reading) holds(got any) bool {
	switch v := got.(type) {
	case string:
		return e.Is == v
	case float64:
		return e.Is == "" && (e.From == nil || v >= *e.From) && (e.To == nil || v <= *e.To)
	}
	return false
}

// lookUp finds a value in the report by its path; found is false where the
// report has no such reading.
func lookUp(r *readout.Report, path string) (v any, found bool, err error) {
	tree, err := treeOf(r)
	if err != nil {
		return nil, false, err
	}
	v, found = walk(tree, path)
	return v, found, nil
}

// treeOf is a report as JSON has it.
func treeOf(r *readout.Report) (tree any, err error) {
	text, err := json.Marshal(r)
	if err != nil {
		return nil, err
	}
	return tree, json.Unmarshal(text, &tree)
}

// walk follows a path into a tree.
func walk(tree any, path string) (v any, found bool) {
	for _, key := range strings.Split(path, ".") {
		m, ok := tree.(map[string]any)
		if !ok {
			return nil, false
		}
		if tree, ok = m[key]; !ok {
			return nil, false
		}
	}
	return tree, true
}

// readings reads a list of stated readings.
func (r *reader) readings(o strict.Object, key, cropName string) []Reading {
	list := []Reading{}
	for i, v := range o.List(key, 20) {
		w := r.Object(v, fmt.Sprintf("$.%s[%d]", key, i), "reading", "from?", "to?", "is?", "why")
		e := Reading{Reading: w.Text("reading", 60), Why: w.Text("why", 300), From: bound(w, "from"), To: bound(w, "to")}
		if _, given := w.M["is"]; given {
			e.Is = w.Text("is", 60)
		}
		if r.Err != nil {
			return nil
		}
		r.sense(&e, w.Path, cropName)
		list = append(list, e)
	}
	if key == "expect" && r.Err == nil && len(list) == 0 {
		r.Fail("$.expect", "is empty; wanted is at least one reading")
	}
	return list
}

func bound(o strict.Object, key string) *float64 {
	if _, given := o.M[key]; !given {
		return nil
	}
	v := o.Number(key, -1e12, 1e12)
	return &v
}

// blanks holds a report without readings of each crop, as JSON has it: making
// one costs more than reading a file.
var blanks sync.Map

func blankOf(cropName string) (tree any, err error) {
	if tree, found := blanks.Load(cropName); found {
		return tree, nil
	}
	s, err := setup.Default(cropName)
	if err != nil {
		return nil, err
	}
	blank := readout.Window(flow.Tally{}, flow.Tally{}, readout.Span{Setup: s})
	if tree, err = treeOf(&blank); err != nil {
		return nil, err
	}
	blanks.Store(cropName, tree)
	return tree, nil
}

// sense refuses a reading that no report has or that nothing can meet.
func (r *reader) sense(e *Reading, path, cropName string) {
	blank, err := blankOf(cropName)
	if err != nil {
		return // refused already
	}
	v, found := walk(blank, e.Reading)
	_, whole := v.(map[string]any)
	numbers := e.From != nil || e.To != nil
	switch {
	case !found || whole:
		r.Fail(path+".reading", "is %q; a report has no such reading", strict.Cut(e.Reading))
	case numbers == (e.Is != ""):
		r.Fail(path, "wants either a word (is) or a bound (from, to)")
	case e.From != nil && e.To != nil && *e.From > *e.To:
		r.Fail(path, "is from %g to %g: the lower bound is above the upper one", *e.From, *e.To)
	}
}
