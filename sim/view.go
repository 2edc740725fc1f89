package sim

import (
	"riddle/sim/stage/flow"
	"riddle/sim/stage/section"
	"riddle/sim/stage/tank"
)

// places returns the machine's swarms in the order of Place.
func (m *Machine) places() [Places]*flow.Swarm {
	f, th, s, sh, r, t := m.feed, m.thresh.Rooms(), m.straw.Rooms(), m.shoe, m.returns, m.tank
	return [Places]*flow.Swarm{
		Standing: &f.Standing, Cutting: &f.Cutting, Feeding: &f.Mat, Gap: th.Gap, UnderGrate: th.Under, Plate: s.Plate,
		Walking: s.Mat, UnderWalker: s.Under, Pan: s.Pan, Conveyor: &sh.Conveyor, Step: &sh.Falling, PreSieve: &sh.Pre,
		Collecting: &sh.Collecting, Upper: &sh.Upper, Between: &sh.Between, Lower: &sh.Lower, Dropping: &sh.Dropping,
		Trough: &r.Trough, Returning: &r.Returning, Lifting: &t.Lifting, Filling: &t.Filling, Unloading: &t.Leaving, Hood: s.Hood, Behind: &m.ground.Lost,
	}
}

// Live returns the number of dots in the machine, the crop ahead of the header
// and what lies behind included.
func (m *Machine) Live() int {
	n := 0
	for _, s := range m.places() {
		n += s.Len()
	}
	return n
}

// Inside returns what the machine holds between header and tank: grain in
// parts of a kernel, MOG in µg.
func (m *Machine) Inside() (grain flow.Grain, mog flow.MOG) {
	for p, s := range m.places() {
		switch Place(p) {
		case Standing, Unloading, Behind, Hood:
			continue
		}
		g, w := s.Content()
		grain += g
		mog += w
	}
	return grain, mog
}

// Glance fills in no more than the tick, the dots and the mats: what an
// observer of every step needs.
func (m *Machine) Glance(into *Snapshot) {
	into.Tick, into.Seconds, into.Crop, into.Setup = m.tick, m.Seconds(), m.crop.Crop, m.Setup()
	for p, s := range m.places() {
		into.Dots[p] = s.Dots
	}
	m.viewMats(into)
}

// Snapshot fills in what a view may know. It allocates only while the
// snapshot's own slices grow.
func (m *Machine) Snapshot(into *Snapshot) {
	m.Glance(into)
	into.State, into.Tally = m.state, m.tally
	set := &m.set.Settings
	th, turned := m.thresh.State(&m.set), m.straw.Turned()
	into.CylinderAngle, into.BeaterAngle, into.CrankAngle = th.Angle, turned.Beater, turned.Crank
	into.FanAngle, into.ChopperAngle, into.ShakePhase = m.shoe.FanAngle, turned.Chopper, m.shoe.Phase
	into.ReelAngle = m.feed.Ground * set.ReelIndex / section.Reel.R
	into.ChainTravel, into.GroundTravel = m.feed.Travel, m.feed.Ground
	into.ElevatorTravel = tank.Speed * m.Seconds()
	into.CylinderRPM, into.CylinderKW = th.RPM, th.Drive.KW
	into.EngineSpeed, into.Power = m.engine.X, m.work.took
	into.GapSpeed = th.CropSpeed
	into.Front, into.Rear = th.Front, th.Rear
	into.Air = m.shoe.Air.V
	into.TankShare, into.TankKg = m.tank.Share(&m.tally), m.tank.Kg(&m.tally)
	scale := section.InnerWidth / (m.crop.Slice / 1000)
	into.TruckKg = float64(m.tally.Unloaded) / flow.Kernel * m.crop.KernelKg() * scale
}

func (m *Machine) viewMats(into *Snapshot) {
	into.FeederMat = into.FeederMat[:0]
	for i := range m.feed.Thick {
		into.FeederMat = append(into.FeederMat, Cell{X: m.feed.CellX(i), Thick: m.feed.Deep(i)})
	}
	into.WalkerMat = into.WalkerMat[:0]
	for i, load := range m.straw.Bed().Load {
		into.WalkerMat = append(into.WalkerMat, Cell{X: m.straw.Bed().Middle(i), Thick: m.straw.Thick(i), Load: load})
	}
	into.UpperMat = into.UpperMat[:0]
	for i, load := range m.shoe.UpperMat.Load {
		into.UpperMat = append(into.UpperMat, Cell{
			X: m.shoe.UpperMat.Middle(i), Thick: m.shoe.Deep(i), Load: load, Open: m.shoe.Open[i],
		})
	}
}
