package bridge

import (
	"encoding/json"
	"fmt"

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
	k := keep.Kept{Model: sim.Model, Setup: s.run.Run.Again().Setup}
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
		return s.openRun(text)
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
	s.reprice()
	s.brought = k.Second
	if k.Model != "" && k.Model != sim.Model {
		s.run.Tell(speak.Say("keep.laws", speak.With{"theirs": k.Model, "ours": sim.Model}))
	}
	return nil
}

// openRun opens the file of a run: the machine begins as it did then, everything
// is done to it again, and it stands where the run ended. Where the file cannot
// be read, all stays as it was.
func (s *Session) openRun(text string) error {
	k, err := keep.ReadRun([]byte(text))
	if err != nil {
		return err
	}
	if err := s.run.Play(k.Journal, runner.Claim{Ticks: k.Ticks, Digest: k.Digest}); err != nil {
		return err
	}
	s.reprice()
	s.brought = nil
	return nil
}

// fault says what was wrong with a link or a file.
func (s *Session) fault(e *keep.Error) *speak.Message {
	f := setup.Find(e.Field)
	if e.Code == keep.Value && f != nil && !f.Switch() {
		from, to := s.units().Value(f, f.From), s.units().Value(f, f.To)
		return speak.Say("keep.fault.range", speak.With{"name": speak.Say("field." + f.Name), "value": e.Value, "from": from, "to": to})
	}
	return speak.Say("keep.fault."+string(e.Code), speak.With{"field": e.Field, "value": e.Value, "want": e.Want})
}

// remembered is what the page remembers of a machine, for one that has to start anew.
type remembered struct {
	Link  string  `json:"link"` // of both machines where there are two
	Units string  `json:"units"`
	Speed float64 `json:"speed"`
}

// resume brings a machine that had to start anew to what is remembered.
func (s *Session) resume(text string) error {
	var m remembered
	if err := json.Unmarshal([]byte(text), &m); err != nil {
		return fmt.Errorf("what is remembered is not understood: %w", err)
	}
	if err := s.openLink(m.Link); err != nil {
		return err
	}
	if err := s.setUnits(m.Units); err != nil {
		return err
	}
	return s.run.SetSpeed(m.Speed)
}
