package straw

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

// bench is walkers that stand alone: fed evenly until the mat lies evenly, and
// then everything counted that leaves them over a while.
type bench struct {
	crop        design.Fit
	set         setup.Setup
	cond        crop.Condition
	phi, engine float64
	own         fault.Extra
	stage       *Stage
	rng         flow.Stream
	nextID      uint32

	load          Load
	rate, due     [flow.Kinds]float64 // dots a second in the slice
	mass          [flow.Kinds]float64 // of a dot, µg
	through, over [flow.Kinds]float64 // dots
	thick         [cellCount]float64
	from          flow.Tally // as the count begins
	tally         flow.Tally
}

const (
	benchHz   = 120
	benchTick = float32(1.0 / benchHz) // s
	settleFor = 13.0                   // s until the mat has come to the rear
	countFor  = 3.0                    // s
	benchDots = 400                    // a second of each kind
)

// newBench feeds the walkers with what comes on them at the starting settings,
// times load.
func newBench(name string, load, phi, engine float64, change func(*setup.Setup)) *bench {
	b := &bench{crop: *fit(name), rng: flow.NewStream(17, 2), engine: engine}
	c := &b.crop
	b.set, _ = setup.Default(name)
	change(&b.set)
	k := &b.set.Conditions
	b.cond = c.In(k.GrainMoisture, k.StrawMoisture, k.GreenWeeds, k.LightGrain)
	b.phi = phi * (c.ChaffOut + c.ShortOut)
	mog := c.RatedMOG * load
	b.load = Load{Chaff: mog * max(c.Husk-c.ChaffOut, 0.05), Short: 0.02 * mog, Husk: 0.02 * mog}
	weed := 0.03 * mog
	b.load.Rest = mog*(1-c.ChaffOut-c.ShortOut) - b.load.Chaff - b.load.Short - b.load.Husk
	scale := c.Slice / 1000 / section.InnerWidth * 1e9 // µg in the slice a kg
	for kind, kg := range map[flow.Kind]float64{
		flow.Chaff: b.load.Chaff, flow.Short: b.load.Short, flow.Piece: b.load.Husk, flow.Weed: weed, flow.Straw: b.load.Rest - weed,
	} {
		b.rate[kind] = benchDots
		b.mass[kind] = math.Round(kg * scale / benchDots)
	}
	b.rate[flow.Straw], b.mass[flow.Straw] = 3*benchDots, math.Round(b.mass[flow.Straw]/3)
	b.rate[flow.Sound], b.rate[flow.Light], b.rate[flow.Broken] = benchDots, benchDots, benchDots
	b.stage = New(c, flow.NewStream(3, 2), &b.nextID)
	return b
}

func (b *bench) feed() {
	for kind := range flow.Kinds {
		for b.due[kind] += b.rate[kind] * float64(benchTick); b.due[kind] >= 1; b.due[kind]-- {
			d := flow.Dot{Kind: kind, Level: b.rng.Float(), Lane: uint8(b.rng.Between(0, 4)) & 3, Vt: 5, Size: 10, Mass: uint32(b.mass[kind])}
			if !kind.IsMOG() {
				d.Grain = flow.Kernel
			}
			b.stage.Plate.Add(d)
		}
	}
}

func (b *bench) run() {
	var conveyor, lost flow.Swarm
	for i := range int((settleFor + countFor) * benchHz) {
		b.feed()
		b.stage.Step(&b.set, &b.cond, b.phi, b.engine, benchTick, &conveyor, &lost, &b.tally)
		through, over := fresh(&b.stage.Under), fresh(&b.stage.Hood)
		conveyor.Dots, lost.Dots = conveyor.Dots[:0], lost.Dots[:0]
		switch {
		case i == int(settleFor*benchHz)-1:
			b.from = b.tally
		case i >= int(settleFor*benchHz):
			for k := range through {
				b.through[k] += through[k]
				b.over[k] += over[k]
			}
			for k := range b.thick {
				b.thick[k] += float64(b.stage.Rows.Load[k]) / matDensity / (countFor * benchHz) // before the roof presses it
			}
		}
	}
}

// fresh counts by kind the dots that have come into a swarm since it was last
// asked.
func fresh(s *flow.Swarm) (n [flow.Kinds]float64) {
	for i := range s.Dots {
		if d := &s.Dots[i]; d.ID == 0 {
			d.ID = 1
			n[d.Kind]++
		}
	}
	return n
}

// What a forecast of the walkers may be off beyond chance: in a run the mat is
// of dots and thinner in one place than in another, and grain sinks faster
// through the thin places than slower through the thick ones, by some percent
// of the rate.
const (
	sinkOff   = 0.06
	thickOff  = 0.05
	steadyOff = 0.05
)

// The walkers alone, fed evenly, and their forecast: what falls through of
// every kind of grain and other material, what leaves over the rear, the mat.
func TestTwinOfTheWalkers(t *testing.T) {
	as := func(*setup.Setup) {}
	for _, c := range []struct {
		crop, what        string
		load, phi, engine float64
		change            func(*setup.Setup)
		own               fault.Extra
	}{
		{"wheat", "starting settings", 1, 1, 1, as, 0},
		{"barley", "damp straw", 1, 1, 1, func(s *setup.Setup) { s.Conditions.StrawMoisture += 15 }, 0},
		{"soybeans", "side slope, fine straw", 1, 1.5, 1, func(s *setup.Setup) { s.Conditions.SideSlope = -10 }, 0},
		{"corn", "slow engine, weeds, windrow", 1, 1, 0.93, func(s *setup.Setup) { s.Conditions.GreenWeeds = 10; s.Settings.Chopper = false }, 0},
		{"oats", "heavy load", 1.6, 1, 1, as, 0},
		{"canola", "light load", 0.5, 0.8, 1, as, 0},
		{"sorghum", "uphill", 1, 1, 1, func(s *setup.Setup) { s.Conditions.ForeSlope = 10 }, 0},
		{"rice", "downhill", 1, 1, 1, func(s *setup.Setup) { s.Conditions.ForeSlope = -4 }, 0},
		{"wheat", "slow walkers", 1, 1, 1, as, -0.1},
		{"rice", "slow walkers, uphill", 0.8, 1, 0.97, func(s *setup.Setup) { s.Conditions.ForeSlope = 8 }, -0.15},
		{"sorghum", "fast walkers", 1, 1, 1, as, 0.05},
	} {
		t.Run(c.crop+", "+c.what, func(t *testing.T) {
			t.Parallel()
			b := newBench(c.crop, c.load, c.phi, c.engine, c.change)
			require.NoError(t, b.set.Validate())
			b.own = c.own
			b.stage.SetFaults(b.own)
			b.run()
			e := Expect(&b.crop, &b.set, &b.cond, b.phi, b.engine, b.own, b.load)
			b.hold(t, &e)
		})
	}
}

func (b *bench) hold(t *testing.T, e *Expected) {
	s := agree.Sheet{T: t, Allowed: sinkOff}
	want := [flow.Kinds]float64{
		flow.Sound: e.Grain, flow.Light: e.Grain, flow.Broken: e.Grain, flow.Piece: e.Pieces, flow.Chaff: e.MOG, flow.Short: e.MOG,
	}
	for kind := range flow.Kinds {
		s.Share(fmt.Sprint(kind, " through the walkers"), b.through[kind], b.through[kind]+b.over[kind], want[kind])
	}
	for i := range 4 {
		got, want := 0.0, 0.0
		for k := range cellCount / 4 {
			got += b.thick[i*cellCount/4+k]
			want += float64(e.Thick[i*cellCount/4+k])
		}
		s.Of(thickOff, 0).Value(fmt.Sprint("mat on step ", i+1), got, want, 0)
	}
	full, _ := b.stage.Full()
	require.Equal(t, full, e.Full)
	b.holdTally(t, s.Of(steadyOff, 0), e)
}

// holdTally holds the machine's own count of the same.
func (b *bench) holdTally(t *testing.T, s agree.Sheet, e *Expected) {
	grain := func(after, before flow.Grain) float64 { return float64(after-before) / flow.Kernel }
	mass := func(kinds ...flow.Kind) (through, all float64) {
		for _, k := range kinds {
			share := map[flow.Kind]float64{flow.Chaff: e.MOG, flow.Short: e.MOG, flow.Piece: e.Pieces}[k]
			through += b.rate[k] * countFor * b.mass[k] * share
			all += b.rate[k] * countFor * b.mass[k]
		}
		return through, all
	}
	a, z := &b.from, &b.tally
	fed := 3 * benchDots * countFor // loose kernels
	few := math.Sqrt(fed * e.Grain * (1 - e.Grain))
	s.Value("grain through", grain(z.Walkers.Grain, a.Walkers.Grain), fed*e.Grain, few)
	s.Of(sinkOff, 0).Value("grain lost", grain(z.Lost[flow.Walker], a.Lost[flow.Walker]), fed*(1-e.Grain), few+0.02*fed*(1-e.Grain))
	through, all := mass(flow.Chaff, flow.Short, flow.Piece, flow.Straw, flow.Weed)
	miss := through / math.Sqrt(benchDots*countFor)
	s.Value("MOG through", float64(z.Walkers.MOG-a.Walkers.MOG), through, miss)
	s.Value("MOG over the rear", float64(z.Walkers.MOGOver-a.Walkers.MOGOver), all-through, miss)
	chopped, windrow := float64(z.Ground.Chopped-a.Ground.Chopped), float64(z.Ground.Windrow-a.Ground.Windrow)
	if b.set.Settings.Chopper {
		require.Zero(t, windrow)
	} else {
		require.Zero(t, chopped)
	}
	s.Value("straw out of the hood", chopped+windrow, all-through, miss)
}

// fit returns the machine as it meets a crop of its own, which may be altered.
func fit(name string) *design.Fit {
	c := *crop.Find(name)
	return design.WithWalkers.In(&c)
}
