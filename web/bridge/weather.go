package bridge

import (
	"fmt"
	"math"
	"strconv"

	"riddle/sim/trade/quantity"
	"riddle/web/speak"
)

// weather says the day of the situation, and what it is now where it changes.
func (w wording) weather() *speak.Message {
	if w.run.Scene == nil {
		return nil
	}
	start := speak.Say("weather", speak.With{
		"words": speak.Say("situation." + w.run.Scene.Name + ".weather"), "t": w.units.Of(w.run.Scene.Temperature, quantity.Temperature), "rh": speak.Plain(w.run.Scene.Humidity, 0),
	})
	course := w.run.Run.Start().Course
	if course == nil {
		return start
	}
	var now []*speak.Message
	if hour, air, ok := w.run.Run.Progress.Air(w.run.Machine); ok {
		minutes := math.Floor(hour * 60)
		now = append(now, speak.Say("weather.hour", speak.With{
			"time": fmt.Sprintf("%d:%02d", int(minutes)/60, int(minutes)%60), "t": w.units.Of(air.T, quantity.Temperature), "rh": speak.Plain(100*air.RH, 0),
			"pace": speak.Plain(course.Day.Pace, 0),
		}))
	}
	if len(course.Stretches) > 0 {
		now = append(now, w.place())
	}
	return speak.Say("weather.way", speak.With{"weather": start, "now": now})
}

// place names the stretch in which the cutter bar is.
func (w wording) place() *speak.Message {
	course, name := w.run.Run.Start().Course, w.run.Run.Progress.Place(w.run.Machine)
	for i := range course.Stretches {
		if course.Stretches[i].Name == name {
			return speak.Say("situation." + w.run.Scene.Name + ".along." + strconv.Itoa(i))
		}
	}
	return speak.Say("weather.open")
}
