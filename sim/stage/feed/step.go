package feed

import (
	"riddle/sim/setup"
	"riddle/sim/stage/design"
	"riddle/sim/stage/flow"
	"riddle/sim/stage/section"
	"riddle/sim/trade/crop"
)

const (
	// chainSpeed brings the crop from the cutter bar to the cylinder in about
	// 2.0 s, m/s. Calibrated.
	chainSpeed = 2.1
	// matDensity of the crop on platform and chain, kg/m³. Calibrated.
	matDensity = 25
	// feederHolds is the thickness of mat at which the throat is full, m. Geometry.
	feederHolds = 0.50
	// cobLength of a whole cob, mm. From memory.
	cobLength = 180
	// pieceVtCV spreads the terminal velocity of unthreshed pieces. Calibrated.
	pieceVtCV = 0.12
	// lowestHead over the ground, m. Chosen, as a limit.
	lowestHead = 0.02
	// shortest stalk, mm, and the least share of a stalk that is left when it is
	// cut; the weed's size, mm. They are only drawn. Chosen.
	shortest, leastLeft, weedSize = 30.0, 0.7, 60
	lanes                         = 4 // across the machine, one a walker: geometry
	// shedKeeps is the share of the reel's push that a kernel which it shatters
	// keeps. Chosen.
	shedKeeps = 0.3
	// Cut crop lies once it is this near to the platform, m, or past this x, where
	// the throat begins. Geometry.
	platformNear, throatX = 0.05, -2.5
	// thickLag is the share by which the mat's thickness follows its mass in a
	// tick. Chosen.
	thickLag  = 0.1
	cellCount = 16
)

// Stage is header and feeder.
type Stage struct {
	Standing, Cutting, Mat flow.Swarm
	Travel                 float64            // of the chain, m
	Ground                 float64            // distance driven, m
	Thick                  [cellCount]float32 // of the mat along the path, m

	crop   *design.Fit
	rng    flow.Stream
	path   *flow.Path
	floor  flow.Bowl
	nextID *uint32
	pull   flow.Pull
	due    struct{ piece, husk, straw, weed float64 }
}

// New returns an empty header and feeder house.
func New(c *design.Fit, rng flow.Stream, nextID *uint32) *Stage {
	return &Stage{
		Standing: flow.NewSwarm(8192), Cutting: flow.NewSwarm(4096), Mat: flow.NewSwarm(16384),
		crop: c, rng: rng, nextID: nextID,
		path: flow.NewPath(c.Plan.FeedPath...), floor: flow.NewBowl(c.Plan.FeedPath),
	}
}

// CellX returns the x of the middle of cell i of the mat along the feed path, m.
func (s *Stage) CellX(i int) float32 {
	d := flow.Dot{Along: float32((float32(i) + 0.5) * s.path.Length / cellCount)}
	s.path.Place(&d, 0)
	return d.X
}

// Deep returns how deep the mat lies in cell i, m: in a full throat it is
// pressed.
func (s *Stage) Deep(i int) float32 { return flow.Pressed(s.Thick[i], feederHolds-flow.Clear) }

// Full reports whether the mat fills the throat of the feeder house.
func (s *Stage) Full() bool {
	for _, t := range s.Thick {
		if t > feederHolds {
			return true
		}
	}
	return false
}

// Step drives on for dt seconds. What reaches the cylinder goes out, what the
// header loses goes to the ground.
func (s *Stage) Step(set *setup.Setup, cond *crop.Condition, dt float32, out, lost *flow.Swarm, t *flow.Tally) {
	ds := float32(set.Settings.GroundSpeed/flow.KMH) * dt
	s.pull = flow.PullOn(set.Conditions.ForeSlope)
	s.Ground += float64(ds)
	s.grow(set, cond, float64(ds))
	s.meet(set, cond, ds, lost, t)
	s.land(dt)
	s.carry(set, dt, out)
}

// grow lets new crop come over the horizon.
func (s *Stage) grow(set *setup.Setup, cond *crop.Condition, ds float64) {
	c := s.crop
	stand := StandOf(c.Crop, set, section.InnerWidth)
	n := float64(c.PieceKernels)
	s.due.piece += float64(stand.Kernels / n * ds)
	huskDots := stand.Husk / c.Chaff.DotMass() / (stand.Kernels / n) // a piece
	for ; s.due.piece >= 1; s.due.piece-- {
		s.due.husk += huskDots
		dots := float64(int(s.due.husk))
		s.due.husk -= dots
		s.add(flow.Dot{
			Kind: flow.Piece, Grain: uint16(c.PieceKernels * flow.Kernel), Heads: uint8(c.PieceKernels),
			Mass: uint32(dots * c.Chaff.DotMass()), Husks: uint8(dots),
			Vt:   s.rng.Normal(c.PieceVt*cond.Grain, pieceVtCV*c.PieceVt),
			Size: max(1, s.rng.Normal(c.PieceSize, c.PieceSD)),
			Y:    max(lowestHead, s.rng.Normal(c.Header.HeadHeight/flow.CM, c.Header.HeadSD/flow.CM)),
		}, ds)
	}
	length, middle := (c.Header.Plant-set.Settings.CuttingHeight)*(flow.MM/flow.CM), (c.Header.Plant+set.Settings.CuttingHeight)/(2*flow.CM)
	if c.Header.Snaps {
		length, middle = cobLength, c.Header.HeadHeight/flow.CM
	}
	s.due.straw += float64(stand.Straw / c.Straw.DotMass() * ds)
	for ; s.due.straw >= 1; s.due.straw-- {
		s.add(flow.Dot{
			Kind: flow.Straw, Mass: uint32(c.Straw.DotMass()), Y: float32(middle),
			Vt: float32(c.Short.Vt * cond.MOG), Size: float32(max(shortest, length)) * s.rng.Between(leastLeft, 1),
		}, ds)
	}
	s.due.weed += float64(stand.Weed / c.Weed.DotMass() * ds)
	for ; s.due.weed >= 1; s.due.weed-- {
		s.add(flow.Dot{
			Kind: flow.Weed, Mass: uint32(c.Weed.DotMass()), Y: float32(middle) * s.rng.Between(0.5, 1),
			Vt: float32(c.Weed.Vt * cond.MOG), Size: weedSize,
		}, ds)
	}
}

func (s *Stage) add(d flow.Dot, ds float64) {
	d.X = section.Horizon + float32(float32(ds)*s.rng.Float())
	d.Level = s.rng.Float()
	d.Lane = uint8(s.rng.Between(0, lanes)) & (lanes - 1)
	d.ID = *s.nextID
	*s.nextID++
	s.Standing.Add(d)
}

// meet moves the standing crop towards the header and cuts what reaches it.
func (s *Stage) meet(set *setup.Setup, cond *crop.Condition, ds float32, lost *flow.Swarm, t *flow.Tally) {
	loss := float32(ShatterLoss(s.crop.Crop, &set.Settings, cond.Moist) / flow.Percent)
	push := float32(set.Settings.GroundSpeed / flow.KMH)
	if !s.crop.Header.Snaps {
		push *= float32(set.Settings.ReelIndex)
	}
	cut := float32(set.Settings.CuttingHeight / flow.CM)
	bar := float32(s.crop.Plan.CutterBar.X)
	dots := &s.Standing
	for i := 0; i < len(dots.Dots); i++ {
		d := &dots.Dots[i]
		d.X += ds
		if d.X < bar {
			continue
		}
		if set.Stopped.Has(setup.HeaderPart) { // nothing is cut: the crop is run over
			dots.Remove(i)
			i--
			continue
		}
		d.VX, d.Ride = push, flow.Airborne
		if d.Kind != flow.Piece {
			t.InMOG += int64(d.Mass)
			dots.Move(i, &s.Cutting)
			i--
			continue
		}
		s.gather(d, loss, cut, lost, t)
		if d.Cause != flow.NotLost || d.Grain == 0 {
			dots.Remove(i)
		} else {
			t.InMOG += int64(d.Mass)
			dots.Move(i, &s.Cutting)
		}
		i--
	}
}

// gather lets the header take one head, pod or ear piece, or lose it or some
// of its kernels.
func (s *Stage) gather(d *flow.Dot, loss, cut float32, lost *flow.Swarm, t *flow.Tally) {
	t.In += int64(d.Grain)
	missed := d.Y < cut
	perKernel := loss
	if s.crop.Header.Snaps {
		missed = s.rng.Happens(loss * droppedShare)
		perKernel = loss * (1 - droppedShare)
	}
	if missed {
		d.Cause = flow.Header
		if !s.crop.Header.Snaps {
			d.Ride = flow.AtRest // it stays on the stubble
		}
		t.Lost[flow.Header] += int64(d.Grain)
		lost.Add(*d)
		return
	}
	for range d.Kernels() {
		if !s.rng.Happens(perKernel) {
			continue
		}
		d.Grain -= flow.Kernel
		t.Lost[flow.Header] += flow.Kernel
		k := *d
		k.Kind, k.Grain, k.Mass, k.Cause = flow.Sound, flow.Kernel, 0, flow.Header
		k.Vt, k.Size, k.VX = float32(s.crop.Vt), float32(s.crop.Size), k.VX*shedKeeps
		k.ID, k.From = *s.nextID, d.ID
		*s.nextID++
		lost.Add(k)
	}
}

// land lets the cut crop fall onto the platform.
func (s *Stage) land(dt float32) {
	for i := 0; i < len(s.Cutting.Dots); i++ {
		d := &s.Cutting.Dots[i]
		d.Fly(d.VX, 0, dt, s.pull)
		if d.Y > s.floor.At(d.X)+platformNear && d.X < throatX {
			continue
		}
		d.Along, d.Ride = s.path.Nearest(d.X), flow.InMat
		s.Cutting.Move(i, &s.Mat)
		i--
	}
}

// carry moves the mat along platform and chain.
func (s *Stage) carry(set *setup.Setup, dt float32, out *flow.Swarm) {
	ds := float32(chainSpeed * dt)
	if set.Stopped.Has(setup.FeederPart) {
		ds = 0
	}
	s.Travel += float64(ds)
	perCell := cellCount / s.path.Length
	width := float32(s.crop.Slice / flow.MM)
	kernel := float32(s.crop.KernelKg() / flow.Kernel)
	var mass [cellCount]float32
	for i := 0; i < len(s.Mat.Dots); i++ {
		d := &s.Mat.Dots[i]
		d.Along += ds
		if d.Along >= s.path.Length {
			d.Along = 0
			s.Mat.Move(i, out)
			i--
			continue
		}
		cell := min(int(d.Along*perCell), cellCount-1)
		mass[cell] += float32(float32(d.Mass)*flow.Microgram) + float32(float32(d.Grain)*kernel)
		s.path.Place(d, flow.Bed+float32(d.Level*s.Deep(cell)))
	}
	for i := range mass {
		now := mass[i] * perCell / width / matDensity
		s.Thick[i] += float32((now - s.Thick[i]) * thickLag)
	}
}
