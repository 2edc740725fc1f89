package reading

import (
	"encoding/csv"
	"math"
	"strconv"
	"strings"

	"riddle/sim"
	"riddle/sim/run/trial"
	"riddle/sim/setup"
	"riddle/sim/trade/crop"
)

// CSV is the readings over time as a table for other programs: a line for
// every second that the record reaches back, each read over the short window
// before it, with the settings and conditions of that second, in the units
// that are chosen. Numbers have a point, fields a comma between them (RFC
// 4180); what cannot be read is left empty.
func (rd Reader) CSV() string {
	var text strings.Builder
	w := csv.NewWriter(&text)
	w.UseCRLF = true
	w.Write(rd.csvHead()) // into memory, where nothing fails
	for i := rd.Record.Oldest() + 1; i < rd.Record.Kept; i++ {
		w.Write(rd.csvLine(rd.Record.At(i)))
	}
	w.Flush()
	return text.String()
}

func (rd Reader) csvHead() []string {
	line := []string{"model", "crop", "seed", "time_s", "window_s"}
	for i := range Columns {
		line = append(line, head(Columns[i].Name, rd.System.Scale(Columns[i].Dim, rd.Crop).Unit))
	}
	for _, f := range rd.fields() {
		line = append(line, head(f.Name, rd.System.Scale(f.Unit, rd.Crop).Unit))
	}
	return line
}

func (rd Reader) csvLine(end *trial.Checkpoint) []string {
	w := rd.Record.Until(end, ShortWindow, rd.prices())
	line := []string{sim.Model, rd.Crop, strconv.FormatUint(end.Setup.Seed, 10), figure(end.Seconds), figure(w.Report.WindowS)}
	for i := range Columns {
		c := &Columns[i]
		v := c.Get(&w.Report)
		if v == nil {
			line = append(line, "")
			continue
		}
		line = append(line, figure(rd.System.Scale(c.Dim, rd.Crop).Shown(*v)))
	}
	for _, f := range rd.fields() {
		line = append(line, figure(rd.System.Scale(f.Unit, rd.Crop).Shown(f.Get(&end.Setup))))
	}
	return line
}

// fields lists the settings and conditions that the crop's header has.
func (rd Reader) fields() (list []*setup.Field) {
	for i := range setup.Fields {
		if f := &setup.Fields[i]; f.On(crop.Find(rd.Crop)) {
			list = append(list, f)
		}
	}
	return list
}

// figure prints a number with at most four digits after the point.
func figure(v float64) string {
	return strconv.FormatFloat(math.Round(v*1e4)/1e4, 'f', -1, 64)
}
