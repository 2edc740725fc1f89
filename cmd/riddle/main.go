// Command riddle runs the flow of grain through a combine: as a page in the
// browser, as static files for any host, or headless with a report.
package main

import (
	"fmt"
	"io"
	"os"
)

// command is one word after riddle. Run reads its arguments, writes results to
// out and everything else to the notes.
type command struct {
	name, args, does string
	run              func(args []string, out io.Writer, notes *notes) error
}

// commands in the order of the help; the first is what riddle does if nothing
// is said.
func commands() []command {
	return append(pageCommands(),
		runCommand,
		replayCommand,
		forecastCommand,
		sweepCommand,
		tuneCommand,
		pictureCommand,
		clipCommand,
		factsCommand,
	)
}

func main() {
	os.Exit(dispatch(os.Args[1:], os.Stdout, os.Stderr))
}

// dispatch runs the command that the arguments name and returns the exit
// status: 0 done, 1 it could not be done, 2 the input is wrong.
func dispatch(args []string, out, errors io.Writer) int {
	name, rest := chosen(args)
	if name == "help" {
		help(out)
		return 0
	}
	for _, c := range commands() {
		if c.name == name {
			return status(c.run(rest, out, newNotes(errors)), c, out, errors)
		}
	}
	fmt.Fprintln(errors, oneLine(wrong("command", name, "one of "+names()).Error()))
	return 2
}
