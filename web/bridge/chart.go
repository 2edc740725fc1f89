package bridge

import "riddle/sim/run/trial"

// Chart is the readings over time, for the strip chart: a point for each
// second of simulated time.
type Chart struct {
	Now     float64      `json:"now"` // s after the first tick
	Points  []ChartPoint `json:"points"`
	Changes []Change     `json:"changes"`
}

// ChartPoint is what was read over the short window before a moment, %.
type ChartPoint struct {
	At     float64        `json:"at"`
	Loss   [rows]*float64 `json:"loss"` // in the order of the table of losses
	Broken *float64       `json:"broken"`
}

// Chart reads the record after a moment.
func (s *Session) Chart(after float64) Chart {
	c := Chart{Now: s.machine.Seconds(), Points: []ChartPoint{}, Changes: s.Changes()}
	for i := max(s.log.oldest(), s.log.kept-recall); i < s.log.kept; i++ {
		if end := s.log.at(i); end.Seconds > after && end.Seconds > 0 {
			c.Points = append(c.Points, s.point(end))
		}
	}
	return c
}

func (s *Session) point(end *trial.Mark) ChartPoint {
	w := s.until(end, shortWindow)
	return ChartPoint{At: end.Seconds, Loss: w.losses().value, Broken: w.report.Tank.Broken}
}
