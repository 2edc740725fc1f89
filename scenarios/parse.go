package scenarios

import (
	"regexp"

	"riddle/scenarios/strict"
)

var formTrace = regexp.MustCompile(`"schema"\s*:\s*"riddle\.scenario/`)

// Is reports whether a text says that it is a situation, of whatever version.
func Is(text []byte) bool { return formTrace.Match(text) }

// Read checks and reads the text of a file.
func Read(file string, text []byte) (*Scenario, error) {
	tree, err := strict.Parse(file, text)
	if err != nil {
		return nil, err
	}
	r := &reader{strict.Reader{File: file}}
	s := r.scenario(tree)
	if r.Err != nil {
		return nil, r.Err
	}
	return s, nil
}
