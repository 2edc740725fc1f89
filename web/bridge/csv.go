package bridge

import (
	"encoding/csv"
	"math"
	"strconv"
	"strings"

	"riddle/sim"
	"riddle/sim/run/trial"
	"riddle/sim/setup"
)

// CSV is the readings over time as a table for other programs: a line for
// every second that the record reaches back, each read over the short window
// before it, with the settings and conditions of that second, in the units
// that are chosen. Numbers have a point, fields a comma between them (RFC
// 4180); what cannot be read is left empty.
func (s *Session) CSV() string {
	var text strings.Builder
	w := csv.NewWriter(&text)
	w.UseCRLF = true
	w.Write(s.csvHead()) // into memory, where nothing fails
	for i := s.log.oldest() + 1; i < s.log.kept; i++ {
		w.Write(s.csvLine(s.log.at(i)))
	}
	w.Flush()
	return text.String()
}

func (s *Session) csvHead() []string {
	crop := s.machine.Crop().Name
	line := []string{"model", "crop", "seed", "time_s", "window_s"}
	for i := range columns {
		line = append(line, head(columns[i].name, s.units.Scale(columns[i].dim, crop).Unit))
	}
	for _, f := range s.fields() {
		line = append(line, head(f.Name, s.units.Scale(f.Unit, crop).Unit))
	}
	return line
}

func (s *Session) csvLine(end *trial.Mark) []string {
	crop, w := s.machine.Crop().Name, s.until(end, shortWindow)
	line := []string{sim.Model, crop, strconv.FormatUint(end.Setup.Seed, 10), figure(end.Seconds), figure(w.report.WindowS)}
	for i := range columns {
		c := &columns[i]
		v := c.get(&w.report)
		if v == nil {
			line = append(line, "")
			continue
		}
		line = append(line, figure(s.units.Scale(c.dim, crop).Shown(*v)))
	}
	for _, f := range s.fields() {
		line = append(line, figure(s.units.Scale(f.Unit, crop).Shown(f.Get(&end.Setup))))
	}
	return line
}

// fields lists the settings and conditions that the crop's header has.
func (s *Session) fields() (list []*setup.Field) {
	for i := range setup.Fields {
		if f := &setup.Fields[i]; f.On(s.machine.Crop()) {
			list = append(list, f)
		}
	}
	return list
}

// figure prints a number with at most four digits after the point.
func figure(v float64) string {
	return strconv.FormatFloat(math.Round(v*1e4)/1e4, 'f', -1, 64)
}
