// Package bridge joins the page to the machine: it owns the machine that the
// page shows, steps it, and speaks with the page's script in JSON. Whatever is
// known of the trade comes from here; the script shows and sends.
package bridge

import (
	"riddle/sim"
	"riddle/sim/read/story"
	"riddle/sim/run/journal"
	"riddle/sim/run/rewind"
	"riddle/sim/run/trial"
	"riddle/sim/setup"
	"riddle/sim/trade/crop"
	"riddle/sim/trade/quantity"
	keep "riddle/web/share"
)

// UpdatesPerSecond is how often the page's engine asks for the steps that are
// due.
const UpdatesPerSecond = 60

// Speeds are the factors of simulated to real time that the page offers.
var Speeds = []float64{0.05, 0.1, 0.25, 0.5, 1, 2, 4, 8}

// Session is one machine on the page. It is not safe for concurrent use.
type Session struct {
	run     *journal.Run // the machine on its way, and how it came there
	machine *sim.Machine // that of the run
	past    rewind.Ring[trial.Watch]
	snap    sim.Snapshot
	log     record
	scene   *situation  // nil where the crop's own start was chosen
	start   setup.Setup // what Restore goes back to

	told      setup.Conditions
	toldPlace string
	sinceTold int // ticks since the page was told of conditions

	running bool
	speed   float64 // simulated over real time, as asked for
	due     float64 // steps owed, with their fraction
	pace    pace

	changes    []change // what the journal says, for the eye
	lastChange int      // number of the last one
	notice     notice

	story *story.Recorder
	ride  ride
	curve *reckoning // of the setting in hand, or nil

	units quantity.System
	price float64 // of a tonne of the crop
	warm  int     // ticks of the warm-up still to come
	fill  int     // ticks that it takes in all

	claimed *keep.Ran // what the file of a run that is played says of its end, or nil

	revision int             // grows when controls or conditions change
	begun    int             // how many machines there have been
	brought  *setup.Settings // of a second machine, by a link or a file
}

// unitSystems are offered in this order.
var unitSystems = []quantity.System{quantity.Metric, quantity.Customary}

// notice is a text that is to be told once.
type notice struct {
	id   int
	text *Message
}

func (s *Session) tell(text *Message) { s.notice = notice{s.notice.id + 1, text} }

// NewSession returns a standing machine in the first crop.
func NewSession() *Session {
	s := &Session{speed: 1, units: quantity.Metric, story: story.NewRecorder()}
	if err := s.setCrop(crop.Names()[0]); err != nil {
		panic(err) // the crop is one of ours
	}
	return s
}

// from chooses a crop or a situation to start from.
func (s *Session) from(start setup.Setup, scene *situation) error {
	if err := s.begin(scene.begin(start, start)); err != nil {
		return err
	}
	s.start, s.scene, s.price = start, scene, priceOf(start.Crop)
	s.changedSetup()
	return nil
}

// begin puts a new, empty machine at the edge of the field.
func (s *Session) begin(start journal.Start) error {
	run, err := start.Begin()
	if err != nil {
		return err
	}
	s.put(run)
	return nil
}

// put puts a run in the place of what was there.
func (s *Session) put(run *journal.Run) {
	s.run, s.machine, s.claimed = run, run.Machine, nil
	s.begun++
	s.due, s.changes, s.warm = 0, nil, 0
	s.story.Clear()
	s.rideOff()
	s.tell(nil)
	s.log.clear(s.machine)
	s.past.Clear()
	s.past.Keep(run, &s.log.watch)
	s.changedSetup()
}

// changedSetup lets the page know that settings or conditions are others.
func (s *Session) changedSetup() {
	s.revision++
	s.machine.Snapshot(&s.snap)
}

// Snapshot returns what may be drawn, until the next step.
func (s *Session) Snapshot() *sim.Snapshot { return &s.snap }

// Running reports whether steps fall due.
func (s *Session) Running() bool { return s.running }

// Update makes the steps that one update of the engine brings. It stops early
// and forgets the rest when spent reports that the frame's time is used up:
// then the machine runs slower than asked for, never differently.
func (s *Session) Update(spent func() bool) (steps int) {
	if s.Warming() {
		steps = s.ticks(s.warm, spent)
		s.warm -= steps
		return steps
	}
	if !s.running || s.plugged() {
		return 0
	}
	s.due += s.speed * sim.TickHz / UpdatesPerSecond
	whole := int(s.due)
	s.due -= float64(whole)
	steps = s.ticks(whole, spent)
	s.pace.add(float64(steps) * UpdatesPerSecond / sim.TickHz)
	return steps
}

// ticks makes a number of ticks, or fewer if the machine plugs or stop says so,
// and returns how many.
func (s *Session) ticks(n int, stop func() bool) (made int) {
	for made < n && !s.plugged() && !stop() {
		s.tick()
		made++
	}
	s.machine.Snapshot(&s.snap)
	return made
}

// tick makes one tick, unless the machine has plugged.
func (s *Session) tick() {
	if s.plugged() {
		return
	}
	s.playOn()
	s.run.Step()
	s.follow()
	s.log.keep(s.machine)
	s.past.Keep(s.run, &s.log.watch)
	s.story.Keep(s.machine)
	s.observe()
	s.arrive()
}

// warmUp has the machine run for a number of ticks as fast as it can be
// computed.
func (s *Session) warmUp(ticks int) { s.warm, s.fill = ticks, ticks }

// warmTicks is how long a machine is run to be full of crop and steady: the
// way through it takes some 15 s, and the short window another 10 s.
const warmTicks = 25 * sim.TickHz

// Warming reports whether the machine is being filled, as fast as it can be
// computed, before it is handed to the user.
func (s *Session) Warming() bool { return s.warm > 0 && !s.plugged() }

func (s *Session) warmShare() float64 {
	if !s.Warming() {
		return 1
	}
	return 1 - float64(s.warm)/float64(max(s.fill, 1))
}

// logged changes whenever the log does.
func (s *Session) logged() int {
	n := s.lastChange * 3
	if k := len(s.changes); k > 0 && s.changes[k-1].after != nil {
		n++
	}
	return n
}

func (s *Session) plugged() bool { return s.run.Plugged() }

// Behind reports whether the machine runs slower than asked for.
func (s *Session) Behind() bool { return s.running && !s.plugged() && s.pace.value < 0.9*s.speed }

// pace is the speed that was really reached, evened out over about a second.
type pace struct{ value float64 }

func (p *pace) add(v float64) { p.value += (v - p.value) / UpdatesPerSecond }
