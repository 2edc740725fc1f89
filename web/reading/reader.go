// Package reading is what is read of a machine: losses, sample, loads, grade and
// money over the windows of the page, in its units and at its price, now, over
// time, as a table and beside another machine. Every number is of sim/read/readout,
// between two marks of a trial.Record; here it is put in order. It steps nothing.
package reading

import (
	"math"

	"riddle/sim/read/readout"
	"riddle/sim/run/trial"
	"riddle/web/speak"
)

// Windows over which the page reads the machine, s of simulated time.
const (
	ShortWindow = 10
	LongWindow  = 60
	NowWindow   = 2
	beat        = 2
)

// Reader reads a record in the units of the page and at its price.
type Reader struct {
	Record *trial.Record
	speak.Units
	Price float64 // of a bushel of the crop; 0 where no money is asked for
}

// prices are those of the crop's start, at the price that is set.
func (rd Reader) prices() *readout.Prices {
	if rd.Price == 0 {
		return nil
	}
	p := readout.PricesAt(rd.Crop, rd.Price)
	return &p
}

// Window reads the last seconds of the record.
func (rd Reader) Window(seconds float64) trial.Stretch { return rd.Record.Last(seconds, rd.prices()) }

// Until reads the seconds up to a mark.
func (rd Reader) Until(end *trial.Checkpoint, seconds float64) trial.Stretch {
	return rd.Record.Until(end, seconds, rd.prices())
}

// SinceBeat reads what came since the last beat; the tallies of the page fill
// anew at every beat.
func (rd Reader) SinceBeat() trial.Stretch {
	return rd.Window(math.Mod(rd.Record.Watch.Now.Seconds, beat))
}

// Glance is what is read at one moment over the short window to tell what a
// change does.
type Glance struct {
	Losses Losses
	Broken *float64
}

// GlanceAt reads the end of a record.
func GlanceAt(r *trial.Record) Glance {
	w := r.Last(ShortWindow, nil)
	return Glance{LossesOf(&w), w.Report.Tank.Broken}
}

// Parts lists what is glanced at.
func (g *Glance) Parts() (list []Part) {
	for i, x := range Rows {
		if !x.Inner {
			list = append(list, Part{"loss." + x.ID, speak.Share(g.Losses.Value[i], g.Losses.Spread[i])})
		}
	}
	return append(list, Part{"tank.broken", speak.Share(g.Broken, nil)})
}

// ChartPoint is what was read over the short window before a moment, %.
type ChartPoint struct {
	At     float64            `json:"at"`
	Loss   [RowCount]*float64 `json:"loss"` // in the order of the table of losses
	Broken *float64           `json:"broken"`
}

// Chart reads the record after a moment: a point for each second.
func (rd Reader) Chart(after float64) []ChartPoint {
	list := []ChartPoint{}
	for i := max(rd.Record.Oldest(), rd.Record.Kept-trial.Recall); i < rd.Record.Kept; i++ {
		if end := rd.Record.At(i); end.Seconds > after && end.Seconds > 0 {
			w := rd.Until(end, ShortWindow)
			list = append(list, ChartPoint{At: end.Seconds, Loss: LossesOf(&w).Value, Broken: w.Report.Tank.Broken})
		}
	}
	return list
}
