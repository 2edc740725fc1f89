package shoe

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"riddle/sim/check/agree"
	"riddle/sim/setup"
	"riddle/sim/stage/design"
	"riddle/sim/stage/flow"
	"riddle/sim/stage/section"
	"riddle/sim/trade/crop"
)

// bench is a shoe that stands alone on its bench: fed evenly until it has come
// to rest, and then everything counted that leaves it over a while.
type bench struct {
	crop  design.Fit
	set   setup.Setup
	cond  crop.Condition
	stage *Stage
	rng   flow.Stream
	tally flow.Tally
	out   [3]flow.Swarm // grain, returns, lost

	grain   [flow.Broken + 2]stock // by kind, up to pieces
	mog     Streams                // kg/s a metre of width
	due     [flow.Kinds]float64
	in, pre [flow.Kinds]float64 // dots that came in; through the pre-sieve
	ends    [flow.Kinds]ends

	load         [upperCells]float64 // means over the while
	air          [3]float64
	land, landed float64 // grain and MOG on the lower sieve, kg/s a metre
	means        float64
}

// stock is grain of one kind as it is fed: kernels a second in the slice, and
// what they measure.
type stock struct{ rate, vt, vtSD, size, sizeSD float64 }

// ends counts where dots of one kind came to.
type ends struct{ tank, back, blown, ridden, unthreshed float64 }

const (
	benchHz   = 120
	benchTick = float32(1.0 / benchHz) // s
	settleFor = 9.0                    // s until mats and air are at rest
	countFor  = 2.5                    // s
	benchDots = 3000                   // kernels and pieces a second that are aimed at
	grainBins = 5                      // classes of size, as forecasts take
)

// mogDots is how many dots of each class of MOG come in a second.
var mogDots = [3]float64{1600, 600, 400}

// newBench feeds the shoe with what comes on it at the starting settings,
// times load, but with many more light and broken kernels and pieces, so that
// few seconds say enough of each.
func newBench(name string, load float64, change func(*setup.Setup)) *bench {
	b := &bench{crop: *fit(name), rng: flow.NewStream(11, 3)}
	c := &b.crop
	b.set, _ = setup.Default(name)
	change(&b.set)
	k := &b.set.Conditions
	b.cond = c.In(k.GrainMoisture, k.StrawMoisture, k.GreenWeeds, k.LightGrain)

	perMetre := c.Start.Yield * c.Start.HeaderWidth * c.Start.GroundSpeed / 36 / section.InnerWidth * load // kg/s
	c.Slice = benchDots * c.KernelKg() / perMetre * 1000
	for i, kind := range []struct{ share, vt, vtCV, size, sizeCV float64 }{
		{0.4, c.Vt, c.VtCV, c.Size, 0.08}, {0.2, c.LightVt, c.VtCV, crop.LightSize * c.Size, 0.08},
		{0.2, 0.85 * c.Vt, 0.14, crop.BrokenSize * c.Size, 0.12}, {0.2, c.PieceVt, 0.12, c.PieceSize, c.PieceSD / c.PieceSize},
	} {
		b.grain[i] = stock{kind.share * benchDots, kind.vt * b.cond.Grain, kind.vtCV * kind.vt, kind.size, kind.sizeCV * kind.size}
	}
	mog := c.RatedMOG / section.InnerWidth * load
	b.mog = Streams{mog * (c.ChaffOut + c.Sifted), mog * c.ShortOut, 0.35 * mog * max(k.GreenWeeds, 1) / 100}
	for i, cl := range []*crop.Class{&c.Chaff, &c.Short, &c.Weed} {
		cl.Mass, cl.Pieces = b.mog[i]*c.Slice/1000/mogDots[i]*1e6, 1
	}
	b.stage = New(c, flow.NewStream(5, 3))
	return b
}

// feed lays on the conveyors what comes in a tick.
func (b *bench) feed() {
	add := func(kind flow.Kind, rate float64, dot func() flow.Dot) {
		for b.due[kind] += rate * float64(benchTick); b.due[kind] >= 1; b.due[kind]-- {
			d := dot()
			d.Kind, d.Level, d.Ride = kind, b.rng.Float(), flow.Carried
			d.X = float32(section.ConveyorFloor.B.X) - 0.1*b.rng.Float()
			b.in[kind]++
			b.stage.Conveyor.Add(d)
		}
	}
	for i := range b.grain {
		g := &b.grain[i]
		add(flow.Kind(i), g.rate, func() flow.Dot {
			return flow.Dot{Grain: flow.Kernel, Vt: b.rng.Normal(g.vt, g.vtSD), Size: b.rng.Normal(g.size, g.sizeSD)}
		})
	}
	for i, cl := range b.stage.classes() {
		add(kinds[i], b.mog[i]*b.crop.Slice/1000/(cl.DotMass()*1e-9), func() flow.Dot {
			return flow.Dot{Mass: uint32(cl.DotMass()), Vt: float32(cl.Vt * b.cond.MOG)}
		})
	}
}

// run settles the shoe, then counts.
func (b *bench) run(engine float64) {
	step := func() {
		b.feed()
		b.stage.Clean(&b.set, &b.cond, engine, benchTick, Outlets{&b.out[0], &b.out[1], &b.out[2]}, &b.tally)
		b.throughPre()
		b.gather()
	}
	for range int(settleFor * benchHz) {
		step()
	}
	b.in, b.pre, b.ends = [flow.Kinds]float64{}, [flow.Kinds]float64{}, [flow.Kinds]ends{}
	for range int(countFor * benchHz) {
		step()
		b.look()
	}
}

// throughPre counts what fell through the pre-sieve in this tick: it stands in
// the air over the pan and is not marked yet.
func (b *bench) throughPre() {
	for i := range b.stage.Collecting.Dots {
		if d := &b.stage.Collecting.Dots[i]; d.Ride == flow.Airborne && d.ID == 0 {
			b.pre[d.Kind]++
			d.ID = 1
		}
	}
}

// gather counts and takes away what left the shoe in this tick.
func (b *bench) gather() {
	for to := range b.out {
		for i := range b.out[to].Dots {
			d := &b.out[to].Dots[i]
			e := &b.ends[d.Kind]
			switch {
			case to == 0:
				e.tank++
			case to == 1:
				e.back++
			case d.Kind.IsMOG(), d.Cause == flow.Blown:
				e.blown++
			case d.Cause == flow.Ridden:
				e.ridden++
			default:
				e.unthreshed++
			}
		}
		b.out[to].Dots = b.out[to].Dots[:0]
	}
}

// look reads mats, air and what lands on the lower sieve.
func (b *bench) look() {
	s := b.stage
	b.means++
	for i := range b.load {
		b.load[i] += s.felt[i].load
	}
	for i, v := range s.Air.V {
		b.air[i] += v
	}
	b.land += s.grainOn
	b.landed += s.mogOn
}

// forecast is what the twin says of the bench.
type benchForecast struct {
	twin    *Twin
	bins    []flow.Bin
	fates   []Shares
	mog     [3]Shares
	crowd   Crowd
	landing []float64
}

func (b *bench) forecast(engine float64) *benchForecast {
	f := &benchForecast{}
	for i, g := range b.grain {
		f.bins = flow.AppendBins(f.bins, flow.Kind(i), g.vt, g.vtSD, 8, g.size, g.sizeSD, grainBins)
	}
	f.fates, f.landing = make([]Shares, len(f.bins)), make([]float64, len(f.bins))
	f.twin = NewTwin(&b.crop, f.bins)
	for round := range 24 {
		if round == 16 {
			f.twin.Care = Fine
		}
		f.mog = f.twin.Settle(&b.set, &b.cond, engine, b.mog, 2)
		f.crowd = Crowd{}
		for k := range b.mog {
			f.crowd.MOG += b.mog[k] * f.twin.Landing(k)
		}
		for i, bin := range f.bins {
			f.crowd.Grain += b.kgOf(bin.Kind) * bin.Share * f.landing[i]
		}
		if round > 12 {
			f.twin.Sieve(f.crowd, f.fates, f.landing)
		}
	}
	return f
}

// kgOf is the grain of a kind that is fed, kg/s a metre of width.
func (b *bench) kgOf(k flow.Kind) float64 {
	return b.grain[k].rate * b.crop.KernelKg() / (b.crop.Slice / 1000)
}

// fate is the mean fate of a kind, and the share that the pre-sieve takes.
func (f *benchForecast) fate(kind flow.Kind) (mean Shares, pre float64) {
	i := 0
	for g := range f.twin.groups {
		gr := &f.twin.groups[g]
		for _, mm := range gr.sizes {
			if share := f.bins[i].Share; gr.kind == kind {
				fate := f.fates[i]
				mean.Tank += share * fate.Tank
				mean.Back += share * fate.Back
				mean.Blown += share * fate.Blown
				mean.Ridden += share * fate.Ridden
				pre += share * f.preShare(gr, mm)
			}
			i++
		}
	}
	return mean, pre
}

// preShare is what the pre-sieve takes of one size of a group.
func (f *benchForecast) preShare(g *group, mm float64) (share float64) {
	if g.arrive.over {
		return 0
	}
	var lower [lowerMost + 1]float64
	var fate Shares
	m := march{t: f.twin, g: g, f: &fate}
	m.enter(mm, &lower)
	for _, v := range lower {
		share += v
	}
	return share + fate.Back + fate.Blown
}

// What a forecast of the shoe may be off beyond chance. The twin takes eight
// places from which flights start, eight attitudes of a piece and two launch
// speeds where a run has any: 3 % of a share, and half a point where a steep
// chance is met between two of its nodes. Mats swing for longer than they are
// looked at, and the air hardly follows.
const (
	fateOff, fatePoints = 0.03, 0.005
	matOff, airOff      = 0.12, 0.01
	crowdOff            = 0.06
	// steady is how far what leaves may be from what comes: mats swing a little.
	steady = 0.15
)

// The shoe alone, fed evenly, and its forecast: every way out of every kind of
// grain and MOG, what passes the pre-sieve, mats, air, and what lands on the
// lower sieve.
func TestTwinOfTheShoe(t *testing.T) {
	as := func(*setup.Setup) {}
	for _, c := range []struct {
		crops  []string
		what   string
		load   float64
		engine float64
		change func(*setup.Setup)
	}{
		{crop.Names(), "as practice starts", 1, 1, as},
		{[]string{"wheat", "soybeans", "canola"}, "open pre-sieve", 1, 1, func(s *setup.Setup) { s.Settings.PreSieve = 20 }},
		{[]string{"corn"}, "damp straw", 1, 1, func(s *setup.Setup) { s.Conditions.StrawMoisture += 12 }},
		{[]string{"wheat"}, "damp straw, open pre-sieve", 1, 1, func(s *setup.Setup) { s.Conditions.StrawMoisture += 10; s.Settings.PreSieve = 14 }},
		{[]string{"rice"}, "weeds and wet grain", 0.8, 1, func(s *setup.Setup) { s.Conditions.GreenWeeds = 6; s.Conditions.GrainMoisture += 4 }},
		{[]string{"barley"}, "heavy load, slow engine", 1.3, 0.96, as},
		{[]string{"canola"}, "light load, strong fan", 0.4, 1, func(s *setup.Setup) { s.Settings.Fan *= 1.5 }},
		{[]string{"sorghum"}, "side slope, narrow sieves", 1, 1, func(s *setup.Setup) {
			s.Conditions.SideSlope = 6
			s.Settings.Upper *= 0.8
			s.Settings.Lower *= 0.75
		}},
		{[]string{"soybeans"}, "wide sieves, weak fan, uphill", 1, 1, func(s *setup.Setup) {
			s.Conditions.ForeSlope = 4
			s.Settings.Fan *= 0.7
			s.Settings.Upper *= 1.2
			s.Settings.Lower *= 1.2
		}},
		{[]string{"corn"}, "blocked pre-sieve, downhill", 1, 1, func(s *setup.Setup) {
			s.Conditions.ForeSlope = -4
			s.Stopped |= setup.PreSievePart
		}},
	} {
		for _, name := range c.crops {
			t.Run(name+", "+c.what, func(t *testing.T) {
				t.Parallel()
				b := newBench(name, c.load, c.change)
				require.NoError(t, b.set.Validate())
				b.run(c.engine)
				b.hold(t, b.forecast(c.engine))
			})
		}
	}
}

func (b *bench) hold(t *testing.T, f *benchForecast) {
	s := agree.Sheet{T: t, Allowed: fateOff, Points: fatePoints}
	for i := range b.grain {
		kind := flow.Kind(i)
		e, n := &b.ends[kind], b.in[kind]
		left := e.tank + e.back + e.blown + e.ridden + e.unthreshed
		require.InEpsilon(t, n, left, steady, "%s: as much leaves as comes", kind)
		want, pre := f.fate(kind)
		s.Share(fmt.Sprint(kind, " through the pre-sieve"), b.pre[kind], n, pre)
		s.Share(fmt.Sprint(kind, " to the tank"), e.tank, left, want.Tank)
		s.Share(fmt.Sprint(kind, " to the returns"), e.back, left, want.Back)
		s.Share(fmt.Sprint(kind, " lost"), e.blown+e.ridden+e.unthreshed, left, want.Lost())
		if kind != flow.Piece {
			s.Share(fmt.Sprint(kind, " blown out"), e.blown, left, want.Blown)
			s.Share(fmt.Sprint(kind, " carried over"), e.ridden, left, want.Ridden)
		}
	}
	for k, kind := range kinds {
		e, n := &b.ends[kind], b.in[kind]
		left := e.tank + e.back + e.blown
		require.InEpsilon(t, n, left, steady, "%s: as much leaves as comes", kind)
		s.Share(fmt.Sprint(kind, " through the pre-sieve"), b.pre[kind], n, f.preMOG(k))
		s.Share(fmt.Sprint(kind, " to the tank"), e.tank, left, f.mog[k].Tank)
		s.Share(fmt.Sprint(kind, " to the returns"), e.back, left, f.mog[k].Back)
		s.Share(fmt.Sprint(kind, " out at the rear"), e.blown, left, f.mog[k].Blown)
	}
	for i := range 3 {
		load, want := 0.0, 0.0
		for j := range upperCells / 3 {
			load += b.load[i*upperCells/3+j]
			want += f.twin.s.felt[i*upperCells/3+j].load
		}
		s.Of(matOff, 0).Value(fmt.Sprint("mat on third ", i+1), load/b.means, want, 0.001)
		s.Of(airOff, 0).Value(fmt.Sprint("air under third ", i+1), b.air[i]/b.means, f.twin.s.Air.V[i], 0)
	}
	landed := math.Sqrt(b.crop.KernelKg() * f.crowd.Grain / (b.crop.Slice / 1000) / countFor)
	s.Of(crowdOff, 0).Value("grain on the lower sieve", b.land/b.means, f.crowd.Grain, landed)
	piece := b.crop.Chaff.DotMass() * 1e-9
	landed = math.Sqrt(piece * f.crowd.MOG / (b.crop.Slice / 1000) / countFor)
	s.Of(crowdOff, 0).Value("MOG on the lower sieve", b.landed/b.means, f.crowd.MOG, landed)
}

// preMOG is the share of a class that the pre-sieve takes.
func (f *benchForecast) preMOG(k int) float64 {
	var riding [upperMost + 1]float64
	pre, _ := f.twin.mog[k].enter(f.twin, k, &riding, &Shares{})
	return pre
}

// fit returns the machine as it meets a crop of its own, which may be altered.
func fit(name string) *design.Fit {
	c := *crop.Find(name)
	return design.WithWalkers.In(&c)
}
