package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"strings"
	"unicode"
	"unicode/utf8"

	"riddle/scenarios"
	"riddle/sim/setup"
	"riddle/sim/stage/fault"
	"riddle/sim/trade/crop"
)

// chosen parts the arguments into the command's name and what follows it.
// Without a name the first command is meant.
func chosen(args []string) (name string, rest []string) {
	switch {
	case len(args) == 0:
		return commands()[0].name, nil
	case args[0] == "-h" || args[0] == "-help" || args[0] == "--help":
		return "help", nil
	case strings.HasPrefix(args[0], "-"):
		return commands()[0].name, args
	}
	return args[0], args[1:]
}

// status prints what went wrong in one line and says how that ends the
// program.
func status(err error, c command, out, errs io.Writer) int {
	var input *setup.Error
	var file *scenarios.Error
	switch {
	case err == nil:
		return 0
	case errors.Is(err, flag.ErrHelp):
		fmt.Fprintf(out, "riddle %s %s\n\n%s\n", c.name, c.args, c.does)
		return 0
	}
	fmt.Fprintln(errs, oneLine(err.Error()))
	if errors.As(err, &input) || errors.As(err, &file) {
		return 2
	}
	return 1
}

// wrong is a bad input.
func wrong(field, value, want string) error {
	return &setup.Error{Field: field, Value: brief(value), Want: want}
}

// brief quotes a value that was given, cut to a length that fits a line.
func brief(value string) string {
	const most = 60
	if utf8.RuneCountInString(value) > most {
		value = string([]rune(value)[:most]) + "…"
	}
	return fmt.Sprintf("%q", value)
}

// oneLine makes any message a single line without control characters.
func oneLine(s string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsControl(r) {
			return ' '
		}
		return r
	}, strings.TrimSpace(s))
}

func names() string {
	list := []string{}
	for _, c := range commands() {
		list = append(list, c.name)
	}
	return strings.Join(append(list, "help"), ", ")
}

// help prints every command, input, setting and condition.
func help(out io.Writer) {
	fmt.Fprintln(out, "riddle shows the flow of grain through a combine, kernel by kernel.\n\nCommands")
	for _, c := range commands() {
		fmt.Fprintf(out, "  riddle %s %s\n      %s\n", c.name, c.args, c.does)
	}
	fmt.Fprintf(out, `
Inputs, the same for every command that runs a machine
  --crop NAME              %s; wheat by default
  --scenario NAME|FILE     a situation, by name or from a file, or a setup that the
                           page saved
  --link LINK              a link to the page, or the part after its #
  --second                 the second machine, when a link or file holds two
  --set NAME=VALUE         a setting; repeat for others
  --condition NAME=VALUE   a condition; repeat for others
  --fault KIND[:DEGREE[:PLACE]]   a fault of the machine; repeat for others. Degree
                           0 is none, 1 is the worst
  --seed N                 sample number: another number gives another sample of the same field
  A value may carry a unit: 860rpm, 1/2in, 3.1mph, 15%%, 60bu/ac.
  Some situations change along the field or through the day. run, sweep,
  picture and clip follow that, except for conditions you set; forecast
  and tune use the conditions at the start.
`, strings.Join(crop.Names(), ", "))
	listFields(out, "\nSettings", false)
	listFields(out, "\nConditions", true)
	fmt.Fprintln(out, "\nFaults")
	for _, k := range fault.All() {
		if k.Built {
			fmt.Fprintf(out, "  %-18s degree 1: %s\n", k.Name, k.Most)
		}
	}
	fmt.Fprintln(out, "\nSituations")
	for _, s := range scenarios.All() {
		fmt.Fprintf(out, "  %-22s %s\n", s.Name, s.Title)
	}
}

func listFields(out io.Writer, heading string, conditions bool) {
	fmt.Fprintln(out, heading)
	for i := range setup.Fields {
		f := &setup.Fields[i]
		if f.Condition != conditions {
			continue
		}
		of := strings.TrimSpace(fmt.Sprintf("%g to %g %s", f.From, f.To, f.Unit))
		if f.Switch() {
			of = "on or off"
		}
		fmt.Fprintf(out, "  %-18s %-18s %s\n", f.Name, of, f.Purpose)
	}
}
