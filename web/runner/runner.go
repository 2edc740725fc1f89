// Package runner runs the machine on the page: it steps it as time passes, writes
// its journal and the log of changes, goes back, plays what was kept, and
// begins anew. It shows nothing, and says nothing in units.
package runner

import (
	"riddle/sim"
	"riddle/sim/read/story"
	"riddle/sim/run/journal"
	"riddle/sim/run/rewind"
	"riddle/sim/run/trial"
	"riddle/sim/setup"
	"riddle/sim/trade/crop"
	"riddle/web/speak"
)

// UpdatesPerSecond is how often the page's engine asks for the steps that are
// due.
const UpdatesPerSecond = 60

// Speeds are the factors of simulated to real time that the page offers.
var Speeds = []float64{0.05, 0.1, 0.25, 0.5, 1, 2, 4, 8}

// Runner is one machine that runs, and how it came there. It is not safe for
// concurrent use.
type Runner struct {
	Run     *journal.Run
	Machine *sim.Machine // that of the run
	Snap    sim.Snapshot // what may be drawn, until the next step
	Record  trial.Record
	Log     Log
	Story   *story.Recorder
	Jumped  func() // told when the machine is elsewhere in time; who follows a kernel lets go

	Scene *Scene      // nil where the crop's own start was chosen
	Start setup.Setup // what Restore goes back to

	Running  bool
	Speed    float64 // simulated over real time, as asked for
	Begun    int     // how many machines there have been
	Revision int     // grows when controls or conditions change
	Notice   Notice

	past rewind.Ring[trial.Watch]
	due  float64 // steps owed, with their fraction
	pace pace
	warm int // ticks of the warm-up still to come
	fill int // ticks that it takes in all

	claimed *Claim // of a run that is played, or nil

	told      setup.Conditions
	toldPlace string
	sinceTold int // ticks since the page was told of conditions
}

// Notice is what is to be told once: a text, or what a change did that has
// settled.
type Notice struct {
	ID     int
	Text   *speak.Message
	Change *Change
}

// Tell has a text told once.
func (r *Runner) Tell(text *speak.Message) { r.Notice = Notice{ID: r.Notice.ID + 1, Text: text} }

// New returns a standing machine in the first crop.
func New() *Runner {
	r := &Runner{Speed: 1, Story: story.NewRecorder(), Jumped: func() {}}
	if err := r.Crop(crop.Names()[0]); err != nil {
		panic(err) // the crop is one of ours
	}
	return r
}

// Crop starts from a crop's own start.
func (r *Runner) Crop(name string) error {
	start, err := setup.Default(name)
	if err != nil {
		return err
	}
	if r.Machine != nil {
		start.Seed = r.Machine.Setup().Seed
	}
	return r.from(start, nil)
}

// Situation starts from a situation, or from the crop's own start where none is
// named.
func (r *Runner) Situation(name string) error {
	if name == "" {
		return r.Crop(r.Machine.Setup().Crop)
	}
	scene := findScene(name)
	if scene == nil {
		return &setup.Error{Field: "situation", Value: name, Want: "one of the list"}
	}
	start, err := scene.setup()
	if err != nil {
		return err
	}
	return r.from(start, scene)
}

// from chooses a crop or a situation to start from.
func (r *Runner) from(start setup.Setup, scene *Scene) error {
	if err := r.begin(scene.begin(start, start)); err != nil {
		return err
	}
	r.Start, r.Scene = start, scene
	r.Changed()
	return nil
}

// Place puts a machine that is set otherwise than its crop or situation starts to
// the edge of the field, and fills it. Conditions that are not those of the
// situation are the user's: its course leaves them alone. Where it cannot, all
// stays as it was.
func (r *Runner) Place(situation string, set setup.Setup) error {
	scene := findScene(situation)
	start, err := setup.Default(set.Crop)
	if err == nil && scene != nil {
		start, err = scene.setup()
	}
	if err != nil {
		return err
	}
	if err := r.begin(scene.begin(start, set)); err != nil {
		return err
	}
	r.Start, r.Scene = start, scene
	r.WarmUp(WarmTicks)
	r.Changed()
	return nil
}

// Beside puts a machine to where another one stands, set as is given.
func (r *Runner) Beside(other *Runner, set setup.Setup) error {
	start := other.Run.Again()
	start.Setup = set
	if err := r.begin(start); err != nil {
		return err
	}
	r.Start, r.Scene = other.Start, other.Scene
	return nil
}

// begin puts a new, empty machine at the edge of the field.
func (r *Runner) begin(start journal.Start) error {
	run, err := start.Begin()
	if err != nil {
		return err
	}
	r.put(run)
	return nil
}

// put puts a run in the place of what was there.
func (r *Runner) put(run *journal.Run) {
	r.Run, r.Machine, r.claimed = run, run.Machine, nil
	r.Begun++
	r.due, r.warm = 0, 0
	r.Story.Clear()
	r.Jumped()
	r.Tell(nil)
	r.Record.Clear(r.Machine)
	r.Log.clear(run, &r.Record)
	r.past.Clear()
	r.past.Keep(run, &r.Record.Watch)
	r.Changed()
}

// Changed lets the page know that settings or conditions are others.
func (r *Runner) Changed() {
	r.Revision++
	r.Machine.Snapshot(&r.Snap)
}

// tick makes one tick, unless the machine has plugged.
func (r *Runner) tick() {
	if r.Plugged() {
		return
	}
	r.playOn()
	r.Run.Step()
	r.follow()
	r.Record.Keep(r.Machine)
	r.past.Keep(r.Run, &r.Record.Watch)
	r.Story.Keep(r.Machine)
	if settled := r.Log.observe(); settled != nil {
		r.Notice = Notice{ID: r.Notice.ID + 1, Change: settled}
	}
	r.arrive()
}

// Plugged reports whether the machine has plugged.
func (r *Runner) Plugged() bool { return r.Run.Plugged() }

// SetSpeed sets how fast simulated time passes.
func (r *Runner) SetSpeed(v float64) error {
	if least, most := Speeds[0], Speeds[len(Speeds)-1]; !(v >= least && v <= most) {
		return &setup.Error{Field: "speed", Value: speak.Trim(v), Want: speak.Trim(least) + " to " + speak.Trim(most) + " times real time"}
	}
	r.Speed, r.due, r.pace.value = v, 0, v
	return nil
}
