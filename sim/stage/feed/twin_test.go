package feed

import (
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

const (
	benchHz     = 120
	benchTick   = float32(1.0 / benchHz) // s
	settleFor   = 6.0                    // s until the mat has come to the cylinder
	countFor    = 3.0                    // s
	benchPieces = 1200                   // a second
	benchDots   = 300                    // a second of straw and of weeds
)

// What a forecast of the header may be off beyond chance: the last dot of a
// count is whole in a run.
const streamOff = 0.004

// Header and feeder alone, and their forecast: what is met and lost of the
// grain, what comes to the cylinder of everything, and how pieces fly and
// measure.
func TestTwinOfTheHeader(t *testing.T) {
	as := func(*setup.Setup) {}
	for _, c := range []struct {
		crops  []string
		what   string
		change func(*setup.Setup)
	}{
		{crop.Names(), "as practice starts", as},
		{[]string{"wheat"}, "high cut, slow reel", func(s *setup.Setup) { s.Settings.CuttingHeight += 35; s.Settings.ReelIndex = 0.7 }},
		{[]string{"soybeans"}, "high cut, fast reel, dry pods", func(s *setup.Setup) {
			s.Settings.CuttingHeight = 30
			s.Settings.ReelIndex = 1.9
			s.Conditions.GrainMoisture -= 4
		}},
		{[]string{"corn"}, "fast and dry", func(s *setup.Setup) { s.Settings.GroundSpeed *= 3; s.Conditions.GrainMoisture -= 12 }},
		{[]string{"oats"}, "low cut, weeds, much straw", func(s *setup.Setup) {
			s.Settings.CuttingHeight = 3
			s.Conditions.GreenWeeds = 20
			s.Conditions.MOGRatio *= 1.4
		}},
	} {
		for _, name := range c.crops {
			t.Run(name+", "+c.what, func(t *testing.T) {
				t.Parallel()
				set, err := setup.Default(name)
				require.NoError(t, err)
				set.Conditions.GreenWeeds = 3
				c.change(&set)
				require.NoError(t, set.Validate())
				holdHeader(t, *crop.Find(name), &set)
			})
		}
	}
}

func holdHeader(t *testing.T, c crop.Crop, set *setup.Setup) {
	k := &set.Conditions
	cond := c.In(k.GrainMoisture, k.StrawMoisture, k.GreenWeeds, k.LightGrain)
	want := Expect(&c, set, &cond)
	c.Slice = benchPieces * c.KernelKg() * float64(c.PieceKernels) / want.Met * section.InnerWidth * 1000
	slice := c.Slice / 1000 / section.InnerWidth // over the whole machine
	for cl, kg := range map[*crop.Class]float64{&c.Straw: want.Straw, &c.Weed: want.Weed} {
		cl.Mass, cl.Pieces = kg*slice/benchDots*1e6, 1
	}
	var nextID uint32
	var out, lost flow.Swarm
	var tally, from flow.Tally
	stage := New(design.WithWalkers.In(&c), flow.NewStream(3, 4), &nextID)
	var grain, mass, vt, size, vt2, size2, pieces, left float64
	by := [flow.Kinds]float64{}
	for i := range int((settleFor + countFor) * benchHz) {
		stage.Step(set, &cond, benchTick, &out, &lost, &tally)
		if i == int(settleFor*benchHz)-1 {
			from = tally
		}
		for _, d := range lost.Dots {
			if d.Kind == flow.Piece && i >= int(settleFor*benchHz) {
				left++
			}
		}
		for _, d := range out.Dots {
			if i < int(settleFor*benchHz) {
				break
			}
			by[d.Kind] += float64(d.Mass)
			if d.Kind != flow.Piece {
				continue
			}
			pieces++
			grain += float64(d.Grain) / flow.Kernel
			mass += float64(d.Mass)
			vt, vt2 = vt+float64(d.Vt), vt2+float64(d.Vt)*float64(d.Vt)
			size, size2 = size+float64(d.Size), size2+float64(d.Size)*float64(d.Size)
		}
		out.Dots, lost.Dots = out.Dots[:0], lost.Dots[:0]
	}

	s := agree.Sheet{T: t, Allowed: streamOff}
	kernel, kg := c.KernelKg()/slice/countFor, 1e-9/slice/countFor
	count := func(a, b flow.Grain) float64 { return float64(a-b) / flow.Kernel }
	met, gone := count(tally.In, from.In), count(tally.Lost[flow.Header], from.Lost[flow.Header])
	missed, _ := shares(&c, set, &cond)
	s.Share("pieces missed whole", left, met/float64(c.PieceKernels), missed)
	each := 1.0 // kernels that are lost together
	if missed > 0.001 {
		each = float64(c.PieceKernels)
	}
	few := math.Sqrt(each * met * (want.Lost / want.Met)) // of what is lost, kernels
	come := kernel * few * 1.5                            // kg/s: lost now, or on the way to the cylinder
	s.Value("grain met, kg/s", met*kernel, want.Met, want.Met/met*each)
	s.Value("grain lost, kg/s", gone*kernel, want.Lost, kernel*few)
	s.Value("grain to the cylinder, kg/s", grain*kernel, want.Met-want.Lost, come+want.Met*0.001)
	s.Value("husk to the cylinder, kg/s", mass*kg, want.Husk, come*want.Husk/want.Met+want.Husk*0.001)
	s.Value("straw to the cylinder, kg/s", by[flow.Straw]*kg, want.Straw, want.Straw*0.002)
	s.Value("weeds to the cylinder, kg/s", by[flow.Weed]*kg, want.Weed, want.Weed*0.002)
	s.Value("MOG cut, kg/s", float64(tally.InMOG-from.InMOG)*kg, want.Husk+want.Straw+want.Weed, come*want.Husk/want.Met+0.001*want.Straw)

	var b [4]float64
	for _, bin := range Bins(&c, &cond) {
		v, d := float64(bin.Vt), float64(bin.Size)
		b = [4]float64{b[0] + bin.Share*v, b[1] + bin.Share*v*v, b[2] + bin.Share*d, b[3] + bin.Share*d*d}
	}
	for _, m := range []struct {
		what                          string
		sum, square, mean, meanSquare float64
	}{{"terminal velocity of pieces", vt, vt2, b[0], b[1]}, {"size of pieces", size, size2, b[2], b[3]}} {
		sd := math.Sqrt(m.meanSquare - m.mean*m.mean)
		s.Value(m.what, m.sum/pieces, m.mean, sd/math.Sqrt(pieces))
		s.Of(0.03, 0).Value("spread of "+m.what, math.Sqrt(m.square/pieces-(m.sum/pieces)*(m.sum/pieces)), sd, sd/math.Sqrt(2*pieces))
	}
}

// A header that stands still brings in nothing.
func TestTwinOfAStoppedHeader(t *testing.T) {
	set, err := setup.Default("wheat")
	require.NoError(t, err)
	set.Stopped = setup.HeaderPart
	c := crop.Find("wheat")
	cond := c.In(c.Start.GrainMoisture, c.Start.StrawMoisture, 0, 1)
	var nextID uint32
	var out, lost flow.Swarm
	var tally flow.Tally
	stage := New(design.WithWalkers.In(c), flow.NewStream(3, 4), &nextID)
	for range 4 * benchHz {
		stage.Step(&set, &cond, benchTick, &out, &lost, &tally)
	}
	require.Zero(t, out.Len()+lost.Len())
	require.Equal(t, flow.Tally{}, tally)
	require.Equal(t, Stream{}, Expect(c, &set, &cond))
}
