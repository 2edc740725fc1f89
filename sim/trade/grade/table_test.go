package grade

import (
	"testing"

	"github.com/stretchr/testify/require"

	"riddle/sim/trade/crop"
)

// printed is the standards' tables once more, by row as they are printed: 7 CFR
// 810.2204 (wheat), .206, .204, .205 (barley), .1004 (oats), .1604 (soybeans),
// .404 (corn), .304 (canola), .1404 (sorghum).
var printed = map[string]map[string][]float64{
	"wheat": {
		testWeight: {58, 57, 55, 53, 50}, heat: {.2, .2, .5, 1, 3}, damaged: {2, 4, 7, 10, 15}, foreign: {.4, .7, 1.3, 3, 5},
		"shrunken_and_broken_pct": {3, 5, 8, 12, 20}, "total_defects_pct": {3, 5, 8, 12, 20},
		"contrasting_classes_pct": {1, 2, 3, 10, 10}, "other_classes_pct": {3, 5, 10, 10, 10}, stones: {.1, .1, .1, .1, .1},
	},
	"wheat, other classes": {
		testWeight: {60, 58, 56, 54, 51}, heat: {.2, .2, .5, 1, 3}, damaged: {2, 4, 7, 10, 15}, foreign: {.4, .7, 1.3, 3, 5},
		"shrunken_and_broken_pct": {3, 5, 8, 12, 20}, "total_defects_pct": {3, 5, 8, 12, 20},
		"contrasting_classes_pct": {1, 2, 3, 10, 10}, "other_classes_pct": {3, 5, 10, 10, 10}, stones: {.1, .1, .1, .1, .1},
	},
	"barley": {
		testWeight: {47, 45, 43, 40, 36}, sound: {97, 94, 90, 85, 75}, damaged: {2, 4, 6, 8, 10}, heat: {.2, .3, .5, 1, 3},
		foreign: {1, 2, 3, 4, 5}, "broken_pct": {4, 8, 12, 18, 28}, thin: {10, 15, 25, 35, 75},
	},
	"barley, two-row malting": {
		testWeight: {50, 48, 48, 48}, "suitable_types_pct": {97, 97, 95, 95}, sound: {98, 98, 96, 93}, damaged: {2, 3, 4, 5}, wildOats: {1, 1, 2, 3},
		foreign: {.5, 1, 2, 3}, "other_grains_pct": {2, 3, 5, 5}, skinned: {4, 6, 8, 10}, thin: {5, 7, 10, 10},
	},
	"barley, six-row malting": {
		testWeight: {47, 45, 43, 43}, "suitable_types_pct": {97, 97, 95, 95}, sound: {98, 98, 96, 93}, damaged: {2, 3, 4, 5}, wildOats: {1, 1, 2, 3},
		foreign: {.5, 1, 2, 3}, "other_grains_pct": {2, 3, 5, 5}, skinned: {4, 6, 8, 10}, thin: {7, 10, 15, 15},
	},
	"oats":     {testWeight: {36, 33, 30, 27}, sound: {97, 94, 90, 80}, heat: {.1, .3, 1, 3}, foreign: {2, 3, 4, 5}, wildOats: {2, 3, 5, 10}},
	"soybeans": {heat: {.2, .5, 1, 3}, damaged: {2, 3, 5, 8}, foreign: {1, 2, 3, 5}, "splits_pct": {10, 20, 30, 40}},
	"corn": {
		testWeight: {56, 54, 52, 49, 46}, heat: {.1, .2, .5, 1, 3}, damaged: {3, 5, 7, 10, 15}, "broken_and_foreign_pct": {2, 3, 4, 5, 7},
	},
	"canola": {
		heat: {.1, .5, 2}, "distinctly_green_pct": {2, 6, 20}, damaged: {3, 10, 20}, "ergot_pct": {.05, .05, .05}, "sclerotinia_pct": {.05, .10, .15},
		stones: {.05, .05, .05}, "conspicuous_admixture_pct": {1, 1.5, 2}, "inconspicuous_admixture_pct": {5, 5, 5},
	},
	"sorghum": {
		testWeight: {57, 55, 53, 51}, heat: {.2, .5, 1, 3}, damaged: {2, 5, 10, 15}, foreign: {1, 2, 3, 4}, "broken_and_foreign_pct": {3, 6, 8, 10},
	},
}

// TestEveryCell holds every cell of every table: a value at the limit has the
// grade, the next value that the standard would write down has a worse one.
func TestEveryCell(t *testing.T) {
	require.Len(t, printed, len(Tables))
	for i := range Tables {
		table := &Tables[i]
		rows := printed[table.Name]
		require.Len(t, table.Factors, len(rows), table.Name)
		for _, f := range table.Factors {
			limits, worst := rows[f.Key], len(rows[f.Key])+1
			require.Equal(t, limits, f.Limits, "%s %s", table.Name, f.Key)
			step := map[Record]float64{Tenths: 0.1, Hundredths: 0.01, Halves: 0.5}[f.Record]
			if f.Least {
				step = -step
			}
			for n, limit := range limits {
				at := table.Of(map[string]float64{f.Key: limit})
				require.LessOrEqual(t, at.No, n+1, "%s: %s at %g", table.Name, f.Key, limit)
				beyond := table.Of(map[string]float64{f.Key: limit + step})
				want := n + 2
				for want < worst && limits[want-1] == limit { // equal limits in a row
					want++
				}
				require.Equal(t, want, beyond.No, "%s: %s at %g", table.Name, f.Key, limit+step)
				require.Equal(t, want == worst, beyond.Sample)
				require.Equal(t, []string{f.Key}, beyond.By)
			}
		}
	}
}

// TestWorkedGrades: lots graded by reading the printed tables.
func TestWorkedGrades(t *testing.T) {
	for _, l := range []struct {
		table  string
		values map[string]float64
		want   string
		by     string
	}{
		{"wheat", map[string]float64{testWeight: 57.5}, "U.S. No. 2", "test weight"},
		{"wheat, other classes", map[string]float64{testWeight: 57.5}, "U.S. No. 3", "test weight"},
		{"soybeans", map[string]float64{"splits_pct": 10.0}, "U.S. No. 1", "every factor"},
		{"soybeans", map[string]float64{"splits_pct": 10.1}, "U.S. No. 2", "splits"},
		{"soybeans", map[string]float64{"splits_pct": 40.1}, "U.S. Sample grade", "splits"},
		{"soybeans", map[string]float64{"other_colors_pct": 8}, "U.S. No. 1", "every factor"}, // no factor since 2023, 88 FR 45055
		{"corn", map[string]float64{testWeight: 55, "broken_and_foreign_pct": 2.4, damaged: 2}, "U.S. No. 2", "test weight and broken corn and foreign material"},
		{"barley, two-row malting", map[string]float64{skinned: 6.5}, "U.S. No. 3", "skinned and broken kernels"},
		{"barley, six-row malting", map[string]float64{skinned: 10.1}, "no malting grade, to be graded as barley", "skinned and broken kernels"},
		{"canola", map[string]float64{"conspicuous_admixture_pct": 1.2, testWeight: 30}, "U.S. No. 2", "conspicuous admixture"},
		{"wheat", map[string]float64{dockage: 5, testWeight: 61, foreign: 0.1}, "U.S. No. 1", "every factor"},
		{"wheat", map[string]float64{foreign: 0.6, "shrunken_and_broken_pct": 4.6, "total_defects_pct": 5.2}, "U.S. No. 3", "defects in total"},
		{"barley", map[string]float64{testWeight: 47.4, foreign: 1, thin: 10}, "U.S. No. 1", "every factor"},
		{"barley", map[string]float64{testWeight: 46.9}, "U.S. No. 2", "test weight"},
		{"oats", map[string]float64{testWeight: 26.9}, "U.S. Sample grade", "test weight"},
		{"sorghum", map[string]float64{foreign: 1.1, "broken_and_foreign_pct": 3}, "U.S. No. 2", "foreign material"},
	} {
		table := Named(l.table)
		require.NotNil(t, table, l.table)
		g := table.Of(l.values)
		require.Equal(t, l.want, g.Name, "%s %v", l.table, l.values)
		require.Equal(t, l.by, table.Names(g), "%s %v", l.table, l.values)
	}
}

// TestRecords: the examples that 7 CFR 868.308 prints, and half pounds with the
// rest disregarded (810.102(d), from memory).
func TestRecords(t *testing.T) {
	for _, e := range []struct{ is, written float64 }{{6.36, 6.4}, {0.35, 0.4}, {2.45, 2.5}, {8.34, 8.3}, {1.22, 1.2}} {
		require.Equal(t, e.written, Tenths.Round(e.is))
	}
	require.Equal(t, 46.5, Halves.Round(46.99))
	require.Equal(t, 47.0, Halves.Round(47))
	require.Equal(t, 0.05, Hundredths.Round(0.054))
	require.Equal(t, 0.06, Hundredths.Round(0.055))
}

// TestTablesStandInOrder: no grade allows less than a better one, and every
// crop but rice has a table.
func TestTablesStandInOrder(t *testing.T) {
	for _, table := range Tables {
		grades := len(table.Factors[0].Limits)
		for _, f := range table.Factors {
			require.Len(t, f.Limits, grades, table.Name)
			for i := 1; i < grades; i++ {
				if f.Least {
					require.LessOrEqual(t, f.Limits[i], f.Limits[i-1], "%s %s", table.Name, f.Key)
				} else {
					require.GreaterOrEqual(t, f.Limits[i], f.Limits[i-1], "%s %s", table.Name, f.Key)
				}
			}
		}
	}
	for _, name := range crop.Names() {
		require.Equal(t, name != "rice", TableOf(name) != nil, name)
	}
	require.Nil(t, Named("rye"))
}

// TestEveryFactorIsExplained: purpose and what drives it, and nothing that the
// machine cannot weigh is said to hang on it.
func TestEveryFactorIsExplained(t *testing.T) {
	for _, name := range crop.Names() {
		seen := map[string]bool{}
		for _, a := range Factors(name) {
			require.NotEmpty(t, a.Name, "%s %s", name, a.Key)
			require.NotEmpty(t, a.Purpose, "%s %s", name, a.Key)
			require.NotEmpty(t, a.Driven, "%s %s", name, a.Key)
			require.False(t, seen[a.Key], "%s %s twice", name, a.Key)
			require.False(t, a.Machine && !a.Weighed, "%s %s", name, a.Key)
			seen[a.Key] = true
		}
	}
	require.Nil(t, Factors("rice"))
}
