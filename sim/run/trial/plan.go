// Package trial runs a machine for a stated time and reads it: warm up, take a
// tally, run the window, take a tally. The command, the situations, the tests
// and the benchmarks all run machines this way.
package trial

import (
	"fmt"
	"math"
	"sort"

	"riddle/sim"
	"riddle/sim/run/course"
	"riddle/sim/run/journal"
	"riddle/sim/setup"
)

// The longest warm-up and window, s of simulated time. By definition
// of the command.
const (
	MaxWarmup  = 3600
	MaxSeconds = 86400
)

// Plan says how long to run and what to change on the way.
type Plan struct {
	Warmup  float64 // s before the window, 0 to MaxWarmup
	Seconds float64 // length of the window, s, above 0 to MaxSeconds
	Changes []Change
	Course  *course.Course // field and day along the way, or nil
	Held    []string       // conditions that were given by hand: the course leaves them

	Situation string // that the setup is of, for whoever reads the journal
}

// Window returns the window in ticks: at least one of them.
func (p Plan) Window() Window {
	from := ticks(p.Warmup)
	return Window{from, from + max(ticks(p.Seconds), 1)}
}

// journal returns the run that the plan makes of a setup up to a tick. What
// would change at the end or after it changes nothing.
func (p Plan) journal(s setup.Setup, end int64) journal.Journal {
	j := journal.Journal{Start: journal.Start{Situation: p.Situation, From: s, Setup: s, Course: p.Course, Held: p.Held}}
	for _, c := range inOrder(p.Changes) {
		if t := c.tick(); t < end {
			j.Commands = append(j.Commands, journal.Command{Tick: t, Field: setup.Find(c.Field), Value: c.Value})
		}
	}
	return j
}

// DefaultPlan fills and settles the machine for a minute, then reads a minute.
func DefaultPlan() Plan { return Plan{Warmup: 60, Seconds: 60} }

// Change alters one setting or condition on the way.
type Change struct {
	At    float64 // s after the first tick
	Field string  // name as in setup.Fields
	Value float64 // in the field's unit; of a switch 1 is on, 0 off
}

// Validate reports what is wrong with the plan for a setup: a time out of its
// range, or a change that the setup cannot take.
func (p Plan) Validate(s setup.Setup) error {
	if !(p.Warmup >= 0 && p.Warmup <= MaxWarmup) {
		return bad("warmup", p.Warmup, fmt.Sprintf("0 to %d s", MaxWarmup))
	}
	if !(p.Seconds > 0 && p.Seconds <= MaxSeconds) {
		return bad("seconds", p.Seconds, fmt.Sprintf("above 0 to %d s", MaxSeconds))
	}
	for _, c := range p.Changes {
		if !(c.At >= 0 && c.At <= p.Warmup+p.Seconds) {
			return bad("change", c.At, fmt.Sprintf("a time of 0 to %g s, within warm-up and window", p.Warmup+p.Seconds))
		}
		if err := c.apply(&s); err != nil {
			return err
		}
	}
	return nil
}

func (c Change) apply(s *setup.Setup) error {
	f := setup.Find(c.Field)
	if f == nil {
		return &setup.Error{Field: "change", Value: c.Field, Want: "the name of a setting or condition"}
	}
	return f.Set(s, c.Value)
}

// tick returns the first tick by which the change is due.
func (c Change) tick() int64 {
	t := int64(math.Ceil(c.At * sim.TickHz))
	for t > 0 && c.At <= float64(t-1)/sim.TickHz { // the product may round up
		t--
	}
	for c.At > float64(t)/sim.TickHz {
		t++
	}
	return t
}

func bad(field string, seconds float64, want string) error {
	return &setup.Error{Field: field, Value: fmt.Sprintf("%g s", seconds), Want: want}
}

// inOrder returns the changes by time; equal times keep their order.
func inOrder(changes []Change) []Change {
	list := append([]Change(nil), changes...)
	sort.SliceStable(list, func(i, j int) bool { return list[i].At < list[j].At })
	return list
}

// ticks returns the number of steps in a time.
func ticks(seconds float64) int64 { return int64(math.Round(seconds * sim.TickHz)) }
