package bridge

import (
	"riddle/sim"
	"riddle/sim/read/readout"
	"riddle/sim/trade/quantity"
)

// loads says how hard cylinder, walkers and shoe work over a window, and how
// thick the mats lie now.
func (s *Session) loads(w *span) []Load {
	r := &w.report
	power := s.q(r.Cylinder.PowerKW, quantity.Power)
	straw := s.counted(r.Loads.Walkers, r.LoadsSE.Walkers, quantity.Throughput)
	trash := s.counted(r.Loads.Shoe, r.LoadsSE.Shoe, quantity.Throughput)
	mat := func(mat []sim.Cell) *Message { return say("load.mat.text", With{"thick": s.thickest(mat)}) }
	return []Load{
		{"load.cylinder", &power, nil, r.Cylinder.OfDrive},
		{"load.walkers", &straw, mat(s.snap.WalkerMat), nil},
		{"load.shoe", &trash, mat(s.snap.UpperMat), nil},
		{"load.engine", nil, say("load.engine.text", s.takers(&r.Power)), nil},
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
