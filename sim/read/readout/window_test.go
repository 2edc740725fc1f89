package readout

import (
	"bytes"
	"encoding/json"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"riddle/sim/setup"
	"riddle/sim/stage/flow"
	"riddle/sim/trade/crop"
	"riddle/sim/trade/grade"
)

func start(t *testing.T, crop string) setup.Setup {
	t.Helper()
	s, err := setup.Default(crop)
	require.NoError(t, err)
	return s
}

// worked is a wheat tally in round numbers, whose readings are worked out by
// hand in the tests: a kernel weighs 32 mg, so 1,000 kernels weigh 32 g.
func worked() flow.Tally {
	var t flow.Tally
	const k = 1000 * flow.Kernel
	t.In, t.InMOG = 101*k, 2_880_000_000 // 2.88 kg
	t.Lost[flow.Header] = 1 * k
	t.Lost[flow.Unthreshed] = k / 2
	t.Lost[flow.Walker] = k
	t.Lost[flow.Blown] = k / 4
	t.Lost[flow.Ridden] = k / 4
	t.Tank.Grain, t.Tank.Broken, t.Tank.Light, t.Tank.Unthreshed = 98*k, 2*k, k, k
	t.Tank.Foreign = 64_000_000 // 64 g, as much as 2,000 kernels
	t.Tank.Through, t.Tank.Parts, t.Tank.PartsThrough = k/2, k, k/4
	t.Tank.Chaff, t.Tank.Straw, t.Tank.Weed = 32_000_000, 16_000_000, 8_000_000 // and 8 g of husk
	t.Cylinder.Grain, t.Cylinder.Separated = 110*k, 99*k
	t.Cylinder.Through, t.Cylinder.Over = 3*k, 2*k
	t.Cylinder.MOG, t.Cylinder.MOGOut = 3_000_000_000, 900_000_000
	t.Returns.Free, t.Returns.Unthreshed, t.Returns.MOG = 6*k, 2*k, 64_000_000
	return t
}

func shifted(t flow.Tally, times int64) flow.Tally {
	var sum flow.Tally
	for range times {
		sum = add(sum, t)
	}
	return sum
}

// add adds the fields that worked fills in.
func add(a, b flow.Tally) flow.Tally {
	a.In, a.InMOG = a.In+b.In, a.InMOG+b.InMOG
	for i := range a.Lost {
		a.Lost[i] += b.Lost[i]
	}
	a.Tank.Grain, a.Tank.Broken, a.Tank.Light = a.Tank.Grain+b.Tank.Grain, a.Tank.Broken+b.Tank.Broken, a.Tank.Light+b.Tank.Light
	a.Tank.Unthreshed, a.Tank.Foreign = a.Tank.Unthreshed+b.Tank.Unthreshed, a.Tank.Foreign+b.Tank.Foreign
	a.Tank.Through, a.Tank.Parts, a.Tank.PartsThrough = a.Tank.Through+b.Tank.Through, a.Tank.Parts+b.Tank.Parts, a.Tank.PartsThrough+b.Tank.PartsThrough
	a.Tank.Chaff, a.Tank.Straw, a.Tank.Weed = a.Tank.Chaff+b.Tank.Chaff, a.Tank.Straw+b.Tank.Straw, a.Tank.Weed+b.Tank.Weed
	a.Cylinder.Grain, a.Cylinder.Separated = a.Cylinder.Grain+b.Cylinder.Grain, a.Cylinder.Separated+b.Cylinder.Separated
	a.Cylinder.Through, a.Cylinder.Over = a.Cylinder.Through+b.Cylinder.Through, a.Cylinder.Over+b.Cylinder.Over
	a.Cylinder.MOG, a.Cylinder.MOGOut = a.Cylinder.MOG+b.Cylinder.MOG, a.Cylinder.MOGOut+b.Cylinder.MOGOut
	a.Returns.Free, a.Returns.Unthreshed, a.Returns.MOG = a.Returns.Free+b.Returns.Free, a.Returns.Unthreshed+b.Returns.Unthreshed, a.Returns.MOG+b.Returns.MOG
	return a
}

func near(t *testing.T, want float64, got *float64, what string) {
	t.Helper()
	require.NotNil(t, got, what)
	require.InEpsilon(t, want, *got, 1e-12, what)
}

// TestWindow holds the readings of a tally against arithmetic by hand, on the
// definitions of the command's contract.
func TestWindow(t *testing.T) {
	one := worked()
	// The window is the difference: three equal amounts before it change nothing.
	r := Window(shifted(one, 3), shifted(one, 4), Span{Setup: start(t, "wheat"), Seconds: 60, Hectares: 0.05, State: "running"})

	scale := 1300.0 / 14 // the machine is 1,300 mm wide inside, the slice of wheat 14 mm
	near(t, 3.2*scale/60, r.Feed.GrainKgS, "100,000 kernels of 32 mg got past the header")
	near(t, 2.88*scale/60, r.Feed.MOGKgS, "MOG")
	near(t, 3, r.Feed.AreaHaH, "0.05 ha in a minute")
	near(t, 3.2*scale/60*3.6, r.Feed.GrainTH, "t/h")

	// 98,000 + 2,000 kernels left the machine; 1,000 more were lost ahead of it.
	near(t, 0.5, r.Loss.Unthreshed, "unthreshed")
	near(t, 1, r.Loss.Walker, "walker")
	near(t, 0.5, r.Loss.Shoe, "shoe")
	near(t, 0.25, r.ShoeLoss.Blown, "blown")
	near(t, 0.25, r.ShoeLoss.Ridden, "ridden")
	near(t, 2, r.Loss.Processing, "processing")
	near(t, 100.0/101, r.Loss.Header, "header")
	near(t, 300.0/101, r.Loss.Total, "total")
	near(t, 0.032*scale/0.05, r.LossKgHa.Header, "32 g of the slice on 0.05 ha")
	near(t, 0.096*scale/0.05, r.LossKgHa.Total, "96 g of the slice on 0.05 ha")

	near(t, 90, r.Concave.Separated, "99 of 110")
	near(t, 100*5.0/110, r.Concave.Unthreshed, "5 of 110")
	near(t, 30, r.Concave.MOGThrough, "0.9 of 3")

	near(t, 8, r.Returns.OfGrain, "8,000 of 100,000 fed")
	near(t, 60, r.Returns.FreeGrain, "192 g of 320 g")
	near(t, 20, r.Returns.Unthreshed, "64 g of 320 g")
	near(t, 20, r.Returns.MOG, "64 g of 320 g")

	near(t, 3.2*scale, r.Tank.Kg, "98,000 kernels and 64 g")
	near(t, 95, r.Tank.Sound, "95,000 of 100,000")
	near(t, 2, r.Tank.Broken, "broken")
	near(t, 1, r.Tank.Unthreshed, "unthreshed in the tank")
	near(t, 2, r.Tank.Foreign, "64 g of 3.2 kg")

	// In thousands of kernels: of 100 the dockage tester takes the 1 in heads
	// and its 0.25 of husk, 0.98 of 1 of chaff, 0.90 of 0.5 of straw and 0.70 of
	// 0.25 of weed: 2.855. Half a thousand of the 97.145 left fall through.
	f := r.Tank.GradeFactors
	near(t, 2.855, f["dockage_pct"], "dockage")
	near(t, 50/97.145, f["shrunken_and_broken_pct"], "shrunken and broken")
	near(t, 14.5/96.645, f["foreign_material_pct"], "foreign material")
	near(t, 50/97.145+14.5/96.645, f["total_defects_pct"], "defects")
	// Volumes: 95 sound, 1 light, 1 of parts, and 0.02, 0.05, 0.075 left of the trash.
	pounds := 61.0 * 87 / 86.5 * 97.145 / (95 + 1/0.85 + 1/0.95 + 0.02/0.25 + 0.05/0.25 + 0.075/0.5)
	near(t, pounds, f["test_weight_lb_bu"], "test weight")
	near(t, 1.292*pounds+1.419, r.Tank.TestWeight, "test weight in kg/hL")
	require.Nil(t, f["damaged_total_pct"])
	require.Equal(t, "U.S. No. 1", *r.Tank.Grade)
	require.Equal(t, "every factor", *r.Tank.GradedBy)
	require.Equal(t, "hard red spring wheat, 7 CFR 810.2204", *r.Tank.GradedAs)

	require.Equal(t, Ledger{KernelsIn: 404000, Tank: 392000, Header: 4000, Unthreshed: 2000, Walker: 4000, Shoe: 2000, Inside: 0}, *r.Ledger)
}

// TestArea takes the area from speed and width where none is given: 5.2 km/h
// over 6 m are 3.12 ha/h.
func TestArea(t *testing.T) {
	r := Window(flow.Tally{}, worked(), Span{Setup: start(t, "wheat"), Seconds: 30})
	near(t, 3.12, r.Feed.AreaHaH, "area")
}

// TestEmpty gives null, never zero or NaN, for what nothing was counted of.
func TestEmpty(t *testing.T) {
	r := Window(worked(), worked(), Span{Setup: start(t, "corn"), Seconds: 0})
	for name, v := range map[string]*float64{
		"loss": r.Loss.Total, "header": r.Loss.Header, "shoe": r.ShoeLoss.Blown, "kg/ha": r.LossKgHa.Walker, "feed": r.Feed.GrainKgS, "area": r.Feed.AreaHaH,
		"concave": r.Concave.Separated, "mog": r.Concave.MOGThrough, "returns": r.Returns.OfGrain, "share": r.Returns.MOG, "sound": r.Tank.Sound,
	} {
		require.Nil(t, v, name)
	}
	require.Zero(t, *r.Tank.Kg)
	text, err := json.Marshal(r)
	require.NoError(t, err)
	require.Contains(t, string(text), `"reel_index":null`) // a corn header has no reel
	require.Contains(t, string(text), `"cutting_height_cm":null`)
	require.Contains(t, string(text), `"chopper":true`)
	require.Contains(t, string(text), `"test_weight_kg_hl":null`)
	require.Contains(t, string(text), `"grade":null`)
	require.Contains(t, string(text), `"loss_bu_ac":{"header":null`)
	require.Contains(t, string(text), `"loss_per_ha":null`)
	require.Contains(t, string(text), `"plugged_at_s":null`)
	require.NoError(t, Print(&bytes.Buffer{}, &r))
}

// TestFieldsAreAll finds every setting and condition once, apart.
func TestFieldsAreAll(t *testing.T) {
	r := Window(flow.Tally{}, worked(), Span{Setup: start(t, "soybeans"), Seconds: 1})
	require.Len(t, r.Settings, 11)
	require.Len(t, r.Conditions, 10)
	require.Equal(t, 480.0, r.Settings["cylinder_speed_rpm"])
	require.Equal(t, false, r.Settings["unload"])
	require.Equal(t, 3.4, r.Conditions["yield_t_ha"])
}

// TestLedgerSums walks random tallies in parts of a kernel: the whole numbers
// sum exactly and none is below zero.
func TestLedgerSums(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 2))
	for range 2000 {
		var n flow.Tally
		for c := flow.Header; c < flow.Causes; c++ {
			n.Lost[c] = random.Int64N(50)
			n.In += n.Lost[c]
		}
		n.Tank.Grain = random.Int64N(1000)
		n.In += n.Tank.Grain + random.Int64N(9)
		l := ledger(&n)
		require.Equal(t, l.KernelsIn, l.Tank+l.Header+l.Unthreshed+l.Walker+l.Shoe+l.Inside)
		require.GreaterOrEqual(t, l.Inside, int64(0))
	}
}

// TestStandardError: 100 of 10,000 kernels vary as √(100·0.99); the same loss in pieces
// of four varies twice as much, since four times fewer are counted.
func TestStandardError(t *testing.T) {
	near(t, 0.09949874371066199, StandardError(100, 10000, 1), "loose grain")
	near(t, 2*0.09949874371066199, StandardError(100, 10000, 4), "pieces of four")
	near(t, 0.01, StandardError(0, 10000, 1), "nothing counted: one event")
	near(t, 0.04, StandardError(10000, 10000, 4), "nothing else counted: one event")
	require.Nil(t, StandardError(0, 0, 1))
}

// TestLoadsAndTheirErrors: 400 stems and 900 of the heaviest pieces that come on
// the shoe, by hand: the flow is so many dots in the time, and its error the root
// of their number.
func TestLoadsAndTheirErrors(t *testing.T) {
	c := crop.Find("wheat")
	stem, piece := c.Straw.DotMass(), max(c.Chaff.DotMass(), c.Short.DotMass(), c.Weed.DotMass())
	require.Greater(t, stem, piece)
	var one flow.Tally
	one.Walkers.MOG, one.Walkers.MOGOver = int64(100*stem), int64(300*stem)
	one.Shoe.MOG = int64(900 * piece)
	r := Window(flow.Tally{}, one, Span{Setup: start(t, "wheat"), Seconds: 20, DriveKW: 50, Power: flow.Power{Cylinder: 20}})
	scale := 1300.0 / 14 * 1e-9 / 20
	require.InEpsilon(t, 400*stem*scale, *r.Loads.Walkers, 1e-9)
	require.InEpsilon(t, 20*stem*scale, *r.LoadsSE.Walkers, 1e-9)
	require.InEpsilon(t, 900*piece*scale, *r.Loads.Shoe, 1e-9)
	require.InEpsilon(t, 30*piece*scale, *r.LoadsSE.Shoe, 1e-9)
	require.Equal(t, 40.0, *r.Cylinder.OfDrive)
}

// TestErrors: the report's errors are those of its counts, by hand from the
// tally: √(k·(1−p)) events of so many kernels each, over all.
func TestErrors(t *testing.T) {
	r := Window(flow.Tally{}, worked(), Span{Setup: start(t, "wheat"), Seconds: 60, Hectares: 0.05})
	e := r.LossSE
	near9(t, 100*math.Sqrt(1000*0.99)/100_000, e.Walker)
	near9(t, 100*4*math.Sqrt(125*0.995)/100_000, e.Unthreshed) // a piece of wheat holds four kernels
	near9(t, 100*math.Sqrt(1000*100.0/101)/101_000, e.Header)
	near9(t, 100*math.Sqrt(250*0.9975)/100_000, r.ShoeLossSE.Blown)
	near9(t, 100*math.Sqrt(2000*0.98)/100_000, r.TankSE.Broken) // 98,000 kernels, and foreign material as heavy as 2,000
	near9(t, 100*4*math.Sqrt(250*0.99)/100_000, r.TankSE.Unthreshed)
	near9(t, math.Sqrt(*e.Unthreshed**e.Unthreshed+*e.Walker**e.Walker+*e.Shoe**e.Shoe), e.Processing)
	near9(t, math.Hypot(*e.Header, *e.Processing), e.Total)
}

// TestEarsFallWhole: corn is lost at the header as ears, and each counts once
// with all its kernels: 1,000 kernels are 125 pieces of eight.
func TestEarsFallWhole(t *testing.T) {
	r := Window(flow.Tally{}, worked(), Span{Setup: start(t, "corn"), Seconds: 60, Hectares: 0.05})
	near9(t, 100*8*math.Sqrt(125*100.0/101)/101_000, r.LossSE.Header)
}

// few is the worked tally with so little grain that no share of it means
// anything: nine kernels.
func few() flow.Tally {
	var t flow.Tally
	t.In = 9 * flow.Kernel
	t.Lost[flow.Unthreshed], t.Lost[flow.Header] = 4*flow.Kernel, flow.Kernel
	t.Tank.Grain, t.Tank.Unthreshed = 4*flow.Kernel, flow.Kernel
	t.Cylinder.Grain, t.Cylinder.Separated, t.Cylinder.MOG, t.Cylinder.MOGOut = 8*flow.Kernel, 4*flow.Kernel, 1000, 500
	t.Returns.Free, t.Returns.MOG = 2*flow.Kernel, 1000
	return t
}

// TestAlmostNothingHasNoShare: of nine kernels no share, error, grade or cost is
// told; that they came is.
func TestAlmostNothingHasNoShare(t *testing.T) {
	r := Window(flow.Tally{}, few(), Span{Setup: start(t, "soybeans"), Seconds: 60, Hectares: 0.05})
	require.Zero(t, r.Loss)
	require.Zero(t, r.LossSE)
	require.Zero(t, r.LossKgHa)
	require.Zero(t, r.Concave)
	require.Zero(t, r.Returns)
	require.Zero(t, r.TankSE)
	require.Nil(t, r.Tank.Broken)
	require.Nil(t, r.Tank.Grade)
	require.Equal(t, grade.NoSample, *r.Tank.GradedBy)
	require.Nil(t, r.Money.CostPerHa)
	require.Nil(t, r.Money.LossPerHa)
	require.Nil(t, r.Power.PerTonne)
	require.Positive(t, *r.Tank.Kg)
	require.Positive(t, *r.Feed.GrainKgS)
}

// TestAllLostAhead: where the header leaves all of it standing, that is a loss
// of 100 %, and there is nothing behind it to be a share of.
func TestAllLostAhead(t *testing.T) {
	var all flow.Tally
	all.In = 1000 * flow.Kernel
	all.Lost[flow.Header] = all.In
	r := Window(flow.Tally{}, all, Span{Setup: start(t, "wheat"), Seconds: 60, Hectares: 0.05})
	near(t, 100, r.Loss.Header, "header")
	near(t, 100, r.Loss.Total, "total")
	near(t, 0.1, r.LossSE.Header, "one kernel of 1,000")
	near(t, 0.032*1300/14/0.05, r.LossKgHa.Total, "32 g of the slice on 0.05 ha")
	require.Nil(t, r.Loss.Processing)
	require.Nil(t, r.Tank.Foreign)
	require.Nil(t, r.Money.CostPerHa)
}

// TestFillingMachineHasNoLoss: the header's loss shows at once, the grain cut
// beside it comes out some 12 s later. Until more is out than inside, a window
// that began with an empty machine tells no loss.
func TestFillingMachineHasNoLoss(t *testing.T) {
	const k = 1000 * flow.Kernel
	var young flow.Tally
	young.In, young.Lost[flow.Header], young.Lost[flow.Walker], young.Tank.Grain = 16*k, k, k/2, k
	over := Span{Setup: start(t, "wheat"), Seconds: 12, Hectares: 0.01}
	r := Window(flow.Tally{}, young, over)
	require.Zero(t, r.Loss)
	require.Zero(t, r.LossKgHa)
	require.Nil(t, r.Money.LossPerHa)
	require.True(t, Filling(&young), "1,500 are out, and 13,500 inside")

	later := young
	later.In += 14 * k
	later.Lost[flow.Header] += k
	later.Tank.Grain += 14 * k
	require.False(t, Filling(&later))
	near(t, 100*0.5/15.5, Window(flow.Tally{}, later, over).Loss.Walker, "15,500 out, 12,500 inside")
}

// TestLossLiesWhereItsGrainStood: what is lost behind the machine is laid on the
// area that the grain came from, what the header loses on the one just cut.
func TestLossLiesWhereItsGrainStood(t *testing.T) {
	r := Window(flow.Tally{}, worked(), Span{Setup: start(t, "wheat"), Seconds: 60, Hectares: 0.005, Left: 0.05})
	scale := 1300.0 / 14
	near(t, 0.032*scale/0.005, r.LossKgHa.Header, "on what was cut")
	near(t, 0.064*scale/0.05, r.LossKgHa.Processing, "on what it stood on")
	near(t, *r.LossKgHa.Header+*r.LossKgHa.Processing, r.LossKgHa.Total, "both")
	near(t, 0.05, r.LeftHa, "said")
}

func near9(t *testing.T, want float64, got *float64) {
	t.Helper()
	require.NotNil(t, got)
	require.InEpsilon(t, want, *got, 1e-9)
}

// TestPrint: the page for people names what a plug is about.
func TestPrint(t *testing.T) {
	r := Window(flow.Tally{}, worked(), Span{Setup: start(t, "wheat"), Seconds: 12.5, State: "plugged",
		Plug: &Plug{At: 72.5, Where: "cylinder", Why: "The crop came in faster than the bars could draw it through."}})
	var b bytes.Buffer
	require.NoError(t, Print(&b, &r))
	for _, words := range []string{"Plugged 72.5 s", ": cylinder. ", "engine off", "faster than the bars", "straw walkers", "Reel index", "5.2 km/h"} {
		require.Contains(t, b.String(), words)
	}
	require.NotContains(t, b.String(), "NaN")
}
