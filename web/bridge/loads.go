package bridge

import (
	"riddle/sim"
	"riddle/sim/flow"
	"riddle/sim/quantity"
	"riddle/sim/readout"
)

// loads says how hard cylinder, walkers and shoe work over a window.
func (s *Session) loads(w *span) []Load {
	a, b := &w.before.Tally, &w.after.Tally
	power := w.report.Cylinder.PowerKW
	straw := s.rate(w, b.Walkers.MOGOver-a.Walkers.MOGOver+b.Walkers.MOG-a.Walkers.MOG)
	trash := s.rate(w, b.Shoe.MOG-a.Shoe.MOG)
	return []Load{
		{"load.cylinder", say("load.cylinder.text", With{"power": s.q(power, quantity.Power)}), over(power, sim.DriveKW)},
		{"load.walkers", say("load.mat.text", With{"flow": straw, "thick": s.thickest(s.snap.WalkerMat)}), nil},
		{"load.shoe", say("load.mat.text", With{"flow": trash, "thick": s.thickest(s.snap.UpperMat)}), nil},
		{"load.engine", say("load.engine.text", s.takers(&w.report.Power)), nil},
	}
}

// takers names what the engine gives, and to whom.
func (s *Session) takers(p *readout.Power) With {
	kw := func(v *float64) Q { return s.q(v, quantity.Power) }
	return With{
		"power": kw(p.Total), "limit": kw(&p.Limit), "header": kw(p.Header), "cylinder": kw(p.Cylinder), "walkers": kw(p.Walkers),
		"shoe": kw(p.Shoe), "fan": kw(p.Fan), "chopper": kw(p.Chopper), "unloading": kw(p.Unloading), "driving": kw(p.Driving),
	}
}

// over returns a share of a limit, or nil where there is no value.
func over(v *float64, limit float64) *float64 {
	if v == nil {
		return nil
	}
	share := *v / limit
	return &share
}

// rate shows a mass of the slice over a window as a flow of the whole machine.
func (s *Session) rate(w *span, mass flow.MOG) Q {
	if !(w.report.WindowS > 0) {
		return s.q(nil, quantity.Throughput)
	}
	return s.qv(float64(mass)*1e-9*readout.WholeMachine(s.machine.Crop())/w.report.WindowS, quantity.Throughput)
}

// thickest shows how thick a mat is where it is thickest.
func (s *Session) thickest(mat []sim.Cell) Q {
	var most float32
	for i := range mat {
		most = max(most, mat[i].Thick)
	}
	return s.qv(float64(most)*100, quantity.Height)
}

// twin says in words what the picture shows.
func (s *Session) twin(st *State) []*Message {
	text := []*Message{
		say("twin.state."+st.State, With{"crop": say("crop." + s.machine.Crop().Name), "time": seconds(st.Seconds), "n": st.Dots}),
	}
	if st.Alarm != nil {
		text = append(text, st.Alarm.Title, st.Alarm.Why)
		text = append(text, st.Sum[1:]...)
	} else {
		text = append(text, st.Sum...)
	}
	if st.Losses[rows-1].Short.V == nil {
		return text
	}
	var causes []*Message
	for _, r := range st.Losses[:rows-1] {
		causes = append(causes, say("twin.part", With{"name": say("loss." + r.ID + ".short"), "share": r.Short}))
	}
	text = append(text, say("twin.causes", With{"list": causes}),
		say("twin.tank", With{"head": st.Tank.Head, "list": parts(st.Tank)}), say("twin.returns", With{"head": st.Returns.Head, "list": parts(st.Returns)}))
	return append(text, s.sight()...)
}

func parts(s Sample) (list []*Message) {
	for _, p := range s.Parts {
		list = append(list, say("twin.part", With{"name": say(p.Key), "share": p.Value}))
	}
	return list
}
