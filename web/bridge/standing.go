package bridge

import (
	"encoding/json"
	"errors"

	"riddle/render"
)

// Standing is how the machines stand, and how they are looked at. The page takes
// it when the frame has to load itself anew, as it does after a browser has taken
// the graphics away, and gives it to the new frame.
type Standing struct {
	Runs    []string    `json:"runs"` // files of the runs: of the machine, and of a second one; none where they cannot be kept
	Link    string      `json:"link"` // what is set, for that case
	Units   string      `json:"units"`
	Speed   float64     `json:"speed"`
	Running bool        `json:"running"`
	Warm    int         `json:"warm"`   // ticks of the warm-up still to come
	Notice  int         `json:"notice"` // number of the last one that was told
	Ride    *Riding     `json:"ride,omitempty"`
	Zone    string      `json:"zone"`
	Frame   render.Rect `json:"frame"` // to which the view was moved; empty is the zone
}

// Riding is the kernel that is followed.
type Riding struct {
	ID   uint32 `json:"id"`
	Live bool   `json:"live"`
	At   int64  `json:"at"`
}

// standing is how the session stands, or the pair of which it is the first.
func (s *Session) standing(pair *Pair) Standing {
	st := Standing{Units: string(s.units), Speed: s.speed, Running: s.running, Warm: max(s.warm, 0), Notice: s.notice.id, Runs: []string{}}
	if r := &s.ride; r.on {
		st.Ride = &Riding{r.id, r.live, r.at}
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
		if one.coming != nil { // taken away once more on the way
			st.Warm = one.coming.Warm
		}
	}
	if s.coming != nil {
		st.Ride = s.coming.Ride
	}
	return st
}

// wholeRun is the file of the run, or of the one that is being played, to its
// end.
func (s *Session) wholeRun() ([]byte, error) {
	if s.claimed == nil {
		return s.keptRun()
	}
	k := *s.claimed
	k.Price = s.ownPrice()
	return k.File()
}

// comeBack brings the machines back to where they stood, by their journals: they
// are filled up to there. The second is nil where there is one. Where a run could
// not be kept the machine begins again as it was set.
func (s *Session) comeBack(st Standing) (pair *Pair, err error) {
	s.notice.id = st.Notice
	if len(st.Runs) > 0 {
		pair, err = s.playAgain(st)
	}
	if len(st.Runs) == 0 || err != nil {
		pair, err = s.beginAgain(st.Link)
	}
	if err == nil && s.setUnits(st.Units) == nil {
		err = s.setSpeed(st.Speed)
	}
	s.running = st.Running
	if pair != nil {
		pair.follow()
	}
	return pair, err
}

// beginAgain begins as a link holds it; without one nothing had been set.
func (s *Session) beginAgain(link string) (pair *Pair, err error) {
	if link == "" {
		s.warmUp(warmTicks)
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
	s.tell(say("lost.anew"))
	return pair, nil
}

func (s *Session) playAgain(st Standing) (pair *Pair, err error) {
	if len(st.Runs) > 2 {
		return nil, errors.New("there are at most two machines")
	}
	if err := s.openRun(st.Runs[0]); err != nil {
		return nil, err
	}
	ticks := s.warm
	if len(st.Runs) == 2 {
		pair = &Pair{First: s, Second: NewSession(), begun: s.begun}
		if err := pair.Second.openRun(st.Runs[1]); err != nil {
			return nil, err
		}
		ticks = max(ticks, pair.Second.warm)
		pair.Second.coming = &Standing{Warm: st.Warm}
	}
	s.coming = &st
	s.warmUp(ticks + min(max(st.Warm, 0), warmTicks))
	s.tell(say("lost.coming"))
	s.arrive()
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
	s.tell(say(key))
	if st.Ride == nil || !same {
		return
	}
	s.machine.Snapshot(&s.snap)
	s.rideOn(st.Ride.ID)
	if !st.Ride.Live {
		s.ride.live, s.ride.at = false, st.Ride.At
	}
}

// standAgain reads a Standing and comes back to it.
func (s *Session) standAgain(text string) (*Pair, Standing, error) {
	var st Standing
	if err := json.Unmarshal([]byte(text), &st); err != nil {
		return nil, st, err
	}
	pair, err := s.comeBack(st)
	return pair, st, err
}

// ownPrice is the price where somebody has set it, and 0 where it is the crop's
// own.
func (s *Session) ownPrice() float64 {
	if s.price == priceOf(s.machine.Crop().Name) {
		return 0
	}
	return s.price
}

// priced takes the price that was kept, or the crop's own.
func (s *Session) priced(kept float64) {
	if s.price = kept; kept == 0 {
		s.price = priceOf(s.machine.Crop().Name)
	}
}
