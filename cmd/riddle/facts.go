package main

import (
	"encoding/json"
	"io"

	"riddle/sim/check/facts"
)

var factsCommand = command{
	name: "facts",
	args: "[--json]",
	does: "computes every check of the model against published figures: what, source, class, expected, got, holds or why not",
	run:  showFacts,
}

func showFacts(args []string, out io.Writer, notes *notes) error {
	f := options("facts")
	asJSON := f.Bool("json", false, "")
	if err := read(f, args); err != nil {
		return err
	}
	list := facts.All(notes.progress("facts"))
	notes.done()
	if *asJSON {
		e := json.NewEncoder(out)
		e.SetEscapeHTML(false)
		return e.Encode(list)
	}
	return facts.Print(out, list)
}
