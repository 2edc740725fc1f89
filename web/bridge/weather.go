package bridge

import (
	"fmt"
	"math"
	"strconv"

	"riddle/sim/quantity"
	"riddle/web/speak"
)

// weather says the day of the situation, and what it is now where it changes.
func (s *Session) weather() *speak.Message {
	if s.run.Scene == nil {
		return nil
	}
	start := speak.Say("weather", speak.With{
		"words": speak.Say("situation." + s.run.Scene.Name + ".weather"), "t": s.units().Of(s.run.Scene.Temperature, quantity.Temperature), "rh": speak.Plain(s.run.Scene.Humidity, 0),
	})
	course := s.run.Run.Start().Course
	if course == nil {
		return start
	}
	var now []*speak.Message
	if hour, air, ok := s.run.Run.Drive.Air(s.run.Machine); ok {
		minutes := math.Floor(hour * 60)
		now = append(now, speak.Say("weather.hour", speak.With{
			"time": fmt.Sprintf("%d:%02d", int(minutes)/60, int(minutes)%60), "t": s.units().Of(air.T, quantity.Temperature), "rh": speak.Plain(100*air.RH, 0),
			"pace": speak.Plain(course.Day.Pace, 0),
		}))
	}
	if len(course.Stretches) > 0 {
		now = append(now, s.place())
	}
	return speak.Say("weather.way", speak.With{"weather": start, "now": now})
}

// place names the stretch in which the cutter bar is.
func (s *Session) place() *speak.Message {
	course, name := s.run.Run.Start().Course, s.run.Run.Drive.Place(s.run.Machine)
	for i := range course.Stretches {
		if course.Stretches[i].Name == name {
			return speak.Say("situation." + s.run.Scene.Name + ".along." + strconv.Itoa(i))
		}
	}
	return speak.Say("weather.open")
}
