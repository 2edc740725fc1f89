package trial

import (
	"riddle/sim"
	"riddle/sim/read/readout"
	"riddle/sim/setup"
	"riddle/sim/stage/flow"
)

// Checkpoint is what had been counted at one moment, and over how much of the field.
type Checkpoint struct {
	Seconds float64 // after the first tick
	Tally   flow.Tally
	Setup   setup.Setup
	State   sim.State
	Cut     float64 // ha that were harvested
	Left    float64 // ha on which the grain stood that has left the machine
}

// Watch follows a machine from its first tick on. Every reading of a machine
// that runs, on the page or by the command, is made between two of its checkpoints.
type Watch struct {
	Now    Checkpoint
	origin readout.Origin
}

// Start begins with a machine that has made no step yet.
func (w *Watch) Start(m *sim.Machine) {
	*w = Watch{Now: Checkpoint{Tally: m.Tally(), Setup: m.Setup(), State: m.State()}}
	w.origin.Put(0, 0)
}

// Keep takes up one step of the machine.
func (w *Watch) Keep(m *sim.Machine) {
	now := &w.Now
	before := now.Seconds
	now.Seconds, now.Tally, now.Setup, now.State = m.Seconds(), m.Tally(), m.Setup(), m.State()
	speed, width := now.Setup.Settings.GroundSpeed, now.Setup.Conditions.HeaderWidth
	now.Cut += readout.HectaresAnHour(speed, width) * (now.Seconds - before) / 3600
	w.origin.Put(now.Tally.Fed(), now.Cut)
	now.Left = w.origin.Of(now.Tally.Out())
}

// Read reads what passed between two marks, at prices, or at the usual ones
// where those are nil.
func Read(before, after *Checkpoint, prices *readout.Prices) readout.Report {
	over := readout.Span{
		Setup: after.Setup, Seconds: after.Seconds - before.Seconds,
		Hectares: after.Cut - before.Cut, Left: after.Left - before.Left,
		Model: sim.Model, State: after.State.Condition.String(), DriveKW: sim.DriveKW, Prices: prices,
	}
	if s := &after.State; s.Condition == sim.Plugged {
		over.Plug = &readout.Plug{At: s.At, Where: s.Where, Why: s.Why}
	}
	return readout.Window(before.Tally, after.Tally, over)
}
