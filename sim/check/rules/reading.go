package rules

import "riddle/sim/read/readout"

// Reading is what a column of the tables is about.
type Reading struct {
	Key, Name string
	Get       func(*readout.Report) *float64
}

// The readings, in the order of the tables' columns.
var (
	Unthreshed = Reading{"unthreshed", "unthreshed loss", func(r *readout.Report) *float64 { return r.Loss.Unthreshed }}
	Walker     = Reading{"walker", "walker loss", func(r *readout.Report) *float64 { return r.Loss.Walker }}
	Cracked    = Reading{"cracked", "broken grain in the tank", func(r *readout.Report) *float64 { return r.Tank.Broken }}
	BreakUp    = Reading{"break-up", "straw break-up (share of the material through the concave)", func(r *readout.Report) *float64 { return r.Concave.MOGThrough }}
	ShoeLoad   = Reading{"shoe-load", "chaff and straw to the shoe", shoeLoad}
	Returns    = Reading{"returns", "returns", func(r *readout.Report) *float64 { return r.Returns.OfGrain }}
	Tailings   = Reading{"returns-all", "returns, all material", func(r *readout.Report) *float64 { return ofReturns(r, 100) }}
	Heads      = Reading{"returns-heads", "unthreshed pieces in the returns", func(r *readout.Report) *float64 { return ofReturns(r, value(r.Returns.Unthreshed)) }}
	Chaff      = Reading{"returns-chaff", "chaff and straw in the returns", func(r *readout.Report) *float64 { return ofReturns(r, value(r.Returns.MOG)) }}
	Power      = Reading{"power", "power of the cylinder", func(r *readout.Report) *float64 { return r.Cylinder.PowerKW }}

	Blown     = Reading{"blown", "grain blown over", func(r *readout.Report) *float64 { return r.ShoeLoss.Blown }}
	Ridden    = Reading{"ridden", "grain ridden over", func(r *readout.Report) *float64 { return r.ShoeLoss.Ridden }}
	Shoe      = Reading{"shoe", "shoe loss", func(r *readout.Report) *float64 { return r.Loss.Shoe }}
	Trash     = Reading{"trash", "trash in the tank", func(r *readout.Report) *float64 { return r.Tank.Foreign }}
	TankHeads = Reading{"tank-heads", "unthreshed pieces in the tank", func(r *readout.Report) *float64 { return r.Tank.Unthreshed }}
)

// ofReturns returns a share (%) of the returns as a mass for each of grain
// fed, %.
func ofReturns(r *readout.Report, share float64) *float64 {
	if r.Returns.OfGrain == nil || r.Returns.MOG == nil || !(*r.Returns.MOG < 100) {
		return nil
	}
	v := *r.Returns.OfGrain / (1 - *r.Returns.MOG/100) * share / 100
	return &v
}

// shoeLoad returns what falls through the concave of the material fed and
// returned, kg/s.
func shoeLoad(r *readout.Report) *float64 {
	back, fed, grain, through := Chaff.Get(r), r.Feed.MOGKgS, r.Feed.GrainKgS, r.Concave.MOGThrough
	if back == nil || fed == nil || grain == nil || through == nil {
		return nil
	}
	v := (*fed + float64(*back/100**grain)) * *through / 100
	return &v
}

func value(v *float64) float64 {
	if v == nil {
		return 0
	}
	return *v
}
