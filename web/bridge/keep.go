package bridge

import (
	"math"

	"riddle/sim"
	"riddle/sim/run/trial"
	"riddle/sim/setup"
	keep "riddle/web/share"
)

// kept is what a link or a file holds of the session: the machine as Reset
// would put it at the edge of the field.
func (s *Session) kept() keep.Kept {
	k := keep.Kept{Model: sim.Model, Setup: s.run.Again().Setup}
	k.Setup.Stopped = 0
	if s.scene != nil {
		k.Situation = s.scene.Name
	}
	return k
}

// keptRun is the file of the run up to now, with the long window as the page
// reads it.
func (s *Session) keptRun() ([]byte, error) {
	from := s.window(longWindow).before.Seconds
	k := keep.RanOf(s.run, trial.Window{From: int64(math.Round(from * sim.TickHz)), To: s.machine.Tick()})
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
// fills it. Conditions that are not those of the situation are the user's: its
// course leaves them alone. Where it cannot, all stays as it was.
func (s *Session) open(k keep.Kept) error {
	scene := findSituation(k.Situation)
	start, err := setup.Default(k.Setup.Crop)
	if err == nil && scene != nil {
		start, err = scene.setup()
	}
	if err != nil {
		return err
	}
	if err := s.begin(scene.begin(start, k.Setup)); err != nil {
		return err
	}
	s.start, s.scene, s.price = start, scene, priceOf(start.Crop)
	s.warmUp(warmTicks)
	s.brought = k.Second
	s.changedSetup()
	if k.Model != "" && k.Model != sim.Model {
		s.tell(say("keep.laws", With{"theirs": k.Model, "ours": sim.Model}))
	}
	return nil
}

// fault says what was wrong with a link or a file.
func (s *Session) fault(e *keep.Error) *Message {
	f := setup.Find(e.Field)
	if e.Code == keep.Value && f != nil && !f.Switch() {
		from, to := s.valueOf(f, f.From), s.valueOf(f, f.To)
		return say("keep.fault.range", With{"name": say("field." + f.Name), "value": e.Value, "from": from, "to": to})
	}
	return say("keep.fault."+string(e.Code), With{"field": e.Field, "value": e.Value, "want": e.Want})
}
