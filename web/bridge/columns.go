package bridge

import (
	"strings"

	"riddle/sim/read/readout"
	"riddle/sim/trade/quantity"
)

// column is one reading of a report, as it stands in a table over time and
// where two machines are compared. Its words stand under Key.
type column struct {
	name string // in a file of readings, before its unit
	key  string // of its words
	dim  quantity.Dimension
	get  func(*readout.Report) *float64
	loss int  // its row in the table of losses, or -1
	fine bool // left out where there is room for little
}

// fine are the readings that a room can do without.
var fine = map[string]bool{
	"read.mog": true, "read.area": true, "read.cylinder.speed": true, "read.concave": true, "read.walker.mog": true, "read.shoe.mog": true, "read.returns.free": true,
	"read.returns.unthreshed": true, "read.returns.mog": true, "read.tank.sound": true, "read.weight": true,
}

// columns stand in the order of the crop.
var columns = func() (list []column) {
	add := func(name, key string, dim quantity.Dimension, get func(*readout.Report) *float64) {
		list = append(list, column{name, key, dim, get, -1, fine[key]})
	}
	add("feed_grain", "read.grain", quantity.Harvest, func(r *readout.Report) *float64 { return r.Feed.GrainTH })
	add("feed_mog", "read.mog", quantity.Throughput, func(r *readout.Report) *float64 { return r.Feed.MOGKgS })
	add("area", "read.area", quantity.Work, func(r *readout.Report) *float64 { return r.Feed.AreaHaH })
	add("cylinder_speed", "read.cylinder.speed", quantity.Rotation, func(r *readout.Report) *float64 { return r.Cylinder.SpeedRPM })
	add("cylinder_power", "read.cylinder.power", quantity.Power, func(r *readout.Report) *float64 { return r.Cylinder.PowerKW })
	add("engine_power", "read.engine.power", quantity.Power, func(r *readout.Report) *float64 { return r.Power.Total })
	add("concave_separated", "read.concave", quantity.Share, func(r *readout.Report) *float64 { return r.Concave.Separated })
	add("walkers_mog", "read.walker.mog", quantity.Throughput, func(r *readout.Report) *float64 { return r.Loads.Walkers })
	add("shoe_mog", "read.shoe.mog", quantity.Throughput, func(r *readout.Report) *float64 { return r.Loads.Shoe })
	for i := range lossRows {
		row := &lossRows[i]
		list = append(list, column{"loss_" + row.id, "loss." + row.id, quantity.Share, row.pct, i, false})
	}
	add("lost", "read.lost", quantity.Lost, func(r *readout.Report) *float64 { return r.LossKgHa.Total })
	add("lost", "read.lost.m2", quantity.PerM2, func(r *readout.Report) *float64 { return r.LossPerM2.Total })
	add("lost", "read.lost.ft2", quantity.PerFt2, func(r *readout.Report) *float64 { return r.LossPerFt2.Total })
	add("returns_of_grain", "read.returns", quantity.Share, func(r *readout.Report) *float64 { return r.Returns.OfGrain })
	add("returns_free_grain", "read.returns.free", quantity.Share, func(r *readout.Report) *float64 { return r.Returns.FreeGrain })
	add("returns_unthreshed", "read.returns.unthreshed", quantity.Share, func(r *readout.Report) *float64 { return r.Returns.Unthreshed })
	add("returns_mog", "read.returns.mog", quantity.Share, func(r *readout.Report) *float64 { return r.Returns.MOG })
	add("tank_sound", "read.tank.sound", quantity.Share, func(r *readout.Report) *float64 { return r.Tank.Sound })
	add("tank_broken", "read.tank.broken", quantity.Share, func(r *readout.Report) *float64 { return r.Tank.Broken })
	add("tank_unthreshed", "read.tank.unthreshed", quantity.Share, func(r *readout.Report) *float64 { return r.Tank.Unthreshed })
	add("tank_foreign", "read.tank.foreign", quantity.Share, func(r *readout.Report) *float64 { return r.Tank.Foreign })
	add("tank_test_weight", "read.weight", quantity.Density, func(r *readout.Report) *float64 { return r.Tank.TestWeight })
	return list
}()

// slugs write a unit in the head of a column.
var slugs = strings.NewReplacer("%", "pct", "°C", "c", "°F", "f", "degrees", "deg", "°", "deg", "/", "_", "²", "2", " ", "_")

// head names a column with its unit, as a report names its keys.
func head(name, unit string) string {
	name = strings.ReplaceAll(name, "-", "_")
	if unit == "" {
		return name
	}
	return name + "_" + strings.ToLower(slugs.Replace(unit))
}
