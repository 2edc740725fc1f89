package main

import (
	"encoding/csv"
	"fmt"
	"io"
	"strconv"

	"riddle/sim/ask/study"
	"riddle/sim/read/readout"
	"riddle/sim/setup"
	"riddle/sim/trade/crop"
)

// column is one reading in a table of a sweep.
type column struct {
	key  string // of a CSV file: as in the report, levels joined by a point
	head string // for people; empty where only the file has it
	get  func(*readout.Report) *float64
}

// columns of a sweep, in the order of the crop.
var columns = []column{
	{"feed.grain_kg_s", "", func(r *readout.Report) *float64 { return r.Feed.GrainKgS }},
	{"feed.mog_kg_s", "", func(r *readout.Report) *float64 { return r.Feed.MOGKgS }},
	{"feed.area_ha_h", "", func(r *readout.Report) *float64 { return r.Feed.AreaHaH }},
	{"loss_pct.header", "header", func(r *readout.Report) *float64 { return r.Loss.Header }},
	{"loss_pct.unthreshed", "unthreshed", func(r *readout.Report) *float64 { return r.Loss.Unthreshed }},
	{"loss_pct.walker", "walkers", func(r *readout.Report) *float64 { return r.Loss.Walker }},
	{"loss_pct.shoe", "shoe", func(r *readout.Report) *float64 { return r.Loss.Shoe }},
	{"loss_pct.processing", "processing", func(r *readout.Report) *float64 { return r.Loss.Processing }},
	{"loss_pct.total", "total", func(r *readout.Report) *float64 { return r.Loss.Total }},
	{"shoe_loss_pct.blown", "", func(r *readout.Report) *float64 { return r.ShoeLoss.Blown }},
	{"shoe_loss_pct.ridden", "", func(r *readout.Report) *float64 { return r.ShoeLoss.Ridden }},
	{"loss_kg_ha.total", "", func(r *readout.Report) *float64 { return r.LossKgHa.Total }},
	{"loss_kernels_m2.total", "", func(r *readout.Report) *float64 { return r.LossPerM2.Total }},
	{"loss_kernels_ft2.total", "", func(r *readout.Report) *float64 { return r.LossPerFt2.Total }},
	{"concave.separated_pct", "", func(r *readout.Report) *float64 { return r.Concave.Separated }},
	{"concave.mog_through_pct", "", func(r *readout.Report) *float64 { return r.Concave.MOGThrough }},
	{"loads.walkers_mog_kg_s", "", func(r *readout.Report) *float64 { return r.Loads.Walkers }},
	{"loads.shoe_mog_kg_s", "", func(r *readout.Report) *float64 { return r.Loads.Shoe }},
	{"returns.pct_of_grain", "returns", func(r *readout.Report) *float64 { return r.Returns.OfGrain }},
	{"tank.broken_pct", "broken", func(r *readout.Report) *float64 { return r.Tank.Broken }},
	{"tank.unthreshed_pct", "", func(r *readout.Report) *float64 { return r.Tank.Unthreshed }},
	{"tank.foreign_pct", "foreign", func(r *readout.Report) *float64 { return r.Tank.Foreign }},
	{"cylinder.power_kw", "kW", func(r *readout.Report) *float64 { return r.Cylinder.PowerKW }},
	{"power.chopper_kw", "", func(r *readout.Report) *float64 { return r.Power.Chopper }},
	{"power.driving_kw", "", func(r *readout.Report) *float64 { return r.Power.Driving }},
	{"power.total_kw", "", func(r *readout.Report) *float64 { return r.Power.Total }},
	{"money.loss_per_ha", "", func(r *readout.Report) *float64 { return r.Money.LossPerHa }},
	{"money.discount_per_ha", "", func(r *readout.Report) *float64 { return r.Money.DiscountHa }},
	{"money.fines_per_ha", "", func(r *readout.Report) *float64 { return r.Money.FinesHa }},
	{"money.storage_per_ha", "", func(r *readout.Report) *float64 { return r.Money.StorageHa }},
	{"money.use_per_ha", "", func(r *readout.Report) *float64 { return r.Money.UseHa }},
	{"money.cost_per_ha", "cost/ha", func(r *readout.Report) *float64 { return r.Money.CostPerHa }},
	{"money.machine_per_ha", "", func(r *readout.Report) *float64 { return r.Money.MachineHa }},
	{"money.weather_per_ha", "", func(r *readout.Report) *float64 { return r.Money.WeatherHa }},
	{"money.whole_per_ha", "whole/ha", func(r *readout.Report) *float64 { return r.Money.WholeHa }},
}

// writeCSV writes one line a point; what could not be computed is empty.
func writeCSV(out io.Writer, w study.Sweep, c study.Curve) error {
	table := csv.NewWriter(out)
	line := []string{w.Field.Key}
	for _, col := range columns {
		line = append(line, col.key)
	}
	table.Write(append(line, "state"))
	for i := range c.Points {
		p := &c.Points[i]
		line = []string{strconv.FormatFloat(p.Value, 'g', -1, 64)}
		for _, col := range columns {
			text := ""
			if v := col.get(&p.Report); v != nil {
				text = strconv.FormatFloat(*v, 'g', 8, 64)
			}
			line = append(line, text)
		}
		table.Write(append(line, p.Report.State))
	}
	table.Flush()
	return table.Error()
}

// printCurve writes the table for people, and which value is the best.
func printCurve(out io.Writer, w study.Sweep, c study.Curve, how method) error {
	p := &lines{w: out}
	p.line("%s, %s, %s a value", name(w.Base.Crop), w.Field.Label, how)
	head := fmt.Sprintf("\n%12s", unitOf(w.Field))
	for _, col := range columns {
		if col.head != "" {
			head += fmt.Sprintf(" %10s", col.head)
		}
	}
	p.line("%s", head)
	for i := range c.Points {
		point := &c.Points[i]
		row := fmt.Sprintf("%12s", strconv.FormatFloat(point.Value, 'g', 6, 64))
		for _, col := range columns {
			if col.head != "" {
				row += fmt.Sprintf(" %10s", twoPlaces(col.get(&point.Report)))
			}
		}
		if point.Report.State != "running" {
			row += "  " + point.Report.State
		}
		p.line("%s", row)
	}
	p.line("\nHeader to total: losses of grain, %%. Returns: %% of the grain fed. Broken, foreign: %% of the tank sample. kW: taken by the cylinder.")
	p.line("Cost/ha: of lost grain and of the sample's discount, in money.")
	if best, ok := c.Best(w.Field); ok {
		where := "at an end of the values, so the least may lie beyond"
		if best.Inside {
			where = "between the ends"
		}
		what, of := fmt.Sprintf("Least of all losses: %.2f %% of what stood", best.Value), "the grain"
		if best.ByCost {
			what, of = fmt.Sprintf("Least cost: %.2f a hectare", best.Value), "what the crop is worth"
		}
		p.line("%s at %s, %s.", what, w.Field.Format(best.At), where)
		if best.From < best.To {
			p.line("From %s to %s it is as good as that: the difference is below %g %% of %s.", w.Field.Format(best.From), w.Field.Format(best.To), study.Alike, of)
		}
	} else {
		p.line("No value is the best: nowhere did grain come into the tank.")
	}
	return p.err
}

// lines writes line by line and keeps the first error.
type lines struct {
	w   io.Writer
	err error
}

func (l *lines) line(format string, args ...any) {
	if l.err == nil {
		_, l.err = fmt.Fprintf(l.w, format+"\n", args...)
	}
}

func twoPlaces(v *float64) string {
	if v == nil {
		return "–"
	}
	return strconv.FormatFloat(*v, 'f', 2, 64)
}

// unitOf names the unit of a field's values.
func unitOf(f *setup.Field) string {
	if f.Unit == "" {
		return f.Name
	}
	return string(f.Unit)
}

// isAbsent reports whether the crop's header lacks what the field sets.
func isAbsent(f *setup.Field, cropName string) bool {
	c := crop.Find(cropName)
	return c != nil && !f.On(c)
}

// name is a crop's name at the start of a line.
func name(cropName string) string {
	if cropName == "" {
		return cropName
	}
	return string(cropName[0]-'a'+'A') + cropName[1:]
}
