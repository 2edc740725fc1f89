package main

import (
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"time"

	"riddle/sim/read/readout"
	"riddle/sim/run/journal"
	"riddle/sim/run/trial"
	kept "riddle/web/share"
)

var replayCommand = command{
	name: "replay",
	args: "FILE [--json]",
	does: "makes the run of a file again, one kept by run or saved from the page, and says whether it is the same, of another version, damaged or altered",
	run:  replay,
}

// replayed is what replay gives to programs: the report of the window, where the
// run was made, and the verdict.
type replayed struct {
	*readout.Report
	Replay  kept.Verdict `json:"replay"`
	Claimed *string      `json:"claimed"`
	Reason  string       `json:"reason,omitempty"`
}

func replay(args []string, out io.Writer, notes *notes) error {
	f := options("replay")
	asJSON := f.Bool("json", false, "")
	file, rest := oneFile(args)
	if err := read(f, rest); err != nil {
		return err
	}
	text, err := readFile(file)
	if err != nil {
		return err
	}
	began := time.Now()
	got, err := kept.Replay(text, notes.progress("replay"))
	notes.done()
	var bad *kept.Error
	if errors.As(err, &bad) {
		return wrong("file", file, "a run that riddle run --keep wrote or the page saved. "+bad.Error())
	}
	if err != nil {
		return err
	}
	if err := tellReplay(out, &got, began, *asJSON); err != nil {
		return err
	}
	if got.Verdict != kept.Same {
		return fmt.Errorf("%s: %s. %s", filepath.Base(file), got.Verdict, got.Reason)
	}
	return nil
}

// tellReplay writes what came of it, for people or for programs.
func tellReplay(out io.Writer, got *kept.Replayed, began time.Time, asJSON bool) error {
	if got.Run != nil {
		pace(&got.Report, got.Run, began)
	}
	if asJSON {
		r := replayed{Replay: got.Verdict, Reason: got.Reason}
		if got.Run != nil {
			r.Report = &got.Report
		}
		if got.Claimed != "" {
			r.Claimed = &got.Claimed
		}
		return writeJSON(out, r)
	}
	if got.Run != nil {
		if err := readout.Print(out, &got.Report); err != nil {
			return err
		}
	}
	if _, err := fmt.Fprintf(out, "replay: %s\n", got.Verdict); err != nil || got.Claimed == "" {
		return err
	}
	_, err := fmt.Fprintf(out, "claimed: %s\n", got.Claimed)
	return err
}

// oneFile takes the one argument that is no option out of the others, wherever
// it stands.
func oneFile(args []string) (file string, rest []string) {
	for i, a := range args {
		if a == "" || a[0] != '-' {
			return a, append(append(rest, args[:i]...), args[i+1:]...)
		}
	}
	return "", args
}

// readFile reads a file that is no larger than that of a run may be.
func readFile(path string) ([]byte, error) {
	info, err := os.Stat(path)
	if err != nil {
		return nil, wrong("file", path, "a file that can be read: "+reason(err))
	}
	if !info.Mode().IsRegular() {
		return nil, wrong("file", path, "a regular file")
	}
	f, err := os.Open(path)
	if err != nil {
		return nil, wrong("file", path, "a file that can be read: "+reason(err))
	}
	defer f.Close()
	text, err := io.ReadAll(io.LimitReader(f, kept.MaxRunBytes+1))
	if err != nil {
		return nil, wrong("file", path, "a file that can be read: "+reason(err))
	}
	return text, nil
}

// keepRun writes a run into a file, whole or not at all.
func keepRun(path string, ran *journal.Run, w trial.Window) error {
	k := kept.RanOf(ran, w)
	text, err := k.File()
	if err == nil {
		err = replace(path, text)
	}
	if err != nil {
		return fmt.Errorf("%s cannot be written: %s", path, reason(err))
	}
	return nil
}
