package thresh

import (
	"riddle/sim/setup"
	"riddle/sim/stage/flow"
	"riddle/sim/trade/crop"
)

// Rooms is where dots are in a room that threshes.
type Rooms struct{ Gap, Under *flow.Swarm }

// State is how threshing stands at one moment.
type State struct {
	Drive       Drive
	RPM         float64
	Angle       float64 // rad
	CropSpeed   float64 // in the gap, m/s
	Front, Rear float64 // gaps, mm
	Through     float64 // share of the MOG that falls through the concave
}

// Rooms returns where the stage's dots are.
func (s *Stage) Rooms() Rooms { return Rooms{&s.Gap, &s.Under} }

// State returns how the stage stands.
func (s *Stage) State(set *setup.Setup) State {
	st := State{Drive: s.Drive, RPM: s.RPM(set), Angle: s.Angle, Through: s.Rates.Chaff + s.Rates.Short}
	st.CropSpeed = CropSpeed(st.RPM, 2*s.crop.Plan.Cylinder.R)
	st.Front, st.Rear = Gaps(s.crop, set.Settings.Clearance)
	return st
}

// CopyInto is CopyTo for whoever does not know which stage threshes.
func (s *Stage) CopyInto(to any, rng flow.Stream, nextID *uint32, cond *crop.Condition) {
	s.CopyTo(to.(*Stage), rng, nextID, cond)
}
