package web

import (
	"os"
	"path/filepath"

	"riddle/sim/facts"
	"riddle/web/known"
)

// knownFile is the page that shows every check of the model against the
// outside.
const knownFile = "how-we-know.html"

// writeKnown computes the checks and writes their page.
func writeKnown(dir string) error {
	f, err := os.Create(filepath.Join(dir, knownFile))
	if err != nil {
		return err
	}
	if err := known.Write(f, Policy, facts.All(nil)); err != nil {
		f.Close()
		return err
	}
	return f.Close()
}
