package shoe

import (
	"math"

	"riddle/sim/num"
	"riddle/sim/setup"
	"riddle/sim/stage/design"
	"riddle/sim/stage/flow"
	"riddle/sim/stage/section"
	"riddle/sim/trade/crop"
)

const (
	conveyorSpeed = 0.5  // m/s, machine geometry. Calibrated.
	conveyorHolds = 90   // kg/m² on the conveyors at which they are full. Calibrated.
	clumpVt       = 12   // m/s, of a clump of MOG that the air cannot open. Calibrated.
	upperCells    = 30   // of the mat, 50 mm each. Chosen.
	lowerCells    = 26   // 50 mm each. Chosen.
	airMemory     = 0.10 // s over which the air follows the mats. Calibrated.
	matMemory     = 0.07 // s over which a mat is felt, in a slice of matSlice and more. Calibrated.
	matSlice      = 14.0 // mm. In a thinner slice the mat is felt for longer, so that it is felt over as much of it. Calibrated.
	matReach      = 4    // cells on each side over which pieces of the mat reach. Calibrated.
	loadMemory    = 0.5  // s over which the lower sieve's load, and that of the air, is felt. Calibrated.
)

// Stage is conveyors, fan and sieves.
type Stage struct {
	Conveyor, Falling, Pre, Collecting, Upper, Between, Lower, Dropping flow.Swarm
	Air                                                                 Blast
	UpperMat                                                            flow.Mat
	Open                                                                [upperCells]float32 // how far each cell of the mat is opened
	Phase                                                               float64             // of the shaking, rad
	FanAngle                                                            float64             // rad

	crop *design.Fit
	rng  flow.Stream

	floor, preFace, upperFace, lowerFace, panFace, ceiling, tail, back flow.Surface
	troughs                                                            flow.Bowl

	felt               [upperCells]bed // the upper mat, as air and grain feel it
	matK               [3]float64      // resistance of the mat in each section, as felt
	lifted, liftTick   [3]float64      // MOG taken off the mat in each section: as felt, kg/(s m²), and in this tick, kg
	conveyorLoad       float32         // kg/m²
	upper              [upperCells]upperCell
	lower              [lowerCells]lowerCell
	grainOn, mogOn     float64 // landing on the lower sieve, kg/s a metre of width
	grainTick, mogTick float64 // kg in this tick
	carry              float32 // speed of a resting mat, m/s
	memory             float32 // over which a mat is felt, s
	period, launch     float32 // of the shaking, s, and of the throw, m/s
	rated              float64 // grain landing at the start, kg/s a metre
	side               float64 // factor on loads by the side slope
	pull               flow.Pull
}

// bed is the mat on a stretch of the upper sieve: its load, kg/m², and its mean
// terminal velocity, m/s.
type bed struct{ load, vt float64 }

// upperCell is what a dot meets on a stretch of the upper sieve.
type upperCell struct {
	v, vn, veq float32
	over       float32    // blast over the sieve, laden, m/s
	load       float32    // kg/m²
	thick      float32    // of the mat, m
	deep       float32    // at which it lies, m: under the walkers' pan it is pressed
	speed      float32    // of the mat, m/s
	sink       float32    // of grain in the mat, m/s, drag apart
	lift       [3]float32 // chance a metre that MOG of a class is lifted, 1/m
	drop       [3]float32 // falls through, 1/m
	open       float32    // mm
}

// lowerCell is the same on the lower sieve.
type lowerCell struct {
	v, vn, veq float32
	lift, drop [3]float32
}

// class returns the MOG class of a kind: 0 chaff, 1 short straw, 2 weeds.
func class(k flow.Kind) int {
	switch k {
	case flow.Chaff:
		return 0
	case flow.Weed:
		return 2
	}
	return 1
}

func (s *Stage) classes() [3]*crop.Class {
	return [3]*crop.Class{&s.crop.Chaff, &s.crop.Short, &s.crop.Weed}
}

// New returns an empty shoe whose fan has not started.
func New(c *design.Fit, rng flow.Stream) *Stage {
	s := without(c)
	s.rng = rng
	s.Conveyor, s.Falling, s.Pre, s.Collecting = flow.NewSwarm(16384), flow.NewSwarm(4096), flow.NewSwarm(8192), flow.NewSwarm(8192)
	s.Upper, s.Between, s.Lower, s.Dropping = flow.NewSwarm(32768), flow.NewSwarm(8192), flow.NewSwarm(16384), flow.NewSwarm(4096)
	return s
}

// without returns a shoe that has no room for dots.
func without(c *design.Fit) *Stage {
	start, plan := c.Start, c.Plan
	s := &Stage{
		memory:   float32(matMemory * max(1, matSlice/c.Slice)),
		UpperMat: flow.NewMat(plan.UpperSieve.A.X, plan.UpperSieve.B.X, upperCells, c.Slice/flow.MM),
		crop:     c,
		floor:    flow.NewSurface(plan.ConveyorFloor), upperFace: flow.NewSurface(plan.UpperSieve),
		lowerFace: flow.NewSurface(plan.LowerSieve), panFace: flow.NewSurface(plan.CollectingPan), ceiling: flow.NewSurface(plan.WalkerPan), tail: flow.NewSurface(plan.TailPlate),
		rated: start.Yield * start.HeaderWidth * start.GroundSpeed / (flow.TonnesHa * flow.KMH) / section.InnerWidth,
	}
	if plan.PreSieve != nil {
		s.preFace = flow.NewSurface(*plan.PreSieve)
	}
	trough := plan.GrainTrough
	if plan.Returns != nil {
		trough = append(append([]section.Point{}, trough...), plan.Returns.Trough...)
	}
	s.troughs = flow.NewBowl(trough)
	rim := trough[len(trough)-1]
	s.back = flow.NewSurface(section.Line{A: rim, B: section.Point{X: rim.X + 1, Y: rim.Y}})
	return s
}

// Full reports whether the conveyors hold all they can.
func (s *Stage) Full() bool { return s.conveyorLoad > conveyorHolds }

// Outlets are the swarms that take what leaves the shoe.
type Outlets struct {
	Grain, Returns, Lost *flow.Swarm
}

// Clean works for dt seconds at an engine speed over its set speed.
func (s *Stage) Clean(set *setup.Setup, cond *crop.Condition, engine float64, dt float32, out Outlets, t *flow.Tally) {
	s.blow(set, cond, engine, dt)
	s.convey(set, cond, dt, t)
	s.overStep(cond, dt)
	s.preSieve(set, cond, dt, t)
	s.collect(dt)
	s.sieveUpper(set, cond, dt, out, t)
	s.fallBetween(set, dt, out, t)
	s.sieveLower(set, cond, dt, out, t)
	s.dropGrain(dt, out, t)
}

// blow lets fan and mats find their air, and works out what each stretch of
// the sieves does with it.
func (s *Stage) blow(set *setup.Setup, cond *crop.Condition, engine float64, dt float32) {
	fan := s.drive(set, engine)
	s.FanAngle += float64(fan * (2 * math.Pi / flow.Minute) * float64(dt))
	s.Phase += float64(engine * (section.ShakeHz * 2 * math.Pi) * float64(dt))
	s.UpperMat.Settle(dt / s.memory)
	s.feel()
	for i, k := range s.resistance() {
		s.matK[i] += float64((k - s.matK[i]) * float64(dt) / airMemory)
	}
	s.carryOff(dt)
	s.Air = BlastOf(s.crop.Plan.UpperLength, fan, set.Settings.Upper, set.Settings.Lower, s.matK, s.lifted)
	s.setUpper(set, cond)
	s.setLower(set, cond)
	share := float64(dt) / loadMemory
	perWidth := 1 / float64(dt) / (s.crop.Slice / flow.MM)
	s.grainOn += float64((float64(s.grainTick*perWidth) - s.grainOn) * share)
	s.mogOn += float64((float64(s.mogTick*perWidth) - s.mogOn) * share)
	s.grainTick, s.mogTick = 0, 0
}

// carryOff takes up what the air lifted in this tick.
func (s *Stage) carryOff(dt float32) {
	third := s.crop.Plan.UpperLength / paths
	perArea := s.side / float64(dt) / (third * s.crop.Slice / flow.MM)
	share := float64(dt) / loadMemory
	for i, kg := range s.liftTick {
		s.lifted[i] += float64((float64(kg*perArea) - s.lifted[i]) * share)
		s.liftTick[i] = 0
	}
}

// drive takes up engine speed and slopes, and returns the speed of the fan, rpm.
func (s *Stage) drive(set *setup.Setup, engine float64) float64 {
	tilt := math.Abs(set.Conditions.SideSlope)
	s.side = 1 / (1 - tilt/sideLoad)
	s.pull = flow.PullOn(set.Conditions.ForeSlope)
	s.carry = float32(flow.CarryOn(engine*carrySpeed, engine*swing, s.pull.Fall()))
	s.period, s.launch = float32(1/(engine*section.ShakeHz)), float32(engine*LaunchSpeed)
	if set.Stopped.Has(setup.FanPart) {
		return 1
	}
	return engine * set.Settings.Fan * (1 - tilt/sideLeak)
}

// resistance returns that of the mat in each section of the upper sieve.
func (s *Stage) resistance() (k [3]float64) { return s.resistanceOf(s.side) }

func (s *Stage) resistanceOf(side float64) (k [3]float64) {
	for i, b := range s.felt {
		vmf := bedVoid * max(b.vt, leastMatVt)
		k[i*paths/upperCells] += MatResistance(Spread(b.load*side), vmf) / (upperCells / paths)
	}
	return k
}

const (
	paths      = 3   // of the air side by side through the upper sieve: front, middle, rear. Chosen.
	leastMatVt = 0.5 // m/s, mean terminal velocity of a mat that the law of resistance is asked for. Chosen, as a limit.
)

// feel spreads the mat over the neighbours of each cell, the nearer ones with
// more weight: pieces of straw lie over one another and bridge the gaps.
func (s *Stage) feel() {
	for i := range s.felt {
		all, load, weighed := 0.0, 0.0, 0.0
		for j := max(i-matReach, 0); j <= min(i+matReach, upperCells-1); j++ {
			w := float64(matReach + 1 - max(i-j, j-i))
			all += w
			load += float64(w * float64(s.UpperMat.Load[j]))
			weighed += float64(w * float64(s.UpperMat.Load[j]) * float64(s.UpperMat.Vt[j]))
		}
		s.felt[i] = bed{load: load / all}
		if load > 0 {
			s.felt[i].vt = weighed / load
		}
	}
}

func (s *Stage) setUpper(set *setup.Setup, cond *crop.Condition) {
	c := s.crop
	falls, length := c.Falls(), c.Plan.UpperLength
	for i := range s.upper {
		u := &s.upper[i]
		at := float64((float64(i) + 0.5) * length / upperCells)
		v, vn, over := s.Air.At(at, length)
		veq := Lifting(v)
		load := s.felt[i].load * s.side
		open := Opened(veq, s.felt[i].vt)
		o := set.Settings.Upper
		if at > c.Plan.UpperTail {
			o += section.UpperTailWider
		}
		if set.Stopped.Has(setup.UpperPart) {
			o = 0
		}
		s.Open[i] = float32(open)
		*u = upperCell{
			v: float32(v), vn: float32(vn), veq: float32(veq), over: float32(over), load: float32(load),
			thick: float32(max(load/c.MatDensity, thinMat)), speed: s.carry * float32(1+open),
			sink: float32(SinkSpeed(c, cond.Damp, open, 0, 1)), open: float32(o),
		}
		wider := num.Pow(o/c.Start.Upper, mogOpening)
		u.deep = s.pressed(i, u.thick)
		for j, cl := range s.classes() {
			f := num.Phi((veq - float64(cl.Vt*cond.MOG)) / cl.Spread)
			u.lift[j] = float32(liftRate * f)
			u.drop[j] = float32(falls[j].Upper * wider * (1 - float64(liftedMisses*f)))
		}
	}
}

// pressed returns how deep a mat lies on a stretch of the upper sieve, m: what
// would reach the walkers' pan is pressed. The sieve shakes under it.
func (s *Stage) pressed(cell int, thick float32) float32 {
	x := s.UpperMat.Middle(cell)
	return flow.Pressed(thick, s.ceiling.At(x)-s.upperFace.At(x)-section.ShakeAmplitude)
}

// Deep returns how deep the mat lies in a cell of the upper sieve, m.
func (s *Stage) Deep(cell int) float32 {
	return s.pressed(cell, s.UpperMat.Load[cell]/float32(s.crop.MatDensity))
}

func (s *Stage) setLower(set *setup.Setup, cond *crop.Condition) {
	o := set.Settings.Lower
	if set.Stopped.Has(setup.LowerPart) {
		o = 0
	}
	wider := num.Pow(o/s.crop.Start.Lower, mogOpeningLower)
	falls, plan := s.crop.Falls(), s.crop.Plan
	for i := range s.lower {
		l := &s.lower[i]
		v, vn, _ := s.Air.At((float64(i)+0.5)*plan.LowerLength/lowerCells+plan.LowerBehind, plan.UpperLength)
		l.v, l.vn, l.veq = float32(lowerAir*v), float32(lowerAir*vn), float32(Lifting(lowerAir*v))
		for j, cl := range s.classes() {
			f := num.Phi((Lifting(betweenAir*v) - float64(cl.Vt*cond.MOG)) / cl.Spread)
			l.lift[j] = float32(liftRate * f)
			l.drop[j] = float32(falls[j].Lower * wider)
		}
	}
}

// attitude returns a terminal velocity of a piece of MOG as it happens to lie.
func (s *Stage) attitude(k flow.Kind, cond *crop.Condition) float32 {
	cl := s.classes()[class(k)]
	return max(leastVt, s.rng.Normal(cl.Vt*cond.MOG, cl.Spread))
}

// leastVt is the least terminal velocity of a piece of MOG, m/s. Chosen, as a
// limit.
const leastVt = 0.4
