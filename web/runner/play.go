package runner

import (
	"reflect"

	"riddle/sim/run/journal"
	"riddle/web/speak"
)

// Claim is what is said of the end of a run that is played.
type Claim struct {
	Ticks  int64
	Digest string
	Then   func(same bool) // called at the end instead of telling the user, or nil
}

// Play begins a machine as a run began, and does everything to it again. It
// stands where the run ended, and then says whether that is what was claimed.
func (r *Runner) Play(j journal.Journal, claim Claim) error {
	run, err := j.Play()
	if err != nil {
		return err
	}
	start := run.Start()
	scene := findScene(start.Situation)
	if scene != nil && (scene.Crop != start.Setup.Crop || !reflect.DeepEqual(scene.course, start.Course)) {
		scene = nil // of that name, but another field
	}
	r.put(run)
	r.Start, r.Scene = start.From, scene
	r.Start.Seed = start.Setup.Seed
	r.Running, r.claimed = false, &claim
	r.WarmUp(int(claim.Ticks))
	r.Changed()
	r.arrive()
	return nil
}

// Playing reports whether a run that was kept is being played.
func (r *Runner) Playing() bool { return r.claimed != nil }

// playOn carries out what a journal that is played says of this tick, and
// writes it into the log, unless it stands there already.
func (r *Runner) playOn() {
	if !r.Run.Next() {
		return
	}
	was, first := r.Machine.Setup(), len(r.Run.Commands())
	r.Run.Due()
	for i := first; i < len(r.Run.Commands()); i++ {
		c := r.Run.Command(i)
		if c.Field == nil {
			continue
		}
		from := c.Field.Get(&was)
		if !r.Log.holds(i) {
			r.Log.note(i, c.Field, from)
		}
		if err := c.Field.Set(&was, c.Value); err != nil {
			panic(err) // the machine has taken it
		}
	}
	r.Revision++
}

// arrive tells, where the run of a file has come to its end, whether that is the
// one that the file claims.
func (r *Runner) arrive() {
	k := r.claimed
	if k == nil || r.Machine.Tick() < k.Ticks && !r.Plugged() {
		return
	}
	r.playOn()
	r.claimed = nil
	same := r.Machine.Tick() == k.Ticks && r.Machine.Digest() == k.Digest
	if k.Then != nil {
		k.Then(same)
		return
	}
	r.warm = 0
	if same {
		r.Tell(speak.Say("keep.run.same"))
	} else {
		r.Tell(speak.Say("keep.run.altered"))
	}
}
