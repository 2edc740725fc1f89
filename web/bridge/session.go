// Package bridge joins the page to the machine: it owns the machine that the
// page shows, steps it, and speaks with the page's script in JSON. Whatever is
// known of the trade comes from here; the script shows and sends.
package bridge

import (
	"riddle/sim"
	"riddle/sim/setup"
)

// UpdatesPerSecond is how often the page's engine asks for the steps that are
// due.
const UpdatesPerSecond = 60

// Speeds are the factors of simulated to real time that the page offers.
var Speeds = []float64{0.05, 0.1, 0.25, 0.5, 1, 2, 4, 8}

// Session is one machine on the page. It is not safe for concurrent use.
type Session struct {
	machine *sim.Machine
	snap    sim.Snapshot
	log     record
	scene   *situation  // nil where the crop's own start was chosen
	start   setup.Setup // what Reset goes back to

	running bool
	speed   float64 // simulated over real time, as asked for
	due     float64 // steps owed, with their fraction
	pace    pace

	watch  watch // on the last change of a setting
	notice notice

	revision int // grows when controls or conditions change
}

// NewSession returns a standing machine in the first crop.
func NewSession() *Session {
	s := &Session{speed: 1}
	start, err := setup.Default(firstCrop)
	if err != nil {
		panic(err) // the first crop is one of ours
	}
	if err := s.begin(start, nil); err != nil {
		panic(err)
	}
	return s
}

const firstCrop = "wheat"

// begin puts a new, empty machine at the edge of the field.
func (s *Session) begin(start setup.Setup, scene *situation) error {
	m, err := sim.New(start)
	if err != nil {
		return err
	}
	s.machine, s.start, s.scene = m, start, scene
	s.due, s.watch = 0, watch{}
	s.revision++
	s.machine.Snapshot(&s.snap)
	s.log.clear(&s.snap)
	return nil
}

// Snapshot returns what may be drawn, until the next step.
func (s *Session) Snapshot() *sim.Snapshot { return &s.snap }

// Running reports whether steps fall due.
func (s *Session) Running() bool { return s.running }

// Update makes the steps that one update of the engine brings. It stops early
// and forgets the rest when spent reports that the frame's time is used up:
// then the machine runs slower than asked for, never differently.
func (s *Session) Update(spent func() bool) (steps int) {
	if !s.running || s.plugged() {
		return 0
	}
	s.due += s.speed * sim.TickHz / UpdatesPerSecond
	for s.due >= 1 && !s.plugged() {
		if spent() {
			s.due = 0
			break
		}
		s.step()
		s.due--
		steps++
	}
	s.pace.add(float64(steps) * UpdatesPerSecond / sim.TickHz)
	return steps
}

// step makes one tick and keeps the record.
func (s *Session) step() {
	s.machine.Step()
	s.machine.Snapshot(&s.snap)
	s.log.keep(&s.snap)
	s.observe()
}

func (s *Session) plugged() bool { return s.snap.State.Condition == sim.Plugged }

// adjust gives the running machine new settings or conditions.
func (s *Session) adjust(to setup.Setup) error {
	if err := s.machine.Adjust(to); err != nil {
		return err
	}
	s.machine.Snapshot(&s.snap)
	s.revision++
	return nil
}

// pace is the speed that was really reached, evened out over about a second.
type pace struct{ value float64 }

func (p *pace) add(v float64) { p.value += (v - p.value) / UpdatesPerSecond }
