package grade

import (
	"testing"

	"github.com/stretchr/testify/require"

	"riddle/sim/trade/crop"
)

func close9(t *testing.T, want, got float64, what string) {
	t.Helper()
	require.InDelta(t, want, got, 1e-9, what)
}

// mixed is 100 kg in round numbers.
func mixed() Sample {
	return Sample{
		Loose: 95, Through: 3, Fine: 1, Parts: 4, PartsThrough: 1.5, Cracked: 2, Light: 2,
		Headed: 1, Husk: 0.5, Chaff: 1, Straw: 1.5, Weed: 1,
	}
}

// TestWheatByHand: the tester takes 0.98 of the chaff, 0.90 of the straw, 0.70
// of the weed, heads and husk: 0.98 + 1.35 + 0.70 + 1.5 = 4.53 kg of 100. Left
// are 95.47 kg, of which 3 fall through; of the other 92.47 kg 0.02 + 0.15 +
// 0.30 = 0.47 kg is not wheat.
func TestWheatByHand(t *testing.T) {
	f := Weigh(crop.Find("wheat"), mixed(), 13.5)
	close9(t, 4.53, f.Dockage, "dockage")
	close9(t, 100*3/95.47, f.Values["shrunken_and_broken_pct"], "shrunken and broken")
	close9(t, 100*0.47/92.47, f.Values[foreign], "foreign, on grain free of dockage and shrunken and broken")
	close9(t, 100*3/95.47+100*0.47/92.47, f.Values["total_defects_pct"], "defects")
	_, told := f.Values[damaged]
	require.False(t, told, "the machine knows nothing of damage in the field")
}

// TestOthersByHand: the same 100 kg in the other crops; where the standard
// knows no dockage all 4 kg beside the grain are foreign material.
func TestOthersByHand(t *testing.T) {
	v := Weigh(crop.Find("soybeans"), mixed(), 13).Values
	close9(t, 7, v[foreign], "3 kg through 8/64 and 4 kg on top")
	close9(t, 100*2.5/93, v["splits_pct"], "parts that stay on, of beans free of foreign material")
	_, has := v[dockage]
	require.False(t, has)

	v = Weigh(crop.Find("corn"), mixed(), 15.5).Values
	close9(t, 2, v["broken_corn_pct"], "through 12/64, on 6/64")
	close9(t, 5, v[foreign], "through 6/64, and no corn on top")
	close9(t, 7, v["broken_and_foreign_pct"], "both")

	v = Weigh(crop.Find("barley"), mixed(), 14).Values
	close9(t, 100*4/95.47, v["broken_pct"], "more than a quarter gone")
	close9(t, 100*6/95.47, v[skinned], "and what is only damaged")
	close9(t, 100*3/95.47, v[thin], "through the slots")
	close9(t, 100-100*0.47/95.47, v[sound], "sound")

	v = Weigh(crop.Find("sorghum"), mixed(), 14).Values
	close9(t, 100*1.47/95.47, v[foreign], "fines and what is no sorghum")
	close9(t, 100*3.47/95.47, v["broken_and_foreign_pct"], "with broken kernels")

	v = Weigh(crop.Find("canola"), mixed(), 9).Values
	close9(t, 100*0.47/95.47, v["conspicuous_admixture_pct"], "left in by the cleaner")
	_, has = v[testWeight]
	require.False(t, has, "canola has no limit of test weight")

	v = Weigh(crop.Find("oats"), mixed(), 13).Values
	close9(t, 4, v[foreign], "all that is not oats")
	close9(t, 3, v[thin], "through 0.064 × 3/8")
}

// TestDockageIsNoGradeFactor: clean wheat with 5 % of chaff loses weight, not
// its grade.
func TestDockageIsNoGradeFactor(t *testing.T) {
	c := crop.Find("wheat")
	clean, dirty := Judge(c, Sample{Loose: 95}, 13.5), Judge(c, Sample{Loose: 95, Chaff: 5}, 13.5)
	require.Equal(t, "U.S. No. 1", clean.Grade.Name)
	require.Equal(t, clean.Grade.Name, dirty.Grade.Name)
	close9(t, 4.9, dirty.Dockage, "0.98 of 5 %")
	require.InDelta(t, *clean.KgPerHL, *dirty.KgPerHL, 0.4)
}

// TestVisibleDamageIsMoreThanTheSieveTakes: 4 % of visibly damaged wheat of
// which a quarter falls through is 1 % of shrunken and broken kernels.
func TestVisibleDamageIsMoreThanTheSieveTakes(t *testing.T) {
	r := Judge(crop.Find("wheat"), Sample{Loose: 100, Through: 1, PartsThrough: 1, Parts: 2, Cracked: 2}, 13.5)
	close9(t, 1, *r.Factors["shrunken_and_broken_pct"], "through the slots")
	require.Nil(t, r.Factors[damaged])
	require.Contains(t, r.Factors, damaged, "it stands in the report as not told")
}

// TestJudge: no table, no grain, and every factor in its place.
func TestJudge(t *testing.T) {
	rice := Judge(crop.Find("rice"), Sample{Loose: 1}, 19)
	require.Nil(t, rice.Grade)
	require.Equal(t, NoTable, rice.By)
	require.Nil(t, rice.Factors)
	require.NotNil(t, rice.KgPerHL)
	empty := Judge(crop.Find("wheat"), Sample{}, 13)
	require.Nil(t, empty.Grade)
	require.Equal(t, NoSample, empty.By)
	require.Nil(t, empty.KgPerHL)
	for _, name := range crop.Names() {
		r := Judge(crop.Find(name), mixed(), 14)
		require.Len(t, r.Factors, len(Factors(name)), name)
		for _, a := range Factors(name) {
			require.Equal(t, a.Weighed, r.Factors[a.Key] != nil, "%s %s", name, a.Key)
		}
	}
}

// TestUnitsOfTestWeight: pairs of lb/bu and kg/hL as printed: wheat by U.S. Wheat
// Associates, Harvest Reports of 2009 and 2010; corn and sorghum by the U.S.
// Grains Council, harvest quality reports 2015/2016. The printed 58.9 lb of
// sorghum stand for up to 58.95. All lie near the definition, 453.59237 g in
// 35.23907 L.
func TestUnitsOfTestWeight(t *testing.T) {
	for _, pair := range []struct {
		crop       string
		pounds, kg float64
	}{
		{"wheat", 61.6, 81.0}, {"wheat", 60.8, 80.0}, {"wheat", 60.7, 79.9}, {"wheat", 62.0, 81.5},
		{"corn", 58.2, 74.9}, {"sorghum", 57.9, 74.5}, {"sorghum", 57, 73.4}, {"sorghum", 55, 70.8}, {"sorghum", 58.9, 75.9},
	} {
		require.InDelta(t, pair.kg, KgPerHL(pair.crop, pair.pounds), 0.115, pair.crop)
	}
	for _, name := range crop.Names() {
		require.InEpsilon(t, 58*45.359237/35.23907, KgPerHL(name, 58), 0.025, name)
		require.InDelta(t, 58, PoundsPerBushel(name, KgPerHL(name, 58)), 1e-9)
	}
}

// TestTestWeight: clean grain at base moisture has the weight of its crop; by
// the line of Hellevang 1995 corn at 20.5 % has 79.5/84.5 of it; and the signs
// of practice: wetter, lighter, more broken or dirtier grain weighs less.
func TestTestWeight(t *testing.T) {
	for _, name := range crop.Names() {
		c := crop.Find(name)
		base := BaseMoisture(name)
		at := func(s Sample, m float64) float64 { return TestWeight(c, s, m) }
		clean := at(Sample{Loose: 100}, base)
		require.InEpsilon(t, weights[name].pounds, clean, 1e-12, name)
		require.InEpsilon(t, clean, at(Sample{Loose: 7}, base), 1e-12, "the size of the sample does not matter")
		require.Less(t, at(Sample{Loose: 100}, base+2), clean, name)
		require.Greater(t, at(Sample{Loose: 100}, base-2), clean, name)
		require.Equal(t, at(Sample{Loose: 100}, base-4), at(Sample{Loose: 100}, base-6), name)
		for what, s := range map[string]Sample{
			"light": {Loose: 100, Light: 5}, "parts": {Loose: 100, Parts: 5}, "chaff": {Loose: 99, Chaff: 1},
			"straw": {Loose: 99, Straw: 1}, "weed": {Loose: 99, Weed: 1}, "heads": {Loose: 99, Headed: 0.9, Husk: 0.1},
		} {
			require.Less(t, at(s, base), clean, "%s with %s", name, what)
			require.Greater(t, at(s, base), 0.95*clean, "%s with %s", name, what)
		}
	}
	corn := crop.Find("corn")
	require.InEpsilon(t, 79.5/84.5, TestWeight(corn, Sample{Loose: 1}, 20.5)/TestWeight(corn, Sample{Loose: 1}, 15.5), 1e-9)
	// Two parts by hand: 90 kg at w and 10 kg at 0.85 w fill 90/w + 10/(0.85 w).
	require.InEpsilon(t, 100/(90+10/0.85), TestWeight(corn, Sample{Loose: 100, Light: 10}, 15.5)/TestWeight(corn, Sample{Loose: 100}, 15.5), 1e-12)
}

// TestToMoisture: tables of the Univ. of Missouri and of sunflower practice:
// 56 lb of corn at 15.5 % are 59.15 lb at 20 %; 60 lb of soybeans at 13 % are
// 58.00 lb at 10 %; 100 lb of sunflower at 10 % are 94.74 lb at 5 %.
func TestToMoisture(t *testing.T) {
	require.InDelta(t, 59.15, 56*ToMoisture(15.5, 20), 0.01)
	require.InDelta(t, 58.00, 60*ToMoisture(13, 10), 0.01)
	require.InDelta(t, 94.74, 100*ToMoisture(10, 5), 0.01)
}
