// Package tank lifts the clean grain into the tank and empties it into a truck
// when told to.
package tank

import (
	"math"

	"riddle/sim/setup"
	"riddle/sim/stage/design"
	"riddle/sim/stage/flow"
	"riddle/sim/stage/section"
	"riddle/sim/trade/grade"
	"riddle/sim/trade/quantity"
)

const (
	// Speed of the clean grain elevator, m/s: 2.1 s from trough to tank.
	// Calibrated.
	Speed       = 1.62
	troughSpeed = 0.8 // to the auger, m/s. Calibrated.
	// unloadRate over the whole machine, kg/s. From memory.
	unloadRate = 45.0
	// Lot is the number of kernels that one dot on the way to the truck stands
	// for. Chosen.
	Lot         = 50
	unloadSpeed = 1.8 // along floor, upright and cross auger, m/s. Calibrated.
	// The tank in section, heights and widths in m: geometry.
	floorY     = 2.62
	hopperY    = 3.05 // up to here the tank widens
	rimY       = 3.95
	middle     = 0.70  // x of the middle of the tank
	hopperLow  = 1.75  // m wide at the floor
	hopperHigh = 2.90  // m wide at hopperY and above
	floorFront = -0.20 // x of the floor's ends, from which it slopes up
	floorRear  = 1.55
	frontRun   = 0.55 // of the sloping floors, m
	rearRun    = 0.60
	wallFront  = -0.70 // x of the walls that a flying kernel meets
	wallRear   = 2.10
	augerRun   = 1.2  // of the floor augers from which grain comes, m
	spoutRun   = 0.15 // of the spout at the end of the cross auger, m
	spoutDrop  = 0.2
	truckHeap  = 0.15 // over the truck's bed at which grain has arrived, m
	bucketWide = 0.12 // of elevator and augers, m, over which grain is drawn
	// The elevator throws into the tank between these, to the rear above zero, and
	// up, m/s. Calibrated.
	tossFront, tossRear, tossUp = -1.5, 1.2, 0.4
	// The spout lets grain go between these, and down, m/s. Calibrated.
	spoutLeast, spoutMost, spoutDown = 0.5, 1.3, -0.6
	// footHolds is the number of dots at which the elevator's foot is full: the
	// whole machine's grain of half a minute. Calibrated.
	footHolds = 60000
)

// Stage is trough, elevator, tank and unloading augers.
type Stage struct {
	Lifting, Filling, Leaving flow.Swarm
	Level                     float32 // height of the grain in the tank, m

	crop    *design.Fit
	sieves  *grade.Sieving
	rng     flow.Stream
	nextID  *uint32
	path    *flow.Path
	bowl    flow.Bowl // trough
	out     *flow.Path
	due     float64
	pull    flow.Pull
	density float64 // of the grain in bulk, kg/m³
}

// New returns an empty tank.
func New(c *design.Fit, rng flow.Stream, nextID *uint32) *Stage {
	return &Stage{
		Lifting: flow.NewSwarm(32768), Filling: flow.NewSwarm(4096), Leaving: flow.NewSwarm(8192), Level: floorY,
		crop: c, sieves: grade.SievingOf(c.Crop), rng: rng, nextID: nextID,
		pull: flow.PullOn(0), path: flow.NewPath(c.Plan.GrainElevator.A, c.Plan.GrainElevator.B), bowl: flow.NewBowl(c.Plan.GrainTrough),
		out: flow.NewPath(section.Point{X: section.FloorAugers[0].X, Y: section.FloorAugers[0].Y}, section.Sump, section.UprightTop, section.CrossAugerEnd,
			section.Point{X: section.CrossAugerEnd.X + spoutRun, Y: section.CrossAugerEnd.Y - spoutDrop}),
		density: quantity.BulkDensity(c.Name),
	}
}

// Step carries, fills and unloads for dt seconds.
func (s *Stage) Step(set *setup.Setup, dt float32, t *flow.Tally) {
	s.pull = flow.PullOn(set.Conditions.ForeSlope)
	s.lift(set, dt)
	s.fill(dt, t)
	s.level(t)
	s.unload(set, dt, t)
}

// lift moves grain along the trough to the auger and up the elevator.
func (s *Stage) lift(set *setup.Setup, dt float32) {
	auger := float32(s.crop.Plan.GrainAuger.Centre.X)
	ds, move := float32(Speed*dt), float32(troughSpeed*dt)
	if set.Stopped.Has(setup.ElevatorPart) {
		ds = 0
	}
	for i := 0; i < len(s.Lifting.Dots); i++ {
		d := &s.Lifting.Dots[i]
		if d.Ride == flow.Carried { // in the trough
			switch {
			case d.X > auger+move:
				d.X -= move
			case d.X < auger-move:
				d.X += move
			default:
				d.Ride, d.Along, d.Level = flow.InBucket, 0, s.rng.Float()
				continue
			}
			d.Y = s.bowl.At(d.X) + flow.Bed
			continue
		}
		d.Along += ds
		if d.Along < s.path.Length {
			s.path.Place(d, float32((d.Level-0.5)*bucketWide))
			continue
		}
		d.Ride, d.VX, d.VY = flow.Airborne, s.rng.Between(tossFront, tossRear), tossUp
		s.Lifting.Move(i, &s.Filling)
		i--
	}
}

// fill lets grain fall into the tank, where it is counted.
func (s *Stage) fill(dt float32, t *flow.Tally) {
	for i := 0; i < len(s.Filling.Dots); i++ {
		d := &s.Filling.Dots[i]
		d.Fly(0, 0, dt, s.pull)
		if d.X < wallFront || d.X > wallRear {
			d.X, d.VX = min(max(d.X, wallFront), wallRear), 0
		}
		if d.Y > max(s.surface(d.X), wall(d.X)) {
			continue
		}
		s.weigh(d, t)
		s.Filling.Remove(i)
		i--
	}
}

// weigh counts a dot into the sample, by what it is and, if it is loose grain,
// by the grader's sieves.
func (s *Stage) weigh(d *flow.Dot, t *flow.Tally) {
	n, g, mass := &t.Tank, int64(d.Grain), int64(d.Mass)
	n.Grain += g
	n.Foreign += mass
	switch d.Kind {
	case flow.Piece:
		n.Unthreshed += g
	case flow.Chaff:
		n.Chaff += mass
	case flow.Short, flow.Straw:
		n.Straw += mass
	case flow.Weed:
		n.Weed += mass
	case flow.Light:
		n.Light += g
	case flow.Broken:
		n.Broken += g
	}
	if !d.Kind.IsKernel() {
		return
	}
	part := d.Kind == flow.Broken && grade.IsPart(d.Grain)
	if part {
		n.Parts += g
		if grade.IsChip(d.Grain) {
			n.Chips += g
		}
	}
	if !s.sieves.Through(d.Kind, d.Grain, d.Size) {
		return
	}
	n.Through += g
	if part {
		n.PartsThrough += g
	}
	if s.sieves.Fine(d.Kind, d.Grain, d.Size) {
		n.Fine += g
	}
}

// wall returns the height of the tank's sloping floor at x.
func wall(x float32) float32 {
	switch {
	case x < floorFront:
		return floorY + float32((floorFront-x)*((hopperY-floorY)/frontRun))
	case x > floorRear:
		return floorY + float32((x-floorRear)*((hopperY-floorY)/rearRun))
	}
	return floorY
}

// Kg returns what the tank holds now, over the whole machine, kg.
func (s *Stage) Kg(t *flow.Tally) float64 {
	scale := section.InnerWidth / (s.crop.Slice / flow.MM)
	grain := float64(float64(t.Tank.Grain-t.Unloaded) / flow.Kernel * s.crop.KernelKg())
	return (grain + float64(float64(t.Tank.Foreign)*flow.Microgram)) * scale
}

// Blocked reports whether the elevator's foot holds all it can.
func (s *Stage) Blocked() bool { return len(s.Lifting.Dots) > footHolds }

// Share returns how full the tank is, 0 to 1: full is when the grain reaches
// the rim. On a slope that is sooner, at the low end, by the wedge between the
// rim and a surface that lies level in the field; geometry.
func (s *Stage) Share(t *flow.Tally) float64 {
	const area = (hopperLow+hopperHigh)/2*(hopperY-floorY) + hopperHigh*(rimY-hopperY)
	wedge := float64(hopperHigh * hopperHigh / 2 * math.Abs(s.pull.Fall()))
	return s.Kg(t) / ((area - wedge) * section.InnerWidth * s.density)
}

// surface returns the height of the grain at x, which lies level in the field.
func (s *Stage) surface(x float32) float32 {
	return s.Level + float32((x-middle)*float32(s.pull.Fall()))
}

// level finds the height of the grain from its volume.
func (s *Stage) level(t *flow.Tally) {
	a := s.Kg(t) / s.density / section.InnerWidth // m² in the section
	const hopper = (hopperLow + hopperHigh) / 2 * (hopperY - floorY)
	if a < hopper { // a trapezium: straight line is near enough for a level
		s.Level = floorY + float32(a/hopper*(hopperY-floorY))
		return
	}
	s.Level = hopperY + float32((a-hopper)/hopperHigh)
}

// unload sends lots of grain to the truck while the tank has any.
func (s *Stage) unload(set *setup.Setup, dt float32, t *flow.Tally) {
	if set.Settings.Unload {
		s.due += unloadRate * float64(dt) * (s.crop.Slice / flow.MM / section.InnerWidth) / s.crop.KernelKg() / Lot
		for ; s.due >= 1; s.due-- {
			if t.Tank.Grain-t.Unloaded < Lot*flow.Kernel {
				s.due = 0
				break
			}
			t.Unloaded += Lot * flow.Kernel
			s.Leaving.Add(flow.Dot{
				ID: *s.nextID, Kind: flow.Sound, Grain: Lot * flow.Kernel, Vt: float32(s.crop.Vt), Size: float32(s.crop.Size),
				Level: s.rng.Float(), Along: s.rng.Between(0, augerRun), Ride: flow.Carried,
			})
			*s.nextID++
		}
	}
	truck := float32(section.TruckBed[0].Y) + truckHeap
	for i := 0; i < len(s.Leaving.Dots); i++ {
		d := &s.Leaving.Dots[i]
		if d.Ride == flow.Carried {
			d.Along += float32(unloadSpeed * dt)
			s.out.Place(d, float32((d.Level-0.5)*bucketWide))
			if d.Along >= s.out.Length {
				d.Ride, d.VX, d.VY = flow.Airborne, s.rng.Between(spoutLeast, spoutMost), spoutDown
			}
			continue
		}
		d.Fly(0, 0, dt, s.pull)
		if d.Y <= truck {
			s.Leaving.Remove(i)
			i--
		}
	}
}
