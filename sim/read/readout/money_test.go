package readout

import (
	"bytes"
	"testing"

	"github.com/stretchr/testify/require"

	"riddle/sim/read/measure"
	"riddle/sim/stage/flow"
	"riddle/sim/trade/crop"
	"riddle/sim/trade/grade"
)

// TestOnTheGround: 67.251 kg/ha of wheat are a bushel an acre, and of kernels of
// 32 mg 210.16 a square metre and 19.525 a square foot (arithmetic).
func TestOnTheGround(t *testing.T) {
	one := 67.2510628
	buAc, perM2, perFt2 := onTheGround(Loss{Total: &one}, crop.Find("wheat"))
	near6(t, 1, buAc.Total)
	near6(t, 210.159571, perM2.Total)
	near6(t, 19.524462, perFt2.Total)
	require.Nil(t, buAc.Header)
}

// TestInTrail: 6 m cut onto 1.5 m lie four times as thick, but for what the
// header dropped before; a measurer who divides by four finds the loss again.
func TestInTrail(t *testing.T) {
	h, p := 30.0, 60.0
	r := Report{Conditions: map[string]any{"header_width_m": 6.0}, LossPerM2: Loss{Header: &h, Processing: &p}}
	l := InTrail(&r, 1.5)
	require.Equal(t, 240.0, *l.Processing)
	require.Equal(t, 270.0, *l.Total)
	found := measure.Counts{Standing: 0, Header: h, Trail: *l.Total}.Losses(1, measure.Concentration(6, 1.5))
	require.Equal(t, 60.0, found.Machine)
	require.Equal(t, 30.0, found.Header)
	require.Nil(t, InTrail(&Report{}, 1.5).Total)
}

func near6(t *testing.T, want float64, got *float64) {
	t.Helper()
	require.NotNil(t, got)
	require.InEpsilon(t, want, *got, 1e-6)
}

// TestMoney works out a window by hand: soybeans of 12 a bushel of 60 lb are
// 440.925 a tonne.
func TestMoney(t *testing.T) {
	s := start(t, "soybeans")
	s.Conditions.GrainMoisture = 15
	m := Masses{
		Scale: 1, TankGrain: 970, TankForeign: 30, Walker: 20, LostHeader: 10,
		Sample: grade.Sample{Loose: 970, Chaff: 30, Parts: 200},
	}
	r := Make(m, Span{Setup: s, Seconds: 60, Hectares: 0.5})
	tonne := 12 / (60 * 0.45359237) * 1000
	wet := 1 - 85.0/87*0.98 // two points above 13 %, each 1 %
	near(t, tonne, r.Money.PerTonne, "a tonne")
	near(t, tonne*2, r.Money.CropPerHa, "1 t on half a hectare")
	near(t, 100*wet, r.Money.Moisture, "moisture")
	near(t, tonne*0.03*(1-wet)/0.5, r.Money.LossPerHa, "30 kg on half a hectare, sold wet")
	near(t, tonne*0.03*(1-wet)*60, r.Money.LossPerH, "an hour")
	near(t, 2, r.Money.Dockage, "3 % foreign material, 1 % of it paid")
	// 3 % foreign material is U.S. No. 3; 200 of 970 kg are 20.6 % of splits, No. 3 too.
	require.Equal(t, "U.S. No. 3", *r.Tank.Grade)
	require.Equal(t, "foreign material and splits", *r.Tank.GradedBy)
	require.Equal(t, []string{"foreign_material_pct", "splits_pct"}, r.Tank.GradedKeys)
	// The list: 2 cents for 3 % foreign material, 2 and 3 for the splits, of $12.
	near(t, 100*0.07/12, r.Money.Grade, "seven cents")
	near(t, tonne*wet/0.5, r.Money.MoistureHa, "a tonne on half a hectare")
	near(t, tonne*(1-wet)*(1-0.98*(1-0.07/12))/0.5, r.Money.DiscountHa, "dockage and grade of it, as it is paid wet")
	near(t, *r.Money.LossPerHa+*r.Money.DiscountHa, r.Money.CostPerHa, "both: nothing is visibly broken")
	near(t, *r.Money.CostPerHa*30, r.Money.CostPerH, "30 ha/h")

	mine := DefaultPrices("soybeans")
	mine.PerBushel, mine.Schedule, mine.GradeStep = 24, nil, 0
	dear := Make(m, Span{Setup: s, Seconds: 60, Hectares: 0.5, Prices: &mine})
	require.Equal(t, dear.Money, MoneyOf(&r, mine), "a report can be priced anew")
	near(t, 2**r.Money.LossPerHa, dear.Money.LossPerHa, "twice the price")
	require.Zero(t, *dear.Money.Grade)
}

// TestBreakageCosts by hand: corn at 15.5 %, 100 t on 10 ha, 3 % of it visibly
// broken, of which a tenth is chips, and 2.9 % broken corn and foreign material:
// the list takes nothing off. In all 28.5 % is damaged, which keeps 2.08
// e^(−0.0239·28.5) = 1.0526 times as long as Steele's corn; sound corn 2.08 times.
// 0.5 (1/1.0526 − 1/2.08) = 0.2346 % is wasted, and 0.3 % screened out at 0.6 of
// the price costs 0.12 %.
func TestBreakageCosts(t *testing.T) {
	s := start(t, "corn")
	s.Conditions.GrainMoisture = 15.5
	m := Masses{Scale: 1, TankGrain: 1e5, TankBroken: 3e3, Sample: grade.Sample{Loose: 1e5, Parts: 2e3, Through: 2.9e3, PartsThrough: 2e3, Chips: 300, Cracked: 1e3}}
	r := Make(m, Span{Setup: s, Seconds: 36000, Hectares: 10})
	worth := 1e4 / 1000 * 5.2 / (56 * 0.45359237) * 1000
	near(t, 0.3, r.Tank.Fines, "chips of the tank")
	near(t, worth, r.Money.CropPerHa, "10 t a hectare")
	require.Zero(t, *r.Money.DiscountHa, "to 3 % the list is content")
	near(t, worth*0.0012, r.Money.FinesHa, "screened out")
	require.InEpsilon(t, worth*0.002346, *r.Money.StorageHa, 1e-3)
	near(t, *r.Money.FinesHa+*r.Money.StorageHa, r.Money.CostPerHa, "breakage is in the cost")
	// One hectare an hour: 200 an hour, and 100 ha at 8 h of 0.66 of the days are
	// 18.94 days; half of them at 0.3 % are 2.841 % of the crop.
	near(t, 200, r.Money.MachineHa, "an hour a hectare")
	require.InEpsilon(t, worth*0.02841, *r.Money.WeatherHa, 1e-3)
	near(t, *r.Money.CostPerHa+*r.Money.MachineHa+*r.Money.WeatherHa, r.Money.WholeHa, "whole")
	near(t, worth-*r.Money.CostPerHa-200, r.Money.NetHa, "net")
	near(t, *r.Money.NetHa, r.Money.NetH, "one hectare an hour")
	require.Empty(t, r.Money.Refused)

	// Breakage is not a buyer's damaged kernels: that factor is not weighed.
	v, known := r.Tank.GradeFactors["damaged_total_pct"]
	require.True(t, known)
	require.Nil(t, v)
}

// TestKeeping: Steele's reference is corn of 30 % damage; from 40 % on nothing
// changes (Ng et al. 1998).
func TestKeeping(t *testing.T) {
	require.InDelta(t, 1, Keeps(30), 0.02)
	require.Equal(t, Keeps(40), Keeps(90))
	require.Greater(t, Keeps(0), 2.0)
}

// TestListsOfDiscounts by hand from the lists as posted: corn of 4.5 % broken
// corn and foreign material 5 cents, of 3.0 % none, of 52.5 lb 2 cents; soybeans
// of 22 % splits 5 cents; wheat of 57.4 lb 4 cents, of 55.6 lb 12.
func TestListsOfDiscounts(t *testing.T) {
	for _, c := range []struct {
		crop, factor string
		value, cents float64
	}{
		{"corn", "broken_and_foreign_pct", 3, 0}, {"corn", "broken_and_foreign_pct", 3.1, 2}, {"corn", "broken_and_foreign_pct", 4.5, 5}, {"corn", "broken_and_foreign_pct", 8, 15},
		{"corn", "test_weight_lb_bu", 54, 0}, {"corn", "test_weight_lb_bu", 52.5, 2},
		{"soybeans", "splits_pct", 15, 0}, {"soybeans", "splits_pct", 22, 5}, {"soybeans", "splits_pct", 26, 10},
		{"wheat", "test_weight_lb_bu", 57.4, 4}, {"wheat", "test_weight_lb_bu", 55.6, 12},
	} {
		p, sum := DefaultPrices(c.crop), 0.0
		for _, o := range p.Schedule {
			if o.Factor == c.factor {
				sum += o.cents(c.value)
			}
		}
		require.InDelta(t, c.cents, sum, 1e-9, "%s %s %g", c.crop, c.factor, c.value)
	}
}

// TestRefused: barley of 6 % skinned and broken is no malting barley, and loses
// its premium; 4 % of visible breakage bars seed: 38 % damaged, a third of which
// does not sprout, leaves 84.5 of the 85 % asked.
func TestRefused(t *testing.T) {
	s := start(t, "barley")
	s.Conditions.GrainMoisture = 14.5
	of := func(broken float64) Money {
		m := Masses{Scale: 1, TankGrain: 100, TankBroken: broken, Sample: grade.Sample{Loose: 100, Cracked: broken}}
		return Make(m, Span{Setup: s, Seconds: 1, Hectares: 1}).Money
	}
	good, poor, bad := of(3), of(4), of(6)
	require.Empty(t, good.Refused)
	require.Zero(t, *good.UseHa)
	require.Equal(t, []string{Seed}, poor.Refused)
	require.Equal(t, []string{Seed, Malt}, bad.Refused)
	near(t, *bad.CropPerHa/4, bad.UseHa, "a quarter of the price")
}

// TestCostsOfEveryCrop: each has a price, dry clean grain loses nothing, and
// wetter or dirtier grain costs more.
func TestCostsOfEveryCrop(t *testing.T) {
	for _, name := range crop.Names() {
		s := start(t, name)
		s.Conditions.GrainMoisture = grade.BaseMoisture(name)
		m := Masses{Scale: 1, TankGrain: 100, Sample: grade.Sample{Loose: 100}}
		over := Span{Setup: s, Seconds: 1, Hectares: 1}
		clean := Make(m, over)
		require.Positive(t, *clean.Money.PerBushel, name)
		require.Zero(t, *clean.Money.CostPerHa, name)
		over.Setup.Conditions.GrainMoisture += 2
		wet := Make(m, over)
		require.Positive(t, *wet.Money.MoistureHa, name)
		m.TankForeign, m.Sample.Chaff = 5, 5
		require.Greater(t, *Make(m, over).Money.CostPerHa, *wet.Money.CostPerHa, name)
	}
}

// TestPower: kWh a tonne are kW over t/h; what is not known is null.
func TestPower(t *testing.T) {
	r := Make(Masses{Scale: 1, In: 5}, Span{Setup: start(t, "wheat"), Seconds: 1, Power: flow.Power{Cylinder: 30, Walkers: 9, Shoe: 8, Fan: 2, Chopper: 6, Header: 7, Unloading: 1, Driving: 9}})
	near(t, 30, r.Power.Cylinder, "cylinder")
	near(t, 72, r.Power.Total, "in all")
	near(t, 4, r.Power.PerTonne, "5 kg/s are 18 t/h")
	near(t, 30, r.Cylinder.PowerKW, "cylinder")
	require.Nil(t, Make(Masses{Scale: 1}, Span{Setup: start(t, "wheat"), Seconds: 1}).Power.Total)
}

// TestPrintSample: the page names grade, standard, factors with their limits,
// what is taken as met, test weight and money in both systems of units.
func TestPrintSample(t *testing.T) {
	for name, words := range map[string][]string{
		"wheat":    {"at best U.S. No. 1, by what the machine makes: met by every factor (hard red spring wheat, 7 CFR 810.2204)", "lb/bu  at least 58 for U.S. No. 1", "kg/hL", "taken as met: heat-damaged", "bu/ac", "an acre", "a bushel"},
		"barley":   {"as six-row malting barley, 7 CFR 810.205: at best U.S. No. 1", "As malting barley: within"},
		"rice":     {"no grade: no grade table is held"},
		"soybeans": {"splits", "at most 10 for U.S. No. 1", "takes nothing off for splits up to 15 %"},
		"corn":     {"takes nothing off for broken corn", "a buyer's damaged kernels; broken ones are none"},
	} {
		s := start(t, name)
		m := Masses{Scale: 1, In: 100, TankGrain: 100, Sample: grade.Sample{Loose: 100}}
		r := Make(m, Span{Setup: s, Seconds: 10, Hectares: 0.1, State: "running", Power: flow.Power{Cylinder: 70}})
		var b bytes.Buffer
		require.NoError(t, Print(&b, &r))
		for _, w := range words {
			require.Contains(t, b.String(), w, name)
		}
		require.NotContains(t, b.String(), "NaN")
	}
}
