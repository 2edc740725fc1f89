package web

import (
	"os"
	"path/filepath"

	"riddle/sim/check/facts"
	"riddle/web/known"
)

// knownFile is the page that shows every check of the model against the
// outside.
const knownFile = "how-we-know.html"

// check computes the checks while something else goes on.
func check() <-chan []facts.Fact {
	done := make(chan []facts.Fact, 1)
	go func() { done <- facts.All(nil) }()
	return done
}

// writeKnown writes the page of the checks.
func writeKnown(dir string, list []facts.Fact) error {
	f, err := os.Create(filepath.Join(dir, knownFile))
	if err != nil {
		return err
	}
	if err := known.Write(f, Policy, list); err != nil {
		f.Close()
		return err
	}
	return f.Close()
}
