package reading

import (
	"riddle/sim"
	"riddle/sim/read/readout"
	"riddle/sim/run/trial"
	"riddle/sim/trade/quantity"
	"riddle/web/speak"
)

// Load is how hard a part works; Share is of what it can take, %, nil where
// there is no such bound.
type Load struct {
	Key   string         `json:"key"`
	Value *speak.Q       `json:"value"` // nil where the text says it
	Text  *speak.Message `json:"text"`
	Share *float64       `json:"share"`
}

// Loads says how hard cylinder, walkers and shoe work over a window, and how
// thick the mats lie now.
func (rd Reader) Loads(w *trial.Stretch, snap *sim.Snapshot) []Load {
	r := &w.Report
	power := rd.Q(r.Cylinder.PowerKW, quantity.Power)
	straw := rd.Counted(r.Loads.Walkers, r.LoadsSE.Walkers, quantity.Throughput)
	trash := rd.Counted(r.Loads.Shoe, r.LoadsSE.Shoe, quantity.Throughput)
	mat := func(mat []sim.Cell) *speak.Message {
		return speak.Say("load.mat.text", speak.With{"thick": rd.Thickest(mat)})
	}
	return []Load{
		{"load.cylinder", &power, nil, r.Cylinder.OfDrive},
		{"load.walkers", &straw, mat(snap.WalkerMat), nil},
		{"load.shoe", &trash, mat(snap.UpperMat), nil},
		{"load.engine", nil, speak.Say("load.engine.text", rd.takers(&r.Power)), nil},
	}
}

// takers names what the engine gives, and to whom.
func (rd Reader) takers(p *readout.Power) speak.With {
	kw := func(v *float64) speak.Q { return rd.Q(v, quantity.Power) }
	return speak.With{
		"power": kw(p.Total), "limit": kw(&p.Limit), "header": kw(p.Header), "cylinder": kw(p.Cylinder), "walkers": kw(p.Walkers),
		"shoe": kw(p.Shoe), "fan": kw(p.Fan), "chopper": kw(p.Chopper), "unloading": kw(p.Unloading), "driving": kw(p.Driving),
	}
}
