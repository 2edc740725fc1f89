package measure

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
)

func near(t *testing.T, want, got, within float64, what string) {
	t.Helper()
	require.InDelta(t, want, got, within, what)
}

// TestUnits: one bushel an acre in kg/ha, by definition.
func TestUnits(t *testing.T) {
	for bushel, want := range map[float64]float64{60: 67.251, 56: 62.768, 48: 53.801, 32: 35.867, 50: 56.043, 45: 50.438} {
		near(t, want, KgPerHectare(1, bushel), 0.001, "kg/ha")
		near(t, 1, BushelsPerAcre(want, bushel), 1e-4, "and back")
	}
	near(t, 43560.0/10.7639104, acreM2, 0.01, "an acre in m²")
	near(t, 1, PerFt2(10.7639104), 1e-8, "a square foot")
}

// TestKernelRules: the rules of extension bulletins follow from the mass of a
// thousand kernels that they take for granted. Wheat, durum, barley and oats:
// Minnesota small-grains bulletin 2003; soybeans and corn: Univ. Missouri G1280
// and G1290 (1993); sunflower: NDSU EB-25 (2007), a hundredweight an acre.
func TestKernelRules(t *testing.T) {
	for _, r := range []struct{ bushel, rule, thousand float64 }{
		{60, 20, 31.24}, {60, 16, 39.05}, {48, 14, 35.70}, {32, 10, 33.32}, {60, 4, 156.2}, {56, 2, 291.6},
	} {
		near(t, r.rule, KernelsPerFt2(r.bushel, r.thousand), 0.01, "kernels a square foot")
		near(t, r.thousand, ThousandKernels(r.bushel, r.rule), 0.05, "thousand-kernel mass")
	}
	near(t, 104, ThousandKernels(100, 10), 0.5, "ten seeds for a hundredweight fits confection seed, not oil seed")
	near(t, 312.5, KernelsPerM2(100, 32), 1e-9, "wheat of 32 g, 100 kg/ha")
	near(t, 64.1, KernelsPerM2(100, 156), 0.05, "soybeans")
	// Metric and US rules are one: 67.251 kg/ha is 1 bu/ac is k a square foot.
	near(t, KernelsPerFt2(60, 32), PerFt2(KernelsPerM2(67.2511, 32)), 1e-4, "both ways")
}

// TestBulletins: the worked examples as they are printed.
func TestBulletins(t *testing.T) {
	// Soybeans, M. Staton, Michigan State Univ. 2012: four counts, four in the
	// standing crop; 8.5 a square foot, 2.1 bu/ac (printed loosely as 2.2).
	harvested, standing := []float64{10, 9, 11, 11}, []float64{2, 1, 2, 2}
	mean := 0.0
	for i := range harvested {
		mean += (harvested[i] - standing[i]) / 4
	}
	near(t, 8.5, mean, 1e-12, "a square foot")
	near(t, 2.125, mean/4, 1e-12, "bu/ac at four a bushel")
	// Corn at the header, Sumner & Williams, Univ. Georgia: 24 kernels in 10 ft².
	near(t, 1.2, Counts{Header: 2.4}.Losses(2, 1).Header, 1e-12, "bu/ac")
	// Corn, Hanna, Iowa State: 4 kernels a square foot; K-State: 20.
	near(t, 2, Counts{Header: 4}.Losses(2, 1).Header, 1e-12, "bu/ac")
	near(t, 10, Counts{Header: 20}.Losses(2, 1).Header, 1e-12, "bu/ac")
	// Corn in the trail, trade press 2011: 8 or 9 kernels are about a bushel,
	// which holds at concentrations of 4 and 4.5.
	near(t, 1, Counts{Trail: 8}.Losses(2, 4).Machine, 1e-12, "bu/ac")
	near(t, 1, Counts{Trail: 9}.Losses(2, 4.5).Machine, 1e-12, "bu/ac")
	// Canola, Canola Council of Canada quiz 2017: 30 ft cut, 5 ft discharge, 3 g
	// a square foot; of 3.0 g a thousand that is 1,000 seeds.
	cf := Concentration(30, 5)
	near(t, 6, cf, 0, "concentration")
	near(t, 1000, 3/(3.0/1000), 1e-9, "seeds")
	near(t, 0.96, PanBushels(3, cf, 50), 0.005, "bu/ac")
	near(t, 48.0, PanBushels(3, cf, 50)*50, 0.05, "lb/ac")
	near(t, 53.8, PanKgHa(3/ft2InM2, cf), 0.05, "kg/ha")
	// Rice, Univ. Arkansas 2020: kernels a square foot to bu/ac.
	for n, want := range map[float64]float64{25: 1.3, 50: 2.5, 75: 3.7, 100: 5.1, 125: 6.4, 250: 12.8} {
		near(t, want, n/KernelsPerFt2(45, 24), 0.15, "rice of 24 g a thousand")
	}
	// California Rice Research Board 1971: lb/ac are 2.9 times seeds a square
	// foot, which is a mass of 30.2 g a thousand.
	near(t, 2.9, 45/KernelsPerFt2(45, 30.2), 0.01, "lb/ac")
	// Alberta econ5169: 26 heads, 24 kernels, 35 g: 951.4 kg/ac, 35 bu/ac.
	near(t, 951.4, YieldByHeads(26, 24, 35), 0.1, "kg/ac")
	near(t, 34.96, YieldByHeads(26, 24, 35)*1000/PoundG/60, 0.05, "bu/ac")
	// Gulden, canola survey 2013: 6 % of a crop of 40 bu is 2.4 bu/ac (printed
	// 2.5), 120 lb.
	near(t, 2.4, 0.06*40, 1e-12, "bu/ac")
	near(t, 6, Percent(2.4, 37.6), 1e-9, "%")
	// By the steps of the Minnesota bulletin: R 140, H and P 20, 24 ft cut, 4 ft
	// discharge, 20 a bushel, 40 bu harvested.
	f := Counts{Standing: 20, Header: 20, Trail: 140}.Losses(20, Concentration(24, 4))
	near(t, 1, f.Machine, 1e-12, "machine")
	near(t, 2, f.Total, 1e-12, "on the ground")
	near(t, 0, f.Header, 1e-12, "header")
	near(t, 4.76, Percent(f.Total, 40), 0.005, "%")
}

// TestFrames: frames of ten square feet by Sumner & Williams (rows), Univ.
// Missouri G1280 (swaths), Univ. Arkansas 2020 (headers), and ear plots by
// Sumner & Williams. Bulletins round to what a tape shows.
func TestFrames(t *testing.T) {
	for row, want := range map[float64]float64{28: 51.5, 30: 48, 36: 40, 38: 38, 40: 36} {
		near(t, want, FrameInches(row), 0.11, "in along a row")
	}
	for feet, want := range map[float64]float64{8: 15, 10: 12, 12: 10, 13: 9.25, 14: 8.6, 15: 8, 16: 7.5, 20: 6, 22: 5.45, 24: 5} {
		near(t, want, FrameInches(feet*12), 0.1, "in along a swath")
	}
	for feet, want := range map[float64]float64{20: 6, 25: 4.8, 30: 4, 35: 3.4} {
		near(t, want, FrameInches(feet*12), 0.05, "in across a header")
	}
	for rows, want := range map[float64]float64{6: 29, 8: 21.8, 12: 14.5} {
		near(t, want, EarPlotFeet(rows, 30), 0.051, "ft")
		near(t, 435.5, rows*2.5*want, 0.6, "ft²")
	}
	// Univ. Missouri G1290: n ears of ¾ lb on a hundredth of an acre are n bu/ac,
	// so the plot has to be that hundredth.
	near(t, AcreFt2/100.0, 6*2.5*EarPlotFeet(6, 30), 1e-9, "a hundredth of an acre")
}

// TestSpeed: what speed costs. N. Gregg, PAMI 2016: 160 ac of canola at 10 a
// bushel, 40 ft, 3 and 4 mph. J. McDonald: 3.5 mph. M. Staton, Michigan State
// 2019: soybeans, 30 ft, 75 % efficiency, 5 and 3 mph, 2 bu at 9.25.
func TestSpeed(t *testing.T) {
	near(t, 14.5, AcresAnHour(3, 40, 1), 0.1, "ac/h")
	near(t, 19.4, AcresAnHour(4, 40, 1), 0.1, "ac/h")
	near(t, 17, AcresAnHour(3.5, 40, 1), 0.05, "ac/h")
	near(t, 255, LossCost(17, 1, 15), 1e-9, "an hour")
	near(t, 3060, 12*LossCost(17, 1, 15), 1e-9, "a day of 12 h")
	near(t, 13.6, AcresAnHour(5, 30, 0.75), 0.05, "ac/h")
	near(t, 8.2, AcresAnHour(3, 30, 0.75), 0.05, "ac/h")
	near(t, 252, LossCost(AcresAnHour(5, 30, 0.75), 2, 9.25), 252*0.005, "an hour")
	f := Faster{Acres: 160, Slow: AcresAnHour(3, 40, 1), Fast: AcresAnHour(4, 40, 1), SlowLoss: 1, FastLoss: 3, Price: 10, Hour: 300}
	near(t, 1600, f.Acres*f.SlowLoss*f.Price, 0, "lost at 3 mph")
	near(t, 4800, f.Acres*f.FastLoss*f.Price, 0, "lost at 4 mph")
	near(t, 2.8, f.HoursSaved(), 0.06, "h saved")
	near(t, 2360, f.Net(), 20, "the printed hours are rounded; with 2.8 h exactly it is 2,360")
	near(t, 2360, 3200-2.8*300, 1e-9, "as printed")
	// An acre an hour is mph·ft/8.25 by the rule of practice.
	near(t, 1, AcresAnHour(8.25, 1, 1), 1e-12, "8.25")
}

// TestCountError: four beans ±50 %, forty ±16 %; and frames of drawn kernels
// vary as their mean (Poisson).
func TestCountError(t *testing.T) {
	near(t, 0.5, CountError(4), 1e-12, "four")
	near(t, 0.16, CountError(40), 0.002, "ten frames of four")
	near(t, 1, CountError(0), 0, "none found proves nothing")
	random := rand.New(rand.NewPCG(3, 4))
	const frames, kernels = 10000, 85000
	var n [frames]float64
	for range kernels { // kernels fall anywhere in the field
		n[random.IntN(frames)]++
	}
	mean, square := kernels/float64(frames), 0.0
	for _, v := range n {
		square += (v - mean) * (v - mean) / frames
	}
	require.InEpsilon(t, mean, square, 0.1)
	require.InEpsilon(t, CountError(mean), math.Sqrt(square)/mean, 0.05)
}

// TestSpreadOrNarrow: the same grain lies narrow and is divided by the
// concentration, or wide and is not: one loss.
func TestSpreadOrNarrow(t *testing.T) {
	const lost, cut, narrow = 12.0, 6.0, 1.5
	wide := Counts{Trail: lost}.Losses(20, 1)
	trail := Counts{Trail: lost * cut / narrow}.Losses(20, Concentration(cut, narrow))
	near(t, wide.Machine, trail.Machine, 1e-12, "bu/ac")
	near(t, 1, Concentration(6, 0), 0, "no discharge, nothing to concentrate")
}
