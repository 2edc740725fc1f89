package bridge

import (
	"riddle/sim"
	"riddle/sim/setup"
	"riddle/web/reading"
	"riddle/web/runner"
	keep "riddle/web/share"
	"riddle/web/speak"
)

// kept is what a link or a file holds of the session: the machine as Reset
// would put it at the edge of the field.
func (s *Session) kept() keep.Kept {
	k := keep.Kept{Model: sim.Model, Setup: s.run.Run.Again().Setup, Price: s.ownPrice()}
	k.Setup.Stopped = 0
	if s.run.Scene != nil {
		k.Situation = s.run.Scene.Name
	}
	return k
}

// keptRun is the file of the run up to now, with the long window as the page
// reads it.
func (s *Session) keptRun() ([]byte, error) {
	w := s.read().Window(reading.LongWindow)
	k := keep.RanOf(s.run.Run, w.Window())
	k.Price = s.ownPrice()
	return k.File()
}

// openLink opens what the fragment of a link holds.
func (s *Session) openLink(text string) error {
	k, err := keep.ReadLink(text)
	if err != nil {
		return err
	}
	return s.open(k)
}

// openFile opens what the text of a file holds.
func (s *Session) openFile(text string) error {
	if keep.IsRun([]byte(text)) {
		return s.openRun(text, nil)
	}
	k, err := keep.ReadFile([]byte(text))
	if err != nil {
		return err
	}
	return s.open(k)
}

// open puts a machine that is set as was kept at the edge of the field, and
// fills it. Where it cannot, all stays as it was.
func (s *Session) open(k keep.Kept) error {
	if err := s.run.Place(k.Situation, k.Setup); err != nil {
		return err
	}
	s.priced(k.Price)
	s.brought = k.Second
	if k.Model != "" && k.Model != sim.Model {
		s.run.Tell(speak.Say("keep.laws", speak.With{"theirs": k.Model, "ours": sim.Model}))
	}
	return nil
}

// openRun opens the file of a run: the machine begins as it did then, everything
// is done to it again, and it stands where the run ended. Where the file cannot
// be read, all stays as it was. Then is called at its end, where it is not for the
// user to be told.
func (s *Session) openRun(text string, then func(same bool)) error {
	k, err := keep.ReadRun([]byte(text))
	if err != nil {
		return err
	}
	if err := s.run.Play(k.Journal, runner.Claim{Ticks: k.Ticks, Digest: k.Digest, Then: then}); err != nil {
		return err
	}
	s.priced(k.Price)
	s.brought, s.playing = nil, k
	return nil
}

// fault says what was wrong with a link or a file.
func (s *Session) fault(e *keep.Error) *speak.Message {
	f := setup.Find(e.Field)
	if e.Code == keep.None {
		return speak.Say("keep.fault.none", speak.With{"name": speak.Say("field." + e.Field), "crop": speak.Say("crop." + e.Value)})
	}
	if e.Code == keep.Value && f != nil && !f.Switch() {
		from, to := s.units().Value(f, f.From), s.units().Value(f, f.To)
		return speak.Say("keep.fault.range", speak.With{"name": speak.Say("field." + f.Name), "value": e.Value, "from": from, "to": to})
	}
	return speak.Say("keep.fault."+string(e.Code), speak.With{"field": e.Field, "value": e.Value, "want": e.Want})
}
