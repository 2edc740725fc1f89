package bridge

import (
	"errors"

	"riddle/render"
	"riddle/web/follow"
	"riddle/web/runner"
	"riddle/web/speak"
)

// Standing is how the machines stand, and how they are looked at. The page takes
// it when the frame has to load itself anew, as it does after a browser has taken
// the graphics away, and gives it to the new frame.
type Standing struct {
	Runs    []string       `json:"runs"` // files of the runs: of the machine, and of a second one; none where they cannot be kept
	Link    string         `json:"link"` // what is set, for that case
	Units   string         `json:"units"`
	Speed   float64        `json:"speed"`
	Running bool           `json:"running"`
	Warm    int            `json:"warm"`   // ticks of the warm-up still to come
	Notice  int            `json:"notice"` // number of the last one that was told
	Ride    *follow.Riding `json:"ride,omitempty"`
	Zone    string         `json:"zone"`
	Frame   render.Rect    `json:"frame"` // to which the view was moved; empty is the zone
}

// standing is how the session stands, or the pair of which it is the first.
func (s *Session) standing(pair *Pair) Standing {
	st := Standing{
		Units: string(s.system), Speed: s.run.Speed, Running: s.run.Running, Warm: s.run.Left(), Notice: s.run.Notice.ID, Runs: []string{}, Ride: s.ride.Riding(),
	}
	k, all := s.kept(), []*Session{s}
	if pair != nil {
		k, all = pair.kept(), append(all, pair.Second)
	}
	st.Link = k.Link()
	for _, one := range all {
		text, err := one.wholeRun()
		if err != nil {
			st.Runs = []string{}
			break
		}
		st.Runs = append(st.Runs, string(text))
		if one.run.Playing() && one.coming != nil { // taken away once more on the way
			st.Warm = one.coming.Warm
		}
	}
	if s.run.Playing() && s.coming != nil {
		st.Ride = s.coming.Ride
	}
	return st
}

// wholeRun is the file of the run, or of the one that is being played, to its
// end.
func (s *Session) wholeRun() ([]byte, error) {
	if !s.run.Playing() {
		return s.keptRun()
	}
	k := s.playing
	k.Price = s.ownPrice()
	return k.File()
}

// comeBack brings the machines back to where they stood, by their journals: they
// are filled up to there. The second is nil where there is one. Where a run could
// not be kept the machine begins again as it was set.
func (s *Session) comeBack(st Standing) (pair *Pair, err error) {
	s.run.Notice.ID = st.Notice
	if len(st.Runs) > 0 {
		pair, err = s.playAgain(st)
	}
	if len(st.Runs) == 0 || err != nil {
		pair, err = s.beginAgain(st.Link)
	}
	if err == nil && s.setUnits(st.Units) == nil {
		err = s.run.SetSpeed(st.Speed)
	}
	s.run.Running = st.Running
	if pair != nil {
		pair.follow()
	}
	return pair, err
}

// beginAgain begins as a link holds it; without one nothing had been set.
func (s *Session) beginAgain(link string) (pair *Pair, err error) {
	if link == "" {
		s.run.WarmUp(runner.WarmTicks)
		return nil, nil
	}
	if err := s.openLink(link); err != nil {
		return nil, err
	}
	if settings := s.brought; settings != nil {
		s.brought = nil
		if pair, err = NewPair(s, settings); err != nil {
			return nil, err
		}
	}
	s.run.Tell(speak.Say("lost.anew"))
	return pair, nil
}

func (s *Session) playAgain(st Standing) (pair *Pair, err error) {
	if len(st.Runs) > 2 {
		return nil, errors.New("there are at most two machines")
	}
	s.coming = &st
	if err := s.openRun(st.Runs[0], s.cameBack); err != nil {
		return nil, err
	}
	ticks := s.run.Left()
	if len(st.Runs) == 2 {
		pair = &Pair{First: s, Second: NewSession(), begun: s.run.Begun}
		pair.Second.coming = &Standing{Warm: st.Warm}
		if err := pair.Second.openRun(st.Runs[1], pair.Second.cameBack); err != nil {
			return nil, err
		}
		ticks = max(ticks, pair.Second.run.Left())
	}
	s.run.WarmUp(ticks + min(max(st.Warm, 0), runner.WarmTicks))
	if s.run.Playing() {
		s.run.Tell(speak.Say("lost.coming"))
	}
	return pair, nil
}

// cameBack is told when a run that was made again has come to where it stood.
func (s *Session) cameBack(same bool) {
	st := s.coming
	s.coming = nil
	key := "lost.other"
	if same {
		key = "lost.back"
	}
	s.run.Tell(speak.Say(key))
	if st.Ride == nil || !same {
		return
	}
	s.run.Machine.Snapshot(&s.run.Snap)
	s.ride.Take(st.Ride)
}
