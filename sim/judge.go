package sim

const (
	// slowAt is the share of its set speed below which the cylinder is seen to
	// slow down, by its belt or by the engine, and slowKW the power from which it is close to: 0.85 of what
	// its belt passes. Calibrated.
	slowAt, slowKW = 0.95, 78.0
)

// judge sees whether the machine runs, slows down or has plugged.
func (m *Machine) judge() {
	m.state.Condition = Running
	if m.thresh.Drive.X*m.engine.X < slowAt || m.thresh.Drive.KW > slowKW {
		m.state.Condition = Slowing
	}
	hood, outlet := m.straw.Full()
	switch {
	case m.thresh.Drive.Stalled():
		m.plug("cylinder", "More crop came to the cylinder than its drive could pull through: the belt slipped, the cylinder slowed and stalled.")
	case hood:
		m.plug("walkers", "The straw mat on the walkers filled the hood: straw could no longer leave to the rear.")
	case outlet:
		m.plug("beater", "Straw was not taken off the cylinder: the outlet under the beater filled up.")
	case m.returns.Full():
		m.plug("returns", "More came back over the sieves than the returns elevator can lift: its trough and auger filled up.")
	case m.shoe.Full():
		m.plug("conveyors", "Grain and chaff were not carried to the shoe: the conveyors under the concave filled up.")
	case m.feed.Full():
		m.plug("feeder", "Crop was not drawn in: the throat of the feeder house filled up.")
	case m.tank.Share(&m.tally) >= 1:
		m.plug("tank", "The grain tank is full: it has to be unloaded before the machine can go on.")
	case m.tank.Blocked():
		m.plug("clean grain elevator", "Clean grain was not lifted: its trough and auger filled up.")
	}
}

func (m *Machine) plug(where, why string) {
	m.state = State{Condition: Plugged, At: m.Seconds(), Where: where, Why: why}
}
