package readout

import (
	"bytes"
	"testing"

	"github.com/stretchr/testify/require"

	"riddle/sim/crop"
	"riddle/sim/flow"
	"riddle/sim/grade"
	"riddle/sim/measure"
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
	near(t, 4, r.Money.Grade, "two grades")
	near(t, tonne*wet/0.5, r.Money.MoistureHa, "a tonne on half a hectare")
	near(t, tonne*(1-wet)*(1-0.98*0.96)/0.5, r.Money.DiscountHa, "dockage and grade of it, as it is paid wet")
	near(t, *r.Money.LossPerHa+*r.Money.DiscountHa, r.Money.CostPerHa, "both")
	near(t, *r.Money.CostPerHa*30, r.Money.CostPerH, "30 ha/h")

	mine := DefaultPrices("soybeans")
	mine.PerBushel, mine.GradeStep = 24, 0
	dear := Make(m, Span{Setup: s, Seconds: 60, Hectares: 0.5, Prices: &mine})
	require.Equal(t, dear.Money, MoneyOf(&r, mine), "a report can be priced anew")
	near(t, 2**r.Money.LossPerHa, dear.Money.LossPerHa, "twice the price")
	require.Zero(t, *dear.Money.Grade)
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
		"wheat":    {"U.S. No. 1, met by every factor (hard red spring wheat, 7 CFR 810.2204)", "lb/bu  at least 58 for U.S. No. 1", "kg/hL", "taken as met: heat-damaged", "bu/ac", "an acre", "a bushel"},
		"barley":   {"as six-row malting barley, 7 CFR 810.205: U.S. No. 1"},
		"rice":     {"no grade: no grade table is held"},
		"soybeans": {"splits", "at most 10 for U.S. No. 1"},
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
