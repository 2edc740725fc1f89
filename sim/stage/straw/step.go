package straw

import (
	"math"

	"riddle/sim/num"
	"riddle/sim/setup"
	"riddle/sim/stage/design"
	"riddle/sim/stage/fault"
	"riddle/sim/stage/flow"
	"riddle/sim/stage/section"
	"riddle/sim/trade/crop"
)

const (
	plateSpeed = 3.5  // of the straw under the beater, m/s. Calibrated.
	plateHolds = 0.30 // mat under the beater at which the cylinder's outlet is full, m. Calibrated.
	throwSpeed = 1.0  // with which the beater throws the straw, m/s. Calibrated.
	panSpeed   = 0.35 // of the walker pan on level ground, m/s. Calibrated.
	panSwing   = 0.5  // to which it swings along itself, m/s: it hangs on the shoe. Calibrated.
	cellCount  = 16   // cells of the mat, 250 mm each. Chosen.
	choppedIn  = 3    // bits that the chopper makes of a long straw. Chosen.
	// Turning of beater and chopper as drawn, rad/s. From memory; nothing that
	// counts depends on them.
	beaterTurn, chopperTurn = 60.0, 150.0
	hoodAir                 = 0.3  // draught in the hood, m/s rearward. Calibrated.
	overSpeed               = 0.5  // with which the straw leaves the walkers, m/s. Calibrated.
	hoodWall                = 5.25 // x of the hood's rear wall, m
	plateLayer              = 0.06 // depth over which straw lies under the beater as drawn, m
	// carryShare is how much the mat's speed swings over a turn of the cranks; the
	// mean is matSpeed. Calibrated.
	carryShare = 0.8
	// The beater throws between these over throwSpeed, and upwards, m/s; no
	// farther than to this x. Calibrated.
	throwLeast, throwMost, throwUp, throwEnd = 0.6, 1.4, 0.3, 2.0
	// What falls through starts this far under the walkers' face, m, and with this
	// speed to the rear, m/s. Chosen.
	fallUnder, fallOn = 0.02, 0.1
	panLayer          = 0.02 // depth over which the load of the pan is drawn, m. Chosen.
	// rideLag is the share by which a dot follows its place on the mat in a tick,
	// matLag the time in which the mat's load follows, s. Chosen.
	rideLag, matLag = 0.4, 0.4
	// The chopper flings to the rear and down or up between these, m/s. Calibrated.
	flingLeast, flingMost, flingDown, flingUp = 2.0, 9.0, -2.5, 0.5
)

// Stage is beater, walkers and chopper.
type Stage struct {
	Plate, Mat, Under, Pan, Hood flow.Swarm
	Rows                         flow.Mat
	Crank, Beater, Chopper       float64 // angles, rad

	crop    *design.Fit
	rng     flow.Stream
	nextID  *uint32
	plate   *flow.Path
	pan     flow.Surface
	floor   flow.Surface
	roof    flow.Bowl    // of the hood
	face    [256]float32 // walker height over x
	sink    [cellCount]float32
	onPlate float32 // mat under the beater, m
	pull    flow.Pull
	own     fault.Extra // of the walkers' speed
}

// New returns empty walkers.
func New(c *design.Fit, rng flow.Stream, nextID *uint32) *Stage {
	s := &Stage{
		Plate: flow.NewSwarm(2048), Mat: flow.NewSwarm(16384), Under: flow.NewSwarm(4096), Pan: flow.NewSwarm(16384), Hood: flow.NewSwarm(4096),
		Rows: flow.NewMat(c.Plan.Start, c.Plan.Rear, cellCount, c.Slice/flow.MM),
		crop: c, rng: rng, nextID: nextID, plate: flow.NewPath(c.Plan.BeaterPlate.A, c.Plan.BeaterPlate.B),
		pan: flow.NewSurface(c.Plan.WalkerPan), floor: flow.NewSurface(c.Plan.ConveyorFloor), roof: flow.NewBowl(c.Plan.HoodRoof),
	}
	for i := range s.face {
		s.face[i] = float32(c.Plan.Height(c.Plan.Start + float64(float64(i)/faceScale)))
	}
	return s
}

// faceScale is the number of entries of the walkers' face a metre. Chosen.
const faceScale = 64

// packed is the number of cells in a row, about a metre of walkers, that have
// to be full before the hood is: a short bunch still walks out. Calibrated.
const packed = 4

// heaped is how far over its height the hood's mat is pressed before a heap
// in one place, on walkers that stand still, closes it. Calibrated.
const heaped = 2

// Full reports whether the mat fills the straw hood, or the outlet under the
// beater.
func (s *Stage) Full() (hood, outlet bool) {
	row, holds := 0, float32(s.crop.Plan.HoodHolds*matDensity)
	for _, l := range s.Rows.Load {
		row++
		if l <= holds {
			row = 0
		}
		hood = hood || row >= packed || l > heaped*holds
	}
	return hood, s.onPlate > plateHolds
}

// Thick returns the thickness of the mat in a cell, m.
func (s *Stage) Thick(cell int) float32 { return s.deep(cell, s.Rows.Middle(cell), 0) }

// deep returns how deep the mat of a cell lies at x on walkers that are lifted
// by so much: in a full hood it is pressed.
func (s *Stage) deep(cell int, x, lift float32) float32 {
	return flow.Pressed(s.Rows.Load[cell]/matDensity, s.roof.At(x)-s.height(x)-lift)
}

// Step carries the straw on for dt seconds, when the concave let the share phi
// of the MOG through and the engine turns at a share of its set speed. Grain and chaff that fall through
// go to the conveyor, what leaves to the ground.
func (s *Stage) Step(set *setup.Setup, cond *crop.Condition, phi, engine float64, dt float32, conveyor, lost *flow.Swarm, t *flow.Tally) {
	s.pull = flow.PullOn(set.Conditions.ForeSlope)
	s.turn(set, engine, dt)
	s.throw(set, dt)
	s.walk(set, cond, phi, engine, dt, t)
	s.fall(dt)
	s.shake(dt, conveyor)
	s.discharge(set, dt, lost, t)
}

func (s *Stage) turn(set *setup.Setup, engine float64, dt float32) {
	if !set.Stopped.Has(setup.WalkerPart) {
		s.Crank += float64(engine * s.own.Times() * (section.CrankRPM * 2 * math.Pi / flow.Minute) * float64(dt))
	}
	if !set.Stopped.Has(setup.BeaterPart) {
		s.Beater += float64(beaterTurn * float64(dt))
	}
	if set.Settings.Chopper {
		s.Chopper += float64(chopperTurn * float64(dt))
	}
}

// throw moves the straw under the beater and throws it on the walkers.
func (s *Stage) throw(set *setup.Setup, dt float32) {
	ds := float32(plateSpeed * dt)
	if set.Stopped.Has(setup.BeaterPart) {
		ds = 0
	}
	mass := float32(0)
	for i := 0; i < len(s.Plate.Dots); i++ {
		d := &s.Plate.Dots[i]
		d.Along += ds
		mass += float32(float32(d.Mass) * flow.Microgram)
		s.plate.Place(d, flow.Bed+float32(d.Level*plateLayer))
		if d.Along < s.plate.Length {
			continue
		}
		d.VX, d.VY = float32(throwSpeed*s.rng.Between(throwLeast, throwMost)), throwUp
		d.Ride = flow.Airborne
		s.Plate.Move(i, &s.Mat)
		i--
	}
	s.onPlate = mass / (s.plate.Length * float32(s.crop.Slice/flow.MM)) / matDensity
}

// walk moves everything on the walkers: the mat to the rear, grain through it.
func (s *Stage) walk(set *setup.Setup, cond *crop.Condition, phi, engine float64, dt float32, t *flow.Tally) {
	froude := Froude(engine * s.own.Times() * section.CrankRPM)
	stopped := set.Stopped.Has(setup.WalkerPart)
	if stopped {
		froude = 0
	}
	speed := ownSpeed(s.pull, s.own)
	for i := range s.sink {
		s.sink[i] = float32(SinkRate(s.crop, float64(s.Rows.Load[i]), speed, froude, cond.Tough, phi, set.Conditions.SideSlope))
	}
	sift := float32(SiftRate(s.crop) / s.crop.StrawRate)
	share := [flow.Kinds]float32{flow.Sound: 1, flow.Light: 1, flow.Broken: 1, flow.Piece: pieceShare, flow.Chaff: sift, flow.Short: sift}
	var ds, lift [4]float32
	for lane := range ds {
		a := s.Crank + float64(float64(lane)*math.Pi/2)
		ds[lane] = float32(speed*(1+float64(carryShare*num.Cos(a)))) * dt // the mat goes on in the throw, in the mean at speed
		lift[lane] = float32(section.CrankThrow * num.Sin(a))
		if stopped {
			ds[lane], lift[lane] = 0, 0
		}
	}
	for i := 0; i < len(s.Mat.Dots); i++ {
		d := &s.Mat.Dots[i]
		if d.Ride == flow.Airborne { // thrown by the beater
			d.Fly(0, 0, dt, s.pull)
			if d.Y > s.height(d.X)+float32(d.Level*s.deep(s.Rows.Cell(d.X), d.X, 0)) && d.X < throwEnd {
				continue
			}
			d.Ride = flow.InMat
		}
		cell := s.Rows.Cell(d.X)
		step := ds[d.Lane]
		d.X += step
		if d.X >= s.Rows.To {
			s.over(i, t)
			i--
			continue
		}
		if d.Mass > 0 {
			s.Rows.Lay(cell, float32(d.Mass)*flow.Microgram, 0)
		}
		if r := share[d.Kind]; r > 0 && s.rng.HappensAt(s.sink[cell]*r*step) {
			s.through(i, t)
			i--
			continue
		}
		want := s.height(d.X) + lift[d.Lane] + float32(d.Level*s.deep(cell, d.X, lift[d.Lane]))
		d.Y += float32((want - d.Y) * rideLag)
	}
	s.Rows.Settle(min(1, dt/matLag))
}

// height returns the resting face of the walkers at x.
func (s *Stage) height(x float32) float32 {
	i := int((x - s.Rows.From) * faceScale)
	return s.face[min(max(i, 0), len(s.face)-1)]
}

// through lets dot i fall through the walkers.
func (s *Stage) through(i int, t *flow.Tally) {
	d := &s.Mat.Dots[i]
	switch {
	case d.Kind == flow.Piece:
		t.Walkers.Pieces += int64(d.Grain)
	case d.Kind.IsKernel():
		t.Walkers.Grain += int64(d.Grain)
	}
	t.Walkers.MOG += int64(d.Mass)
	d.Ride, d.VX, d.VY = flow.Airborne, fallOn, 0
	d.Y = s.height(d.X) - fallUnder
	s.Mat.Move(i, &s.Under)
}

// over lets dot i leave over the rear edge of the walkers: here grain is lost.
func (s *Stage) over(i int, t *flow.Tally) {
	d := &s.Mat.Dots[i]
	if d.Grain > 0 {
		d.Cause = flow.Walker
		if d.Kind == flow.Piece {
			d.Cause = flow.Unthreshed
			t.Unthreshed.Straw += int64(d.Grain)
		}
		t.Lost[d.Cause] += int64(d.Grain)
	}
	t.Walkers.MOGOver += int64(d.Mass)
	d.Ride, d.VX, d.VY = flow.Airborne, overSpeed, 0
	s.Mat.Move(i, &s.Hood)
}

// fall lets what came through the walkers fall onto their pan.
func (s *Stage) fall(dt float32) {
	for i := 0; i < len(s.Under.Dots); i++ {
		d := &s.Under.Dots[i]
		d.Fly(0, 0, dt, s.pull)
		if top := s.pan.At(d.X) + flow.Bed; d.Y <= top {
			d.Y, d.Ride = top, flow.Carried
			s.Under.Move(i, &s.Pan)
			i--
		}
	}
}

// shake moves the walker pan's load forward and drops it onto the conveyor.
func (s *Stage) shake(dt float32, conveyor *flow.Swarm) {
	edge := s.pan.From
	speed := float32(flow.CarryOn(panSpeed, panSwing, -s.pull.Fall()))
	for i := 0; i < len(s.Pan.Dots); i++ {
		d := &s.Pan.Dots[i]
		if d.Ride == flow.Carried {
			d.X -= float32(speed * dt)
			d.Y = s.pan.At(d.X) + flow.Bed + float32(d.Level*panLayer)
			if d.X < edge {
				d.Ride, d.VX, d.VY = flow.Airborne, -speed, 0
			}
			continue
		}
		d.Fly(0, 0, dt, s.pull)
		if d.Y <= s.floor.At(d.X) {
			d.Ride = flow.Carried
			s.Pan.Move(i, conveyor)
			i--
		}
	}
}

// discharge lets the straw fall to the chopper and out, or out as a windrow.
func (s *Stage) discharge(set *setup.Setup, dt float32, lost *flow.Swarm, t *flow.Tally) {
	for i := 0; i < len(s.Hood.Dots); i++ {
		d := &s.Hood.Dots[i]
		d.Fly(hoodAir, 0, dt, s.pull)
		if wall := rearWall(d.Y, set.Settings.Chopper); d.X > wall {
			d.X, d.VX = wall, 0
		}
		if d.Y > float32(section.Chopper.Centre.Y) {
			continue
		}
		if set.Settings.Chopper {
			s.chop(d, lost, t)
		} else {
			t.Ground.Windrow += int64(d.Mass)
		}
		s.Hood.Move(i, lost)
		i--
	}
}

// rearWall returns how far back the straw can fall at a height: to the hood's
// wall, or, while the chopper is off, to the door that stands before it.
func rearWall(y float32, chopper bool) float32 {
	if chopper || y > float32(section.WindrowDoor.B.Y) {
		return hoodWall
	}
	return float32(section.WindrowDoor.A.X) + float32((y-float32(section.WindrowDoor.A.Y))*doorSlope)
}

// doorSlope is the run of the door over its rise: geometry.
const doorSlope = 0.16 / 0.44

// chop cuts a long straw into bits and throws all that comes by out behind.
func (s *Stage) chop(d *flow.Dot, lost *flow.Swarm, t *flow.Tally) {
	t.Ground.Chopped += int64(d.Mass)
	if d.Kind == flow.Straw {
		d.Kind = flow.Short
		bit := d.Mass / choppedIn
		d.Size /= choppedIn
		for range choppedIn - 1 {
			b := *d
			b.Mass = bit
			b.ID = *s.nextID
			*s.nextID++
			s.fling(&b)
			lost.Add(b)
			d.Mass -= bit
		}
	}
	s.fling(d)
}

func (s *Stage) fling(d *flow.Dot) {
	d.VX, d.VY = s.rng.Between(flingLeast, flingMost), s.rng.Between(flingDown, flingUp)
}
