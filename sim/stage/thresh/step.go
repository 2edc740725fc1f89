package thresh

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
	// feedMemory is the time over which the load of the gap is felt, s. It is
	// several stays of the crop in the gap. Calibrated.
	feedMemory = 0.40
	// returnedStraw counts returned grain into the load. Calibrated.
	returnedStraw = 0.33
	// throwOut and throwAlong are the speeds with which what separates leaves
	// the grate, outward m/s and as a share of crop speed. Calibrated.
	throwOut, throwAlong = 1.5, 0.12
	// Properties of loose kernels.
	sizeCV    = 0.08 // of the limiting dimension; from memory (6 to 10 %)
	lightSize = crop.LightSize
	// pushSpeed is the speed with which the feeder pushes the crop through under a
	// cylinder that is stopped, slowestBars the least speed of bars that the laws
	// are asked for, m/s. Chosen.
	pushSpeed, slowestBars = 3, 0.1
	// mostStrikes is as many as a dot counts. Definition.
	mostStrikes = math.MaxUint8
	// shortAgain is the share of returned short straw that falls through the
	// concave on its next pass. Calibrated.
	shortAgain = 0.5
)

// Stage is cylinder and concave.
type Stage struct {
	Gap, Under flow.Swarm
	Drive      Drive
	Rates      Rates
	Angle      float64 // of the cylinder, rad
	Feed       float64 // MOG feed that the gap feels, kg/s over the full width

	crop    *design.Fit
	cond    *crop.Condition
	rng     flow.Stream
	nextID  *uint32
	floor   flow.Surface
	engine  float64 // its speed over the set speed
	pull    flow.Pull
	entered float64    // load that entered this tick, µg
	chaff   float64    // separation rate of chaff, 1/m
	fresh   flow.Swarm // freed in this tick
	shed    Shed       // how chips come off
	bits    [mostBits]flow.Dot
	grate   fault.Grate // wires that are closed
	held    fault.Extra // that the gap holds for it
}

// New returns a cylinder that runs empty.
func New(c *design.Fit, rng flow.Stream, nextID *uint32) *Stage {
	return &Stage{
		Gap: flow.NewSwarm(8192), Under: flow.NewSwarm(8192), fresh: flow.NewSwarm(1024),
		Drive: Drive{X: 1}, engine: 1, crop: c, rng: rng, nextID: nextID, floor: flow.NewSurface(c.Plan.ConveyorFloor),
	}
}

// Enter takes in what the feeder or the returns deliver.
func (s *Stage) Enter(d flow.Dot, t *flow.Tally) {
	d.Along, d.Ride = 0, flow.InMat
	t.Cylinder.Grain += int64(d.Grain)
	t.Cylinder.MOG += int64(d.Mass)
	s.entered += float64(d.Mass)
	if d.Rounds > 0 {
		s.entered += float64(returnedStraw * s.crop.Start.MOGRatio * float64(d.Grain) / flow.Kernel * s.crop.KernelMass * flow.Milligram)
	}
	if d.Kind.IsKernel() {
		t.Cylinder.Free += int64(d.Grain)
		if d.Kind != flow.Broken && s.rng.Happens(float32(s.Rates.Damage)) { // the first bar it meets
			s.Gap.Dots = append(s.Gap.Dots, s.breakKernel(&d, t)...)
		}
	}
	s.Gap.Add(d)
}

// Step threshes for dt seconds at an engine speed over its set speed: what
// separates lands on the conveyor, the rest goes out over the end of the
// concave.
func (s *Stage) Step(set *setup.Setup, cond *crop.Condition, engine float64, dt float32, conveyor, over *flow.Swarm, t *flow.Tally) {
	s.cond, s.engine, s.pull = cond, engine, flow.PullOn(set.Conditions.ForeSlope)
	s.turn(set, dt, t)
	s.thresh(set, dt, over, t)
	s.fall(dt, conveyor)
}

// RPM returns the speed of the cylinder.
func (s *Stage) RPM(set *setup.Setup) float64 {
	return float64(s.Drive.X * s.asked(set))
}

// asked is the speed that the cylinder would have without load of its own.
func (s *Stage) asked(set *setup.Setup) float64 { return s.engine * set.Settings.CylinderSpeed }

// turn takes up the load of this tick and advances the drive and the laws.
func (s *Stage) turn(set *setup.Setup, dt float32, t *flow.Tally) {
	c := s.crop
	now := s.entered * flow.Microgram / float64(dt) * section.InnerWidth / (c.Slice / flow.MM)
	s.entered = 0
	s.Feed += float64((now - s.Feed) * float64(dt) / feedMemory)
	asked := s.asked(set)
	omega := asked * (2 * math.Pi / flow.Minute)
	if set.Stopped.Has(setup.CylinderPart) {
		s.Drive = Drive{X: 1}
	} else {
		s.Drive.Turn(Idle(asked), workPower(c, &set.Settings, s.cond, asked, s.felt()), omega, float64(dt))
		s.Angle += float64(s.Drive.X * omega * float64(dt))
	}
	t.Work.Ticks++
	t.Work.RPM += s.RPM(set)
	s.Rates = RatesOf(c, set, s.cond, LoadOf(c, &set.Settings, s.RPM(set), s.felt())).ground(s.held)
	s.chaff = ChaffRate(s.Rates.Lambda, s.Rates.Chaff/c.Husk, c.Plan.ConcaveLength)
	s.shed = ShedOf(s.Rates.Fines)
}

// pass is what one tick in the gap does: how far the crop goes, how often bars
// pass, and what each kind meets.
type pass struct {
	ds      float32             // m
	length  float64             // of the concave, m
	strikes float32             // a m
	fresh   float32             // chance a strike that a kernel comes loose
	again   float32             // the same for a returned piece
	shorten float32             // short pieces a strike takes off a straw
	along   float64             // speed with which what falls through goes on along the grate, m/s
	rate    [flow.Kinds]float32 // separation through open wires, 1/m
	grate   *fault.Grate        // nil where no wire is closed
}

func (s *Stage) passOf(set *setup.Setup, dt float32) pass {
	c, r, plan := s.crop, &s.Rates, s.crop.Plan
	d := 2 * plan.Cylinder.R
	if set.Stopped.Has(setup.CylinderPart) { // the crop is only pushed through
		p := pass{ds: pushSpeed * dt, length: plan.ConcaveLength, strikes: 1}
		return p
	}
	bars := BarSpeed(s.RPM(set), d)
	along := cropSpeed * max(bars, slowestBars)
	// Bars pass a dot at the difference of their speeds, one every πD/8 m.
	strikes := (1 - cropSpeed) / cropSpeed / (math.Pi * d / plan.RaspBars)
	loose := float32(r.Beta)
	p := pass{
		ds: float32(along) * dt, length: plan.ConcaveLength, strikes: float32(strikes), along: throwAlong * along,
		fresh: float32(num.Chance(r.Lambda / strikes)), again: float32(num.Chance(r.Return / strikes)),
		shorten: float32(r.Short / (1 - c.Husk) * c.Straw.DotMass() / c.Short.DotMass() / plan.ConcaveLength / strikes),
		rate: [flow.Kinds]float32{
			flow.Sound: loose, flow.Light: loose, flow.Broken: loose, flow.Piece: pieceRate, flow.Chaff: float32(s.chaff),
			flow.Weed:  float32(-num.Log(1-weedShare) / plan.ConcaveLength),
			flow.Short: float32(-num.Log(1-shortAgain) / plan.ConcaveLength),
		},
	}
	if s.grate.Any() {
		p.grate = &s.grate
	}
	return p
}

// thresh moves every dot in the gap along the concave.
func (s *Stage) thresh(set *setup.Setup, dt float32, over *flow.Swarm, t *flow.Tally) {
	p := s.passOf(set, dt)
	front, rear := Gaps(s.crop, set.Settings.Clearance)
	for i := 0; i < len(s.Gap.Dots); i++ {
		d := &s.Gap.Dots[i]
		from := d.Along
		d.Along += p.ds
		first, end := p.struck(from, d.Along, d.Level)
		switch d.Kind {
		case flow.Piece:
			s.open(d, first, end, &p, over, t)
		case flow.Straw:
			s.cutShort(d, first, end, &p, over, t)
		}
		if d.Grain == 0 && d.Mass == 0 || s.onward(d, from, &p, over, t) {
			s.Gap.Remove(i)
			i--
			continue
		}
		s.place(d, front, rear)
	}
	for i := range s.fresh.Dots {
		s.place(&s.fresh.Dots[i], front, rear)
	}
	s.Gap.Dots = append(s.Gap.Dots, s.fresh.Dots...)
	s.fresh.Dots = s.fresh.Dots[:0]
}

// struck returns which strikes, of those that a dot in phase h takes, it takes
// on its way from one place to another: from number first to before end.
func (p *pass) struck(from, to, h float32) (first, end int) {
	to = min(to, float32(p.length))
	return int(float32(from*p.strikes) + h), int(float32(to*p.strikes) + h)
}

// strikeAt returns where a dot in phase h takes the strike after number n.
func (p *pass) strikeAt(n int, h float32) float32 { return (float32(n+1) - h) / p.strikes }

// open lets bars hit a piece: at each strike each kernel in it may come loose,
// and takes its share of the husk with it.
func (s *Stage) open(d *flow.Dot, first, end int, p *pass, over *flow.Swarm, t *flow.Tally) {
	chance := p.fresh
	if d.Rounds > 0 {
		chance = p.again
	}
	for h := first; h < end; h++ {
		d.Strikes = min(d.Strikes, mostStrikes-1) + 1
		t.Cylinder.Strikes++
		at := p.strikeAt(h, d.Level)
		for n := d.Kernels(); n > 0; n-- {
			if !s.rng.Happens(chance) {
				continue
			}
			left := d.Kernels()
			for husks := int(d.Husks) / left; husks > 0; husks-- {
				s.freeHusk(d, at, p, over, t)
			}
			s.freeKernel(d, at, p, over, t)
		}
	}
}

// freeKernel takes one kernel out of a piece. Only now is it seen what kernel
// it is, and whether the bar that freed it breaks it.
func (s *Stage) freeKernel(d *flow.Dot, at float32, p *pass, over *flow.Swarm, t *flow.Tally) {
	c := s.crop
	d.Grain -= flow.Kernel
	t.Cylinder.Freed += flow.Kernel
	k := *d
	k.ID, k.From = s.number(), d.ID
	k.Kind, k.Grain, k.Mass, k.Husks = flow.Sound, flow.Kernel, 0, 0
	vt, size := c.Vt, c.Size
	if s.rng.Happens(float32(s.cond.Light)) {
		k.Kind, vt, size = flow.Light, c.LightVt, c.Size*lightSize
	}
	k.Vt = s.rng.Normal(vt*s.cond.Grain, c.VtCV*vt)
	k.Size = s.rng.Normal(size, sizeCV*size)
	k.Level = s.rng.Float()
	if s.rng.Happens(float32(s.Rates.Damage)) {
		for _, bit := range s.breakKernel(&k, t) {
			s.emerge(bit, at, p, over, t)
		}
	}
	s.emerge(k, at, p, over, t)
}

// freeHusk lets one dot of chaff go from a piece.
func (s *Stage) freeHusk(d *flow.Dot, at float32, p *pass, over *flow.Swarm, t *flow.Tally) {
	h := *d
	h.ID = s.number()
	h.Kind, h.Grain, h.Husks = flow.Chaff, 0, 0
	h.Mass = d.Mass / uint32(d.Husks)
	d.Mass -= h.Mass
	d.Husks--
	h.Vt, h.Size, h.Level = float32(s.crop.Chaff.Vt*s.cond.MOG), float32(s.crop.PieceSize), s.rng.Float()
	s.emerge(h, at, p, over, t)
}

// cutShort lets bars break short pieces off a long straw; they fall through
// the grate where they are broken off, save over closed wires.
func (s *Stage) cutShort(d *flow.Dot, first, end int, p *pass, over *flow.Swarm, t *flow.Tally) {
	bit := uint32(s.crop.Short.DotMass())
	for hit := first; hit < end; hit++ {
		d.Strikes = min(d.Strikes, mostStrikes-1) + 1
		for n := p.shorten; n > 0; n-- {
			if !s.rng.Happens(n) || d.Mass <= bit {
				continue
			}
			b := *d
			b.ID = s.number()
			b.Kind, b.Mass = flow.Short, bit
			b.Size = d.Size * float32(bit) / float32(d.Mass)
			b.Vt = float32(s.crop.Short.Vt * s.cond.MOG)
			d.Size -= b.Size
			d.Mass -= bit
			if p.grate != nil {
				at := p.strikeAt(hit, d.Level)
				if !s.lets(d.Lane, at, p) {
					b.Level = s.rng.Float()
					s.emerge(b, at, p, over, t)
					continue
				}
				b.Along = at
			}
			s.through(b, p, t)
		}
	}
}

// emerge sends a dot that came loose at a point of the concave on for the rest
// of this tick.
func (s *Stage) emerge(k flow.Dot, at float32, p *pass, over *flow.Swarm, t *flow.Tally) {
	if !s.onward(&k, at, p, over, t) {
		s.fresh.Add(k)
	}
}

// onward lets a dot go from a point of the concave to its S. It reports
// whether the dot left the gap: through the grate or over the end.
func (s *Stage) onward(d *flow.Dot, from float32, p *pass, over *flow.Swarm, t *flow.Tally) bool {
	end := min(d.Along, float32(p.length))
	if rate := p.rate[d.Kind]; rate > 0 {
		for w := from + float32(s.rng.Wait(float64(rate))); w < end; w += float32(s.rng.Wait(float64(rate))) {
			if s.lets(d.Lane, w, p) {
				d.Along = w
				s.through(*d, p, t)
				return true
			}
			s.knock(d, w, p, over, t)
		}
	}
	if d.Along < float32(p.length) {
		return false
	}
	switch {
	case d.Kind == flow.Piece:
		t.Cylinder.Over += int64(d.Grain)
	case d.Kind.IsKernel():
		t.Walkers.Free += int64(d.Grain)
	}
	d.Along = 0
	over.Add(*d)
	return true
}

// through lets a dot fall through the grate where it is.
func (s *Stage) through(d flow.Dot, p *pass, t *flow.Tally) {
	switch {
	case d.Kind == flow.Piece:
		t.Cylinder.Through += int64(d.Grain)
	case d.Kind.IsKernel():
		t.Cylinder.Separated += int64(d.Grain)
	}
	t.Cylinder.MOGOut += int64(d.Mass)
	plan := s.crop.Plan
	a := plan.ArcFrom + float64(float64(d.Along)*(plan.Arc/plan.ConcaveLength))
	cos, sin := num.Cos(a), num.Sin(a)
	grate := plan.ConcaveLength / plan.Arc // radius of the concave's outer face, m
	d.X = float32(plan.Cylinder.Centre.X + float64(grate*cos))
	d.Y = float32(plan.Cylinder.Centre.Y + float64(grate*sin))
	d.VX = float32(float64(throwOut*cos) - float64(p.along*sin))
	d.VY = float32(float64(throwOut*sin) + float64(p.along*cos))
	d.Ride = flow.Airborne
	s.Under.Add(d)
}

// fall lets what came through the grate fall onto the conveyors.
func (s *Stage) fall(dt float32, conveyor *flow.Swarm) {
	left, right := float32(s.crop.Plan.ConveyorFront), float32(s.crop.Plan.ConveyorTo) // the walls
	for i := 0; i < len(s.Under.Dots); i++ {
		d := &s.Under.Dots[i]
		d.Fly(0, 0, dt, s.pull)
		if d.X < left || d.X > right { // the walls
			d.X, d.VX = min(max(d.X, left), right), 0
		}
		if d.Y > s.floor.At(d.X) {
			continue
		}
		d.Ride = flow.Carried
		s.Under.Move(i, conveyor)
		i--
	}
}

// place puts a dot between the bars and the concave at its distance Along.
func (s *Stage) place(d *flow.Dot, front, rear float64) {
	plan := s.crop.Plan
	share := float64(d.Along) / plan.ConcaveLength
	a := plan.ArcFrom + float64(share*plan.Arc)
	r := plan.Cylinder.R + float64(float64(d.Level)*(front+float64((rear-front)*share))/flow.MM)
	d.X = float32(plan.Cylinder.Centre.X + float64(r*num.Cos(a)))
	d.Y = float32(plan.Cylinder.Centre.Y + float64(r*num.Sin(a)))
}

func (s *Stage) number() uint32 {
	id := *s.nextID
	*s.nextID++
	return id
}
