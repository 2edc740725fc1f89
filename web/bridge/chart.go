package bridge

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
	oldest := max(0, s.log.kept-len(s.log.marks))
	for i := max(oldest, s.log.kept-recall); i < s.log.kept; i++ {
		end := &s.log.marks[i%len(s.log.marks)]
		if end.seconds <= after || end.seconds == 0 {
			continue
		}
		begin := &s.log.marks[max(oldest, i-shortWindow)%len(s.log.marks)]
		c.Points = append(c.Points, s.point(begin, end))
	}
	return c
}

func (s *Session) point(begin, end *mark) ChartPoint {
	w := s.between(begin, end)
	p := ChartPoint{At: end.seconds}
	if w.filling() {
		return p
	}
	p.Loss, p.Broken = w.losses().value, w.report.Tank.Broken
	return p
}
