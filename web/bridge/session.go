// Package bridge joins the page to the machine. The page sends messages and gets
// answers (messages.go lists them all); the machine tells how it stands. The work
// is done in packages of their own: web/runner runs the machine, web/reading reads
// it, web/curve computes the curve of a setting, web/follow follows a kernel,
// web/view is how the machine is looked at, web/controls is what can be set, and
// web/speak has the words. Whatever is known about the trade comes from there; the
// script only displays and sends.
package bridge

import (
	"fmt"
	"slices"
	"strings"

	"riddle/sim"
	"riddle/sim/setup"
	"riddle/sim/trade/quantity"
	"riddle/web/controls"
	"riddle/web/curve"
	"riddle/web/follow"
	"riddle/web/reading"
	"riddle/web/runner"
	keep "riddle/web/share"
	"riddle/web/speak"
)

// Session is one machine on the page, with what is read of it. It is not safe for
// concurrent use.
type Session struct {
	run   *runner.Runner
	ride  follow.Ride
	curve curve.Hand

	system  quantity.System
	price   float64         // of a bushel of the crop
	brought *setup.Settings // of a second machine, by a link or a file
	playing keep.Ran        // while a run that was kept is being played
	coming  *Standing       // to which it comes back, where it was not opened but had to be made again, or nil
}

// systems of units are offered in this order.
var systems = []quantity.System{quantity.Metric, quantity.Customary}

// NewSession returns a standing machine in the first crop.
func NewSession() *Session {
	s := &Session{run: runner.New(), system: quantity.Metric}
	s.ride = follow.Ride{Record: s.run.Story, Snap: &s.run.Snap}
	s.run.Jumped = func() { s.ride.Off() }
	s.priced(0)
	return s
}

// fork returns a second session at the same moment.
func (s *Session) fork() *Session {
	c := NewSession()
	s.run.Fork(c.run)
	c.system, c.price = s.system, s.price
	return c
}

// priced takes the price that was kept, or the crop's own.
func (s *Session) priced(kept float64) {
	if s.price = kept; kept == 0 {
		s.price = reading.PriceOf(s.crop())
	}
}

// ownPrice is the price where somebody has set it, and 0 where it is the crop's
// own.
func (s *Session) ownPrice() float64 {
	if s.price == reading.PriceOf(s.crop()) {
		return 0
	}
	return s.price
}

func (s *Session) crop() string { return s.run.Machine.Crop().Name }

func (s *Session) units() speak.Units { return speak.Units{System: s.system, Crop: s.crop()} }

// wording says in words how a machine stands and what was done to it.
type wording struct {
	run   *runner.Runner
	units speak.Units
}

func (s *Session) words() wording { return wording{s.run, s.units()} }

// read returns who reads the machine.
func (s *Session) read() reading.Reader {
	return reading.Reader{Record: &s.run.Record, Units: s.units(), Price: s.price}
}

// Curve returns the curve of a setting as far as it is worked out.
func (s *Session) Curve(name string) *curve.Curve {
	return s.curve.Curve(name, &curve.Machine{Now: s.run.Machine.Setup(), Start: s.run.Start, Near: s.run.Near, Reader: s.read()})
}

// Snapshot returns what may be drawn, until the next step.
func (s *Session) Snapshot() *sim.Snapshot { return &s.run.Snap }

// Update makes the steps that one update of the engine brings, until spent
// reports that the frame's time is used up.
func (s *Session) Update(spent func() bool) (steps int) { return s.team().Update(spent) }

// set reads what is put in for a setting, in the units of the page where it has
// none.
func (s *Session) set(name, text string) error {
	f := setup.Find(name)
	if f == nil {
		return &setup.Error{Field: name, Value: text, Want: "a setting or condition of the machine"}
	}
	to := s.run.Machine.Setup()
	if _, err := quantity.Number(text); err == nil {
		text += " " + s.system.Scale(f.Unit, to.Crop).Unit
	}
	from := f.Get(&to)
	if err := f.Read(&to, strings.TrimSpace(text)); err != nil {
		return err
	}
	if f.Get(&to) == from {
		return nil
	}
	return s.run.ChangeTo(to)
}

// nudge moves a setting to its next step, up or down.
func (s *Session) nudge(name string, up bool) error {
	f := setup.Find(name)
	if f == nil || f.Switch() {
		return &setup.Error{Field: name, Value: "a step", Want: "a setting or condition with steps"}
	}
	now := s.run.Machine.Setup()
	return s.set(name, controls.Next(f, &now, s.system, up))
}

func (s *Session) setUnits(name string) error {
	if !slices.Contains(systems, quantity.System(name)) {
		return &setup.Error{Field: "units", Value: name, Want: fmt.Sprint("one of ", systems)}
	}
	s.system = quantity.System(name)
	s.run.Changed()
	return nil
}

// setPrice takes the price for a unit in which grain is sold.
func (s *Session) setPrice(v float64) (err error) {
	price, err := s.read().PerBushel(v)
	if err == nil {
		s.price = price
		s.run.Changed() // it is kept
	}
	return err
}

func (s *Session) setSeed(text string) error {
	var seed uint64
	if _, err := fmt.Sscanf(text, "%d", &seed); err != nil || fmt.Sprint(seed) != text {
		return &setup.Error{Field: "seed", Value: text, Want: "a whole number from 0 to 18446744073709551615"}
	}
	return s.run.Again(seed)
}

// team is the machine alone.
func (s *Session) team() runner.Team { return runner.Team{s.run} }

// begun takes up the price of a crop that was begun with.
func (s *Session) begun(err error) error {
	if err == nil {
		s.priced(0)
	}
	return err
}

// rideTo shows the kernel that is followed where it was; then the machine stands.
func (s *Session) rideTo(tick float64) error {
	err := s.ride.To(tick)
	if err == nil && !s.ride.Live() {
		s.run.Running = false
	}
	return err
}
