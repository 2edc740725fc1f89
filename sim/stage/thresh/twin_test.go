package thresh

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"riddle/sim/check/agree"
	"riddle/sim/setup"
	"riddle/sim/stage/design"
	"riddle/sim/stage/fault"
	"riddle/sim/stage/flow"
	"riddle/sim/stage/section"
	"riddle/sim/trade/crop"
)

// bench is a cylinder that stands alone: fed evenly until it turns evenly, and
// then everything counted that comes in and goes out over a while.
type bench struct {
	crop   design.Fit
	set    setup.Setup
	cond   crop.Condition
	engine float64
	grate  fault.Grate
	stage  *Stage
	rng    flow.Stream
	nextID uint32
	lane   uint8

	feed    []batch
	husks   float64 // due
	in      [batches]amount
	through [batches][flow.Kinds]amount
	over    [batches][flow.Kinds]amount
	parts   map[uint16]float64 // grain of what broke fresh, by what a part holds
	sizes   [flow.Kinds]moments
	rpm, kw float64
	x       float64
	ticks   float64
}

// batch is one kind of thing that is fed; its place in the list stands in
// Rounds of its dots and of all that comes out of them.
type batch struct {
	kind flow.Kind
	rate float64 // dots a second in the slice
	due  float64
}

const (
	freshPieces = iota // not returned: the only one that has no rounds behind it
	backPieces
	backSound
	backLight
	backBroken
	backChaff
	backShort
	backWeed
	straws
	batches
)

// amount is dots, grain in kernels and other material in µg.
type amount struct{ dots, kernels, mass float64 }

func (a *amount) add(d *flow.Dot) {
	a.dots++
	a.kernels += float64(d.Grain) / flow.Kernel
	a.mass += float64(d.Mass)
}

// moments are sums over kernels of what they measure.
type moments struct{ n, vt, vt2, size, size2 float64 }

const (
	benchHz      = 120
	benchTick    = float32(1.0 / benchHz) // s
	settleFor    = 3.0                    // s until the cylinder turns evenly
	countFor     = 2.0                    // s
	benchKernels = 14000                  // fresh ones a second that are aimed at
)

// newBench feeds the cylinder with what comes to it at the starting settings,
// times load, and with returns of so many kg/s.
func newBench(name string, load, returns, engine float64, change func(*setup.Setup), faults ...fault.Fault) *bench {
	b := &bench{crop: *fit(name), rng: flow.NewStream(13, 1), engine: engine, parts: map[uint16]float64{}}
	c := &b.crop
	b.set, _ = setup.Default(name)
	change(&b.set)
	k := &b.set.Conditions
	b.cond = c.In(k.GrainMoisture, k.StrawMoisture, k.GreenWeeds, k.LightGrain)
	grain := c.Start.Yield * c.Start.HeaderWidth * c.Start.GroundSpeed / 36 * load // kg/s
	c.Slice = benchKernels * c.KernelKg() / grain * section.InnerWidth * 1000
	scale := c.Slice / 1000 / section.InnerWidth // the slice over the whole width
	dots := func(kg, eachKg float64) float64 { return kg * scale / eachKg }
	piece := c.KernelKg() * float64(c.PieceKernels)
	b.feed = []batch{
		{kind: flow.Piece, rate: dots(grain, piece)}, {kind: flow.Piece, rate: dots(0.3*returns, piece)},
		{kind: flow.Sound, rate: dots(0.3*returns, c.KernelKg())}, {kind: flow.Light, rate: dots(0.2*returns, c.KernelKg())},
		{kind: flow.Broken, rate: dots(0.2*returns, c.KernelKg())},
		{kind: flow.Chaff, rate: dots(0.3*returns, c.Chaff.DotMass()*1e-9)}, {kind: flow.Short, rate: dots(0.2*returns, c.Short.DotMass()*1e-9)},
		{kind: flow.Weed, rate: dots(0.1, c.Weed.DotMass()*1e-9)},
		{kind: flow.Straw, rate: dots(grain*c.Start.MOGRatio*(1-c.Husk), c.Straw.DotMass()*1e-9)},
	}
	b.stage = New(c, flow.NewStream(7, 1), &b.nextID)
	bad := fault.Of(faults...)
	b.grate = bad.State().Grate
	b.stage.SetFaults(b.grate)
	return b
}

// enter lets in what comes in a tick.
func (b *bench) enter(t *flow.Tally, count bool) {
	c := &b.crop
	mass := map[flow.Kind]crop.Class{flow.Chaff: c.Chaff, flow.Short: c.Short, flow.Weed: c.Weed, flow.Straw: c.Straw}
	for i := range b.feed {
		f := &b.feed[i]
		for f.due += f.rate * float64(benchTick); f.due >= 1; f.due-- {
			d := flow.Dot{Kind: f.kind, Rounds: uint8(i), Level: b.rng.Float(), Lane: b.lane}
			b.lane = (b.lane + 1) % fault.Lanes
			switch {
			case f.kind == flow.Piece:
				b.husks += huskDots(c)
				n := math.Floor(b.husks)
				b.husks -= n
				d.Grain, d.Husks, d.Mass = uint16(c.PieceKernels*flow.Kernel), uint8(n), uint32(n*c.Chaff.DotMass())
			case f.kind.IsMOG():
				d.Mass = uint32(mass[f.kind].DotMass())
			default:
				d.Grain = flow.Kernel
			}
			if count {
				b.in[i].add(&d)
			}
			b.stage.Enter(d, t)
		}
	}
}

func (b *bench) run() {
	var t flow.Tally
	var conveyor, over flow.Swarm
	const settle, all = settleFor * benchHz, (settleFor + countFor) * benchHz
	for i := range int(all) {
		b.enter(&t, i >= settle)
		b.stage.Step(&b.set, &b.cond, b.engine, benchTick, &conveyor, &over, &t)
		if i >= settle {
			b.count(&conveyor, &b.through)
			b.count(&over, &b.over)
			b.rpm += b.stage.RPM(&b.set)
			b.kw += b.stage.Drive.KW
			b.x += b.stage.Drive.X
			b.ticks++
		}
		conveyor.Dots, over.Dots = conveyor.Dots[:0], over.Dots[:0]
	}
}

func (b *bench) count(s *flow.Swarm, to *[batches][flow.Kinds]amount) {
	for i := range s.Dots {
		d := &s.Dots[i]
		to[d.Rounds][d.Kind].add(d)
		if d.Rounds != freshPieces || !d.Kind.IsKernel() {
			continue
		}
		m, vt, size := &b.sizes[d.Kind], float64(d.Vt), float64(d.Size)
		*m = moments{m.n + 1, m.vt + vt, m.vt2 + vt*vt, m.size + size, m.size2 + size*size}
		if d.Kind == flow.Broken {
			b.parts[d.Grain] += float64(d.Grain)
		}
	}
}

// kernels sums up what came out of a batch as loose kernels.
func kernels(by *[flow.Kinds]amount) float64 {
	return by[flow.Sound].kernels + by[flow.Light].kernels + by[flow.Broken].kernels
}

// What a forecast of the cylinder may be off beyond chance: it takes the rates
// of a mean load where a run has one that varies a little, and twelve places of
// a piece among the bars where there are any.
const wayOff, wayPoints = 0.02, 0.002

// The cylinder alone, fed evenly, and its forecast: every way out of all that
// comes in, what kernels come loose as, how they break, and the drive.
func TestTwinOfTheCylinder(t *testing.T) {
	as := func(*setup.Setup) {}
	for _, c := range []struct {
		crops                 []string
		what                  string
		load, returns, engine float64
		change                func(*setup.Setup)
		faults                []fault.Fault
	}{
		{[]string{"wheat", "soybeans", "corn", "sorghum"}, "as practice starts", 1, 0.6, 1, as, nil},
		{[]string{"wheat", "canola"}, "loaded returns", 0.8, 2.5, 1, as, nil},
		{[]string{"barley"}, "damp straw, wet grain", 0.9, 0.6, 1, func(s *setup.Setup) { s.Conditions.StrawMoisture += 10; s.Conditions.GrainMoisture += 4 }, nil},
		{[]string{"soybeans", "corn"}, "fast cylinder, light and dry grain", 1, 0.6, 1, func(s *setup.Setup) {
			s.Settings.CylinderSpeed *= 1.3
			s.Conditions.GrainMoisture -= 3
			s.Conditions.LightGrain = 15
		}, nil},
		{[]string{"oats"}, "slow engine, worn bars, wide concave", 1.2, 0.6, 0.94, func(s *setup.Setup) {
			s.Conditions.BarWear = 0.8
			s.Settings.Clearance *= 1.5
		}, nil},
		{[]string{"wheat"}, "hard threshing of dry grain", 0.6, 0.3, 1, func(s *setup.Setup) {
			s.Settings.CylinderSpeed = 1350
			s.Settings.Clearance *= 0.3
			s.Conditions.GrainMoisture -= 6
		}, nil},
		{[]string{"rice"}, "blocked concave", 0.7, 0.6, 1, as, blocked(1, fault.Whole)},
		{[]string{"wheat", "corn"}, "half of the wires blocked", 1, 0.6, 1, as, blocked(0.5, fault.Whole)},
		{[]string{"barley", "soybeans"}, "front blocked", 1, 1.2, 1, as, blocked(1, fault.Front)},
		{[]string{"oats"}, "rear blocked in part, dry grain", 1, 0.6, 1, func(s *setup.Setup) { s.Conditions.GrainMoisture -= 4 }, blocked(0.7, fault.Rear)},
		{[]string{"canola"}, "left side blocked", 1, 0.6, 1, as, blocked(0.9, fault.Left)},
		{[]string{"sorghum"}, "a lane and the rear blocked", 1, 0.6, 1, as, append(blocked(1, fault.Lane3), blocked(0.4, fault.Rear)...)},
	} {
		for _, name := range c.crops {
			t.Run(name+", "+c.what, func(t *testing.T) {
				t.Parallel()
				b := newBench(name, c.load, c.returns, c.engine, c.change, c.faults...)
				require.NoError(t, b.set.Validate())
				b.run()
				e := Expect(&b.crop, &b.set, &b.cond, b.engine, b.load(), &b.grate)
				b.hold(t, &e)
			})
		}
	}
}

func blocked(degree float64, w fault.Where) []fault.Fault {
	return []fault.Fault{{Kind: fault.ConcaveBlocked, Degree: degree, Where: w}}
}

// load is the MOG feed by which the cylinder is forecast, kg/s over the full width.
func (b *bench) load() float64 {
	mog, back := 0.0, 0.0
	for i := range b.in {
		mog += b.in[i].mass * 1e-9
		if i != freshPieces {
			back += b.in[i].kernels * b.crop.KernelKg()
		}
	}
	scale := section.InnerWidth / (b.crop.Slice / 1000) / countFor
	return mog*scale + LoadFeed(&b.crop, back*scale)
}

func (b *bench) hold(t *testing.T, e *Expected) {
	s := agree.Sheet{T: t, Allowed: wayOff, Points: wayPoints}
	way := func(what string, through, over, in, each float64, want Split) {
		s.Share(what+", through the concave", through/each, in/each, want.Through)
		s.Share(what+", over its end", over/each, in/each, want.Over)
	}
	for i, ways := range map[int][3]Split{freshPieces: {e.Kernel, e.Piece, e.Husk}, backPieces: {e.Again, e.PieceAgain, e.HuskAgain}} {
		in, through, over := &b.in[i], &b.through[i], &b.over[i]
		what := []string{"fresh ", "returned "}[i]
		way(what+"grain, freed", kernels(through), kernels(over), in.kernels, 1, ways[0])
		way(what+"grain, in its piece", through[flow.Piece].kernels, over[flow.Piece].kernels, in.kernels, float64(b.crop.PieceKernels), ways[1])
		way(what+"husk, freed", through[flow.Chaff].mass, over[flow.Chaff].mass, in.mass, b.crop.Chaff.DotMass(), ways[2])
	}
	for _, i := range []int{backSound, backLight, backBroken} {
		way("returned "+b.feed[i].kind.String(), kernels(&b.through[i]), kernels(&b.over[i]), b.in[i].kernels, 1, e.Free)
	}
	for i, want := range map[int]Split{backChaff: e.Chaff, backShort: e.Short, backWeed: e.Weed} {
		k := b.feed[i].kind
		way("returned "+k.String(), b.through[i][k].dots, b.over[i][k].dots, b.in[i].dots, 1, want)
	}
	s.Share("straw cut short", b.through[straws][flow.Short].mass/b.crop.Short.DotMass(), b.in[straws].mass/b.crop.Short.DotMass(), e.Cut)
	s.Share("straw kept in the gap", b.over[straws][flow.Short].mass/b.crop.Short.DotMass(), b.in[straws].mass/b.crop.Short.DotMass(), e.Kept)
	b.holdKinds(t, s, e)
	b.holdSizes(s)
	b.holdDrive(s, e)
}

// holdKinds holds what kernels come out as, and how they break.
func (b *bench) holdKinds(t *testing.T, s agree.Sheet, e *Expected) {
	out := func(batch int, k flow.Kind) float64 { return b.through[batch][k].kernels + b.over[batch][k].kernels }
	all := func(batch int) float64 { return kernels(&b.through[batch]) + kernels(&b.over[batch]) }
	broken := func(way, knocked Split) float64 { // of all that leaves loose
		return e.Rates.Damage + (1-e.Rates.Damage)*(knocked.Through+knocked.Over)/(way.Through+way.Over)
	}
	for i, want := range map[int]float64{freshPieces: broken(e.Kernel, e.KernelKnocked), backPieces: broken(e.Again, e.AgainKnocked)} {
		s.Share(fmt.Sprint("broken of what was freed in batch ", i), out(i, flow.Broken), all(i), want)
		s.Share(fmt.Sprint("light of what was freed in batch ", i), out(i, flow.Light), all(i), (1-want)*b.cond.Light)
		b.holdBroken(s, i, e)
	}
	s.Share("broken of sound kernels that came back", out(backSound, flow.Broken), all(backSound), broken(e.Free, e.FreeKnocked))
	s.Share("broken of light kernels that came back", out(backLight, flow.Broken), all(backLight), broken(e.Free, e.FreeKnocked))
	s.Share("broken of broken kernels that came back", out(backBroken, flow.Broken), all(backBroken), 1)
	whole := 0.0
	for _, grain := range b.parts {
		whole += grain
	}
	shed := ShedOf(e.Rates.Fines)
	for q, share := range PartShares(&b.crop, &shed) {
		s.Share(fmt.Sprint("of what broke, in parts of ", q), b.parts[uint16(q)]/flow.Kernel, whole/flow.Kernel, share)
	}
	require.Positive(t, whole)
}

// holdBroken holds how much of the freed grain is broken on either way out.
func (b *bench) holdBroken(s agree.Sheet, batch int, e *Expected) {
	way, knocked := e.Kernel, e.KernelKnocked
	if batch == backPieces {
		way, knocked = e.Again, e.AgainKnocked
	}
	d := e.Rates.Damage
	s.Share(fmt.Sprint("broken through the concave of batch ", batch), b.through[batch][flow.Broken].kernels, b.in[batch].kernels, d*way.Through+(1-d)*knocked.Through)
	s.Share(fmt.Sprint("broken over its end of batch ", batch), b.over[batch][flow.Broken].kernels, b.in[batch].kernels, d*way.Over+(1-d)*knocked.Over)
}

// holdSizes holds terminal velocities and sizes of freed kernels against the
// classes that a forecast takes: their means, and how far they spread. Parts of
// broken ones are held apart, by what they weigh.
func (b *bench) holdSizes(s agree.Sheet) {
	bins := Bins(&b.crop, &b.cond)
	for kind := flow.Sound; kind <= flow.Light; kind++ {
		var want moments
		for _, bin := range bins {
			if bin.Kind == kind {
				vt, size := float64(bin.Vt), float64(bin.Size)
				want = moments{want.n + bin.Share, want.vt + bin.Share*vt, want.vt2 + bin.Share*vt*vt, want.size + bin.Share*size, want.size2 + bin.Share*size*size}
			}
		}
		got := b.sizes[kind]
		spread := func(what string, n, sum, square, mean, meanSquare float64) {
			sd := math.Sqrt(meanSquare - mean*mean)
			s.Of(0.002, 0).Value(fmt.Sprint(kind, ", mean ", what), sum/n, mean, sd/math.Sqrt(n))
			s.Of(0.02, 0).Value(fmt.Sprint(kind, ", spread of ", what), math.Sqrt(square/n-(sum/n)*(sum/n)), sd, sd/math.Sqrt(2*n))
		}
		spread("terminal velocity", got.n, got.vt, got.vt2, want.vt, want.vt2)
		spread("size", got.n, got.size, got.size2, want.size, want.size2)
	}
}

// holdDrive holds speed, power and the rates that follow from them. A belt that
// gives way under an even load comes to rest near, not at, its steady speed.
func (b *bench) holdDrive(s agree.Sheet, e *Expected) {
	drive := s.Of(0.01, 0)
	drive.Value("cylinder speed, rpm", b.rpm/b.ticks, e.RPM, 0)
	drive.Value("cylinder over its set speed", b.x/b.ticks, e.Drive.X, 0)
	drive.Value("power, kW", b.kw/b.ticks, e.Drive.KW, 0)
	drive.Value("load that is felt, kg/s", b.stage.Feed, b.load(), 0.002*b.load())
	r, w := &b.stage.Rates, &e.Rates
	for _, v := range []struct {
		what      string
		got, want float64
	}{
		{"threshing", r.Lambda, w.Lambda}, {"separation", r.Beta, w.Beta}, {"threshing of returns", r.Return, w.Return},
		{"damage", r.Damage, w.Damage}, {"chaff through", r.Chaff, w.Chaff}, {"short straw through", r.Short, w.Short},
	} {
		drive.Value(v.what, v.got, v.want, 0)
	}
}

// fit returns the machine as it meets a crop of its own, which may be altered.
func fit(name string) *design.Fit {
	c := *crop.Find(name)
	return design.WithWalkers.In(&c)
}
