package bridge

import (
	"reflect"

	keep "riddle/web/share"
)

// openRun opens the file of a run: the machine begins as it did then, everything
// is done to it again, and it stands where the run ended. Where the file cannot
// be read, all stays as it was.
func (s *Session) openRun(text string) error {
	k, err := keep.ReadRun([]byte(text))
	if err != nil {
		return err
	}
	run, err := k.Journal.Play()
	if err != nil {
		return err
	}
	start := run.Start()
	scene := findSituation(start.Situation)
	if scene != nil && (scene.Crop != start.Setup.Crop || !reflect.DeepEqual(scene.course, start.Course)) {
		scene = nil // of that name, but another field
	}
	s.put(run)
	s.start, s.scene, s.brought = start.From, scene, nil
	s.priced(k.Price)
	s.start.Seed = start.Setup.Seed
	s.running, s.claimed = false, &k
	s.warmUp(int(k.Ticks))
	s.changedSetup()
	s.arrive()
	return nil
}

// playOn carries out what a journal that is played says of this tick, and
// writes it into the log, unless it stands there already.
func (s *Session) playOn() {
	if !s.run.Next() {
		return
	}
	was, first := s.machine.Setup(), len(s.run.Commands())
	s.run.Due()
	for i := first; i < len(s.run.Commands()); i++ {
		c := s.run.Command(i)
		if c.Field == nil {
			continue
		}
		from := c.Field.Get(&was)
		if n := len(s.changes); n == 0 || s.changes[n-1].last < i {
			s.note(i, c.Field, from)
		}
		if err := c.Field.Set(&was, c.Value); err != nil {
			panic(err) // the machine has taken it
		}
	}
	s.revision++
}

// arrive tells, where the run of a file has come to its end, whether that is the
// one that the file claims.
func (s *Session) arrive() {
	k := s.claimed
	if k == nil || s.machine.Tick() < k.Ticks && !s.plugged() {
		return
	}
	s.playOn()
	s.claimed = nil
	same := s.machine.Tick() == k.Ticks && s.machine.Digest() == k.Digest
	if s.coming != nil {
		s.cameBack(same)
		return
	}
	s.warm = 0
	if same {
		s.tell(say("keep.run.same"))
	} else {
		s.tell(say("keep.run.altered"))
	}
}
