package reading

import (
	"riddle/sim"
	"riddle/sim/run/trial"
	"riddle/sim/trade/quantity"
	"riddle/web/speak"
)

// Sample is what a stream is made of.
type Sample struct {
	Head  *speak.Message `json:"head"`
	Parts []Part         `json:"parts"`
}

// Part is one share of a sample: the key of its name, and how much.
type Part struct {
	Key   string  `json:"key"`
	Value speak.Q `json:"value"`
}

// Words name the parts of a sample.
func (s Sample) Words() (list []*speak.Message) {
	for _, p := range s.Parts {
		list = append(list, speak.Say("twin.part", speak.With{"name": speak.Say(p.Key), "share": p.Value}))
	}
	return list
}

// Tank is the sample of the grain tank.
func (rd Reader) Tank(w *trial.Stretch, snap *sim.Snapshot) Sample {
	t, se := &w.Report.Tank, &w.Report.TankSE
	head := speak.Say("tank.holds", speak.With{"kg": rd.Of(snap.TankKg, quantity.Weight)})
	if snap.TruckKg > 0 {
		head = speak.Say("tank.truck", speak.With{"kg": rd.Of(snap.TankKg, quantity.Weight), "truck": rd.Of(snap.TruckKg, quantity.Weight)})
	}
	return Sample{head, []Part{
		{"tank.sound", speak.Share(t.Sound, nil)}, {"tank.broken", speak.Share(t.Broken, se.Broken)},
		{"tank.unthreshed", speak.Share(t.Unthreshed, se.Unthreshed)}, {"tank.foreign", speak.Share(t.Foreign, nil)},
	}}
}

// Returns is what comes back to the cylinder.
func (rd Reader) Returns(w *trial.Stretch) Sample {
	x := &w.Report.Returns
	return Sample{speak.Say("returns.share", speak.With{"share": speak.Share(x.OfGrain, nil)}), []Part{
		{"returns.free", speak.Share(x.FreeGrain, nil)}, {"returns.unthreshed", speak.Share(x.Unthreshed, nil)}, {"returns.mog", speak.Share(x.MOG, nil)},
	}}
}

// Under says what stands beneath the settings.
func (rd Reader) Under(w *trial.Stretch, snap *sim.Snapshot) map[string]*speak.Message {
	feed := w.Report.Feed
	m := map[string]*speak.Message{}
	if feed.GrainTH != nil && feed.MOGKgS != nil {
		m["ground-speed"] = speak.Say("under.ground-speed", speak.With{"grain": rd.Q(feed.GrainTH, quantity.Harvest), "mog": rd.Q(feed.MOGKgS, quantity.Throughput)})
	}
	m["cylinder-speed"] = speak.Say("under.cylinder-speed", speak.With{"rpm": rd.Of(snap.CylinderRPM, quantity.Rotation)})
	m["concave-clearance"] = speak.Say("under.concave-clearance", speak.With{"front": rd.Of(snap.Front, quantity.Opening), "rear": rd.Of(snap.Rear, quantity.Opening)})
	air := func(i int) speak.Q { return rd.Of(snap.Air[i], quantity.Air) }
	m["fan-speed"] = speak.Say("under.fan-speed", speak.With{"front": air(0), "middle": air(1), "rear": air(2)})
	return m
}
