package main

import (
	"fmt"
	"io"
	"slices"
	"strings"
	"time"

	"riddle/sim/read/readout"
	"riddle/sim/run/journal"
	"riddle/sim/run/trial"
	"riddle/sim/setup"
)

var runCommand = command{
	name: "run",
	args: "[inputs] [--seconds S] [--warmup S] [--change S:NAME=VALUE]… [--price P|P/t] [--keep FILE] [--json]",
	does: "runs the machine and reports losses, tank sample and loads; --change alters a setting or condition S seconds after the first tick; --keep writes the run to a file for riddle replay",
	run:  runMachine,
}

func runMachine(args []string, out io.Writer, notes *notes) error {
	var in inputs
	var changes list
	var price price
	f := options("run")
	in.options(f)
	price.option(f, &in)
	window, warmup := f.String("seconds", "60", ""), f.String("warmup", "60", "")
	f.Var(&changes, "change", "")
	keep, asJSON := f.String("keep", "", ""), f.Bool("json", false, "")
	if err := read(f, args); err != nil {
		return err
	}
	s, err := in.setup(notes)
	if err != nil {
		return err
	}
	if _, _, err := price.read(s.Crop); err != nil {
		return err
	}
	plan, err := planned(s, *window, *warmup, changes)
	if err != nil {
		return err
	}
	in.along(&plan)
	if plan.Course != nil {
		notes.tell("conditions change during the run; the report shows them as they were at its end")
	}
	if given(f, "keep") {
		if err := writable("keep", *keep); err != nil {
			return err
		}
	}
	ran, report, err := timed(s, plan, notes)
	if err == nil {
		err = price.put(&report)
	}
	if err == nil && *keep != "" {
		err = keepRun(*keep, ran, plan.Window(), &price)
	}
	if err != nil {
		return err
	}
	if *asJSON {
		return writeJSON(out, report)
	}
	return readout.Print(out, &report)
}

// timed runs a plan and notes how much faster than the clock it was.
func timed(s setup.Setup, plan trial.Plan, notes *notes) (*journal.Run, readout.Report, error) {
	began := time.Now()
	ran, report, err := trial.Keep(s, plan, notes.progress(s.Crop))
	notes.done()
	if err == nil {
		pace(&report, ran, began)
	}
	return ran, report, err
}

// pace notes how much faster than the clock a run was.
func pace(report *readout.Report, ran *journal.Run, began time.Time) {
	if wall := time.Since(began).Seconds(); wall > 0 {
		ratio := ran.Machine.Seconds() / wall
		report.SimPerWallS = &ratio
	}
}

// planned reads the times and the changes of a run.
func planned(s setup.Setup, window, warmup string, changes []string) (trial.Plan, error) {
	var p trial.Plan
	var err error
	if p.Seconds, err = seconds("seconds", window, fmt.Sprintf("above 0 to %d s", trial.MaxSeconds)); err != nil {
		return p, err
	}
	if p.Warmup, err = seconds("warmup", warmup, fmt.Sprintf("0 to %d s", trial.MaxWarmup)); err != nil {
		return p, err
	}
	for _, text := range changes {
		c, err := change(s, text)
		if err != nil {
			return p, err
		}
		if slices.ContainsFunc(p.Changes, c.Clashes) {
			return p, wrong("change", text, "the only change of "+c.Field+" at that moment")
		}
		p.Changes = append(p.Changes, c)
	}
	return p, p.Validate(s)
}

// change reads S:NAME=VALUE.
func change(s setup.Setup, text string) (trial.Change, error) {
	at, rest, ok := strings.Cut(text, ":")
	if !ok {
		return trial.Change{}, wrong("change", text, "S:NAME=VALUE, such as 90:fan-speed=1200rpm")
	}
	when, err := seconds("change", at, "a time in seconds after the first tick")
	if err != nil {
		return trial.Change{}, err
	}
	f, value, err := field(rest, "change")
	if err != nil {
		return trial.Change{}, err
	}
	if err := clean(f.Read(&s, value), value); err != nil {
		return trial.Change{}, err
	}
	return trial.Change{At: when, Field: f.Name, Value: f.Get(&s)}, nil
}
