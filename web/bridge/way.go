package bridge

import (
	"fmt"
	"math"
	"strconv"

	"riddle/sim"
	"riddle/sim/setup"
	"riddle/sim/trade/quantity"
)

// follow tells the page, once a simulated second, where conditions have changed
// by where and when the machine is.
func (s *Session) follow() {
	s.sinceTold++
	if s.sinceTold < sim.TickHz {
		return
	}
	s.sinceTold = 0
	if place, now := s.run.Drive.Place(s.machine), s.machine.Setup().Conditions; now != s.told || place != s.toldPlace {
		s.told, s.toldPlace = now, place
		s.revision++
	} else if _, _, day := s.run.Drive.Air(s.machine); day {
		s.revision++
	}
}

// again puts a new machine at the edge of the field that was started from, and
// leaves what the user has set.
func (s *Session) again(seed uint64) error {
	start := s.run.Again()
	start.Setup.Seed = seed
	return s.begin(start)
}

// restore brings settings and conditions back to the start, where the course
// takes its own up again.
func (s *Session) restore() error {
	to, now := s.start, s.machine.Setup()
	to.Seed = now.Seed
	if err := s.run.Release(); err != nil {
		return err
	}
	for i := range setup.Fields {
		if f := &setup.Fields[i]; s.run.Drive.Moves(f.Name) {
			if err := f.Set(&to, f.Get(&now)); err != nil {
				return err
			}
		}
	}
	return s.changeTo(to)
}

// near returns the present setup with what the course has moved by less than a
// step as it was in base: so little does not make another machine.
func (s *Session) near(base setup.Setup) setup.Setup {
	now := s.machine.Setup()
	for i := range setup.Fields {
		f := &setup.Fields[i]
		if s.run.Drive.Moves(f.Name) && math.Abs(f.Get(&now)-f.Get(&base)) < f.Step {
			if err := f.Set(&now, f.Get(&base)); err != nil {
				return s.machine.Setup() // base is of another crop
			}
		}
	}
	return now
}

// weather says the day of the situation, and what it is now where it changes.
func (s *Session) weather() *Message {
	if s.scene == nil {
		return nil
	}
	start := say("weather", With{
		"words": say("situation." + s.scene.Name + ".weather"), "t": s.qv(s.scene.temperature, quantity.Temperature), "rh": plain(s.scene.humidity, 0),
	})
	course := s.run.Start().Course
	if course == nil {
		return start
	}
	var now []*Message
	if hour, air, ok := s.run.Drive.Air(s.machine); ok {
		minutes := math.Floor(hour * 60)
		now = append(now, say("weather.hour", With{
			"time": fmt.Sprintf("%d:%02d", int(minutes)/60, int(minutes)%60), "t": s.qv(air.T, quantity.Temperature), "rh": plain(100*air.RH, 0),
			"pace": plain(course.Day.Pace, 0),
		}))
	}
	if len(course.Stretches) > 0 {
		now = append(now, s.place())
	}
	return say("weather.way", With{"weather": start, "now": now})
}

// place names the stretch in which the cutter bar is.
func (s *Session) place() *Message {
	course, name := s.run.Start().Course, s.run.Drive.Place(s.machine)
	for i := range course.Stretches {
		if course.Stretches[i].Name == name {
			return say("situation." + s.scene.Name + ".along." + strconv.Itoa(i))
		}
	}
	return say("weather.open")
}
