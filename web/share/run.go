package share

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"strings"

	"riddle/scenarios"
	"riddle/scenarios/strict"
	"riddle/sim"
	"riddle/sim/run/journal"
	"riddle/sim/run/trial"
)

// RunForm names the form of the file of a run and its version.
const RunForm = "riddle.journal/1"

// Limits of the file of a run: what is longer is neither written nor read.
const (
	MaxRunBytes = 4 << 20
	MaxCommands = 100_000
	MaxTicks    = (trial.MaxWarmup + trial.MaxSeconds) * sim.TickHz
)

// Ran is a run as it is kept in a file: its journal, the window that is read,
// and how the machine is said to stand after it.
type Ran struct {
	Model   string
	Journal journal.Journal
	Window  trial.Window
	Ticks   int64  // that the machine made: fewer than the window has where it plugged
	Digest  string // of the machine after them
}

// RanOf returns what is kept of a run that has come to the end of a window.
func RanOf(r *journal.Run, w trial.Window) Ran {
	return Ran{Model: sim.Model, Journal: r.Journal(), Window: w, Ticks: r.Machine.Tick(), Digest: r.Machine.Digest()}
}

// runFile is the file as it is written. Model and schema stand outside of the
// checksum, so that a file made under other laws is told from one that is
// damaged.
type runFile struct {
	Schema   string    `json:"schema"`
	Model    string    `json:"model"`
	Start    runStart  `json:"start"`
	Window   runWindow `json:"window"`
	Commands []rawLine `json:"commands"`
	Claimed  runClaim  `json:"claimed"`
	Checksum string    `json:"checksum"`
}

type runStart struct {
	Crop       string         `json:"crop"`
	Situation  string         `json:"situation,omitempty"`
	Seed       uint64         `json:"seed"`
	Settings   map[string]any `json:"settings"`
	Conditions map[string]any `json:"conditions"`
	Held       []string       `json:"held,omitempty"`
	From       *runFrom       `json:"from,omitempty"` // where it differs
	scenarios.FieldAndDay
}

type runFrom struct {
	Settings   map[string]any `json:"settings"`
	Conditions map[string]any `json:"conditions"`
}

type runWindow struct {
	From int64 `json:"from_tick"`
	To   int64 `json:"to_tick"`
}

type runClaim struct {
	Tick   int64  `json:"tick"`
	Digest string `json:"digest"`
}

// rawLine is a command: [tick, name, value], or [tick, "release"].
type rawLine []any

const release = "release"

// File returns the text of the file of a run, or why it cannot be kept.
func (r *Ran) File() ([]byte, error) {
	j := &r.Journal
	switch {
	case j.Start.Setup.Stopped != 0:
		return nil, fmt.Errorf("a run with parts that are made to stand still is not kept")
	case len(j.Commands) > MaxCommands:
		return nil, fmt.Errorf("the run has %d changes; a file holds at most %d", len(j.Commands), MaxCommands)
	case r.Window.To > MaxTicks:
		return nil, fmt.Errorf("the run is longer than the %d s that a file holds", MaxTicks/sim.TickHz)
	}
	f := runFile{
		Schema: RunForm, Model: r.Model, Window: runWindow(r.Window), Claimed: runClaim{r.Ticks, r.Digest},
		Start: startOf(&j.Start), Commands: make([]rawLine, len(j.Commands)),
	}
	for i, c := range j.Commands {
		f.Commands[i] = lineOf(c)
	}
	var err error
	if f.Checksum, err = f.sum(); err != nil {
		return nil, err
	}
	text, err := f.text()
	if err == nil && len(text) > MaxRunBytes {
		err = fmt.Errorf("the run needs %d bytes; a file holds at most %d", len(text), MaxRunBytes)
	}
	return text, err
}

func startOf(s *journal.Start) runStart {
	from := s.From
	from.Seed = s.Setup.Seed
	start := runStart{
		Crop: s.Setup.Crop, Situation: s.Situation, Seed: s.Setup.Seed, Settings: byKey(&s.Setup, false), Conditions: byKey(&s.Setup, true),
		Held: s.Held, FieldAndDay: scenarios.FieldAndDayOf(s.Course),
	}
	if from != s.Setup {
		start.From = &runFrom{byKey(&from, false), byKey(&from, true)}
	}
	return start
}

func lineOf(c journal.Command) rawLine {
	switch {
	case c.Field == nil:
		return rawLine{c.Tick, release}
	case c.Field.Switch():
		return rawLine{c.Tick, c.Field.Name, c.Value != 0}
	}
	return rawLine{c.Tick, c.Field.Name, c.Value}
}

// text writes the file with a command a line.
func (f *runFile) text() ([]byte, error) {
	const mark = `"commands": []`
	lines := f.Commands
	f.Commands = []rawLine{}
	head, err := json.MarshalIndent(f, "", "  ")
	if f.Commands = lines; err != nil || len(lines) == 0 {
		return append(head, '\n'), err
	}
	list := make([]string, len(lines))
	for i, line := range lines {
		text, err := json.Marshal(line)
		if err != nil {
			return nil, err
		}
		list[i] = "    " + string(text)
	}
	before, after, ok := strings.Cut(string(head), mark)
	if !ok {
		panic("the file has no place for its commands")
	}
	return []byte(before + "\"commands\": [\n" + strings.Join(list, ",\n") + "\n  ]" + after + "\n"), nil
}

// sum returns the checksum of the file as it would be read again.
func (f *runFile) sum() (string, error) {
	text, err := json.Marshal(f)
	if err != nil {
		return "", err
	}
	tree, err := strict.ParseUpTo(MaxRunBytes, "file", text)
	if err != nil {
		return "", err
	}
	return checksum(tree.(map[string]any)), nil
}

// checksum is of all that a file says save schema, model and itself, however it
// is laid out.
func checksum(top map[string]any) string {
	under := map[string]any{}
	for k, v := range top {
		if k != "schema" && k != "model" && k != "checksum" {
			under[k] = v
		}
	}
	text, err := json.Marshal(under) // keys in order, numbers as they were written
	if err != nil {
		panic(err) // it has just been read from JSON
	}
	sum := sha256.Sum256(text)
	return hex.EncodeToString(sum[:])
}
