package runner

import (
	"fmt"

	"riddle/sim"
	"riddle/sim/setup"
	"riddle/web/speak"
)

// Team is one machine, or several that are stepped in turn tick by tick. All go
// at the pace of the first.
type Team []*Runner

// Update makes the steps that one update of the engine brings, of all alike. It
// stops early and forgets the rest when spent reports that the frame's time is
// used up: then the machines run slower than asked for, never differently.
func (t Team) Update(spent func() bool) (steps int) {
	first := t[0]
	if first.warm > 0 && !t.plugged() {
		steps = t.Ticks(first.warm, spent)
		first.warm -= steps
		t.Follow()
		return steps
	}
	if !first.Running || t.plugged() {
		return 0
	}
	first.due += first.Speed * sim.TickHz / UpdatesPerSecond
	whole := int(first.due)
	first.due -= float64(whole)
	steps = t.Ticks(whole, spent)
	first.pace.add(float64(steps) * UpdatesPerSecond / sim.TickHz)
	t.Follow()
	return steps
}

// Ticks makes a number of ticks, or fewer if all machines have plugged or stop
// says so, and returns how many.
func (t Team) Ticks(n int, stop func() bool) (made int) {
	for made < n && !t.plugged() && !stop() {
		for _, r := range t {
			r.tick()
		}
		made++
	}
	for _, r := range t {
		r.Machine.Snapshot(&r.Snap)
	}
	return made
}

// Steps makes a number of ticks at once, one if none is named.
func (t Team) Steps(n float64) error {
	if n == 0 {
		n = 1
	}
	if !(n >= 1 && n <= mostSteps) {
		return &setup.Error{Field: "step", Value: speak.Trim(n), Want: fmt.Sprintf("1 to %d ticks", mostSteps)}
	}
	t.Ticks(int(n), func() bool { return false })
	return nil
}

// mostSteps bounds what one command may step: ten minutes of simulated time.
const mostSteps = 600 * sim.TickHz

// Follow brings to all what is not of a machine: whether it runs, and how fast.
func (t Team) Follow() {
	first := t[0]
	for _, r := range t[1:] {
		r.Running, r.Speed, r.warm, r.pace = first.Running, first.Speed, first.warm, first.pace
	}
}

// plugged reports whether nothing moves any more. Where one has plugged the
// others go on.
func (t Team) plugged() bool {
	for _, r := range t {
		if !r.Plugged() {
			return false
		}
	}
	return true
}

// WarmUp has the machine run for a number of ticks as fast as it can be computed.
func (r *Runner) WarmUp(ticks int) { r.warm, r.fill = ticks, ticks }

// WarmTicks is how long a machine is run to be full of crop and steady: the way
// through it takes some 15 s, and the short window another 10 s.
const WarmTicks = 25 * sim.TickHz

// Warming reports whether the machine is being filled, as fast as it can be
// computed, before it is handed to the user.
func (r *Runner) Warming() bool { return r.warm > 0 && !r.Plugged() }

// Left is how many ticks of the filling are still to come.
func (r *Runner) Left() int { return max(r.warm, 0) }

// WarmShare is how much of the filling is done; 1 when it is over.
func (r *Runner) WarmShare() float64 {
	if !r.Warming() {
		return 1
	}
	return 1 - float64(r.warm)/float64(max(r.fill, 1))
}

// Behind reports whether the machine runs slower than asked for.
func (r *Runner) Behind() bool { return r.Running && !r.Plugged() && r.pace.value < 0.9*r.Speed }

// Pace is the speed that is really reached.
func (r *Runner) Pace() float64 { return r.pace.value }

// pace is the speed that was really reached, evened out over about a second.
type pace struct{ value float64 }

func (p *pace) add(v float64) { p.value += (v - p.value) / UpdatesPerSecond }
