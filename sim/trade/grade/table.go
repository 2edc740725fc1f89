package grade

// Factor is one line of a grade table: what is weighed, and how much of it each
// numbered grade allows.
type Factor struct {
	Key    string    // its last part is the unit: pct by mass, or lb_bu
	Name   string    // as the standard calls it
	Least  bool      // the limits are the least allowed, else the most
	Record Record    // how the standard writes it down
	Limits []float64 // for U.S. No. 1, No. 2 and so on
}

// Record is the rounding with which a factor is written down before it is held
// against its limits. Halves are rounded up, as 7 CFR 868.308 prints for rice
// (published) and 810.104 says alike (from memory).
type Record uint8

const (
	Tenths     Record = iota // to the nearest tenth: percentages, and pounds of corn, sorghum and wheat (810.102(d), 810.104, from memory)
	Hundredths               // to the nearest hundredth: ergot, sclerotinia and stones
	Halves                   // down to a half pound: test weight of barley and oats (810.102(d), from memory)
)

// Table is the grades of one standard. The worst grade that any factor gives is
// the grade of the lot.
type Table struct {
	Name    string // of the crop, or of the crop and the class
	Crop    string
	Class   string // that is taken for granted, in words; empty where it matters not
	Section string // of the standard
	Mark    string // how far the printed table was seen
	Past    string // what a lot is that meets no numbered grade; empty for U.S. Sample grade
	Factors []Factor
}

// keys that more than one table or determination use.
const (
	testWeight = "test_weight_lb_bu"
	heat       = "heat_damaged_pct"
	damaged    = "damaged_total_pct"
	foreign    = "foreign_material_pct"
	dockage    = "dockage_pct"
	thin       = "thin_pct"
	sound      = "sound_pct"
	skinned    = "skinned_and_broken_pct"
	stones     = "stones_pct"
	wildOats   = "wild_oats_pct"
)

func most(key, name string, limits ...float64) Factor {
	return Factor{Key: key, Name: name, Limits: limits}
}

func least(key, name string, limits ...float64) Factor {
	return Factor{Key: key, Name: name, Least: true, Limits: limits}
}

func pounds(r Record, limits ...float64) Factor {
	return Factor{Key: testWeight, Name: "test weight", Least: true, Record: r, Limits: limits}
}

func hundredths(f Factor) Factor {
	f.Record = Hundredths
	return f
}

// wheat returns the factors of wheat after its test weight.
func wheat(weight ...float64) []Factor {
	return []Factor{
		pounds(Tenths, weight...),
		most(heat, "heat-damaged kernels", 0.2, 0.2, 0.5, 1, 3),
		most(damaged, "damaged kernels", 2, 4, 7, 10, 15),
		most(foreign, "foreign material", 0.4, 0.7, 1.3, 3, 5),
		most("shrunken_and_broken_pct", "shrunken and broken kernels", 3, 5, 8, 12, 20),
		most("total_defects_pct", "defects in total", 3, 5, 8, 12, 20),
		most("contrasting_classes_pct", "contrasting classes", 1, 2, 3, 10, 10),
		most("other_classes_pct", "wheat of other classes", 3, 5, 10, 10, 10),
		most(stones, "stones", 0.1, 0.1, 0.1, 0.1, 0.1),
	}
}

// malting returns the factors of malting barley with the limits that differ
// between two-row and six-row.
func malting(weight, thins []float64) []Factor {
	return []Factor{
		pounds(Halves, weight...),
		least("suitable_types_pct", "suitable malting types", 97, 97, 95, 95),
		least(sound, "sound barley", 98, 98, 96, 93),
		most(damaged, "damaged kernels", 2, 3, 4, 5),
		most(wildOats, "wild oats", 1, 1, 2, 3),
		most(foreign, "foreign material", 0.5, 1, 2, 3),
		most("other_grains_pct", "other grains", 2, 3, 5, 5),
		most(skinned, "skinned and broken kernels", 4, 6, 8, 10),
		most(thin, "thin barley", thins...),
	}
}

// noMalt is what becomes of malting barley past its last grade: it is graded by
// the table of barley (810.204 and 810.205, from memory).
const noMalt = "no malting grade, to be graded as barley"

// Tables holds every table, each figure by 7 CFR part 810, Official United
// States Standards for Grain, in the section that the table names (published;
// for soybeans the limits of splits from memory). A crop's first table is the
// one that its tank is graded by. Counts of filth, seeds, glass and stones, and
// odour, are part of the standards too; the machine carries none of them.
var Tables = []Table{
	{
		Name: "wheat", Crop: "wheat", Class: "hard red spring wheat", Section: "7 CFR 810.2204", Mark: "published",
		Factors: wheat(58, 57, 55, 53, 50),
	},
	{
		Name: "wheat, other classes", Crop: "wheat", Class: "any class but hard red spring and white club", Section: "7 CFR 810.2204", Mark: "published",
		Factors: wheat(60, 58, 56, 54, 51),
	},
	{
		Name: "barley", Crop: "barley", Class: "barley", Section: "7 CFR 810.206", Mark: "published",
		Factors: []Factor{
			pounds(Halves, 47, 45, 43, 40, 36),
			least(sound, "sound barley", 97, 94, 90, 85, 75),
			most(damaged, "damaged kernels", 2, 4, 6, 8, 10),
			most(heat, "heat-damaged kernels", 0.2, 0.3, 0.5, 1, 3),
			most(foreign, "foreign material", 1, 2, 3, 4, 5),
			most("broken_pct", "broken kernels", 4, 8, 12, 18, 28),
			most(thin, "thin barley", 10, 15, 25, 35, 75),
		},
	},
	{
		Name: "barley, two-row malting", Crop: "barley", Class: "two-row malting barley", Section: "7 CFR 810.204", Mark: "published", Past: noMalt,
		Factors: malting([]float64{50, 48, 48, 48}, []float64{5, 7, 10, 10}),
	},
	{
		Name: "barley, six-row malting", Crop: "barley", Class: "six-row malting barley", Section: "7 CFR 810.205", Mark: "published", Past: noMalt,
		Factors: malting([]float64{47, 45, 43, 43}, []float64{7, 10, 15, 15}),
	},
	{
		Name: "oats", Crop: "oats", Section: "7 CFR 810.1004", Mark: "published",
		Factors: []Factor{
			pounds(Halves, 36, 33, 30, 27),
			least(sound, "sound oats", 97, 94, 90, 80),
			most(heat, "heat-damaged kernels", 0.1, 0.3, 1, 3),
			most(foreign, "foreign material", 2, 3, 4, 5),
			most(wildOats, "wild oats", 2, 3, 5, 10),
		},
	},
	{
		Name: "soybeans", Crop: "soybeans", Class: "yellow soybeans", Section: "7 CFR 810.1604", Mark: "published; splits from memory",
		Factors: []Factor{
			most(heat, "heat-damaged kernels", 0.2, 0.5, 1, 3),
			most(damaged, "damaged kernels", 2, 3, 5, 8),
			most(foreign, "foreign material", 1, 2, 3, 5),
			most("splits_pct", "splits", 10, 20, 30, 40),
		},
	},
	{
		Name: "corn", Crop: "corn", Section: "7 CFR 810.404", Mark: "published",
		Factors: []Factor{
			pounds(Tenths, 56, 54, 52, 49, 46),
			most(heat, "heat-damaged kernels", 0.1, 0.2, 0.5, 1, 3),
			most(damaged, "damaged kernels", 3, 5, 7, 10, 15),
			most("broken_and_foreign_pct", "broken corn and foreign material", 2, 3, 4, 5, 7),
		},
	},
	{
		Name: "canola", Crop: "canola", Section: "7 CFR 810.304", Mark: "published",
		Factors: []Factor{
			most(heat, "heat-damaged kernels", 0.1, 0.5, 2),
			most("distinctly_green_pct", "distinctly green kernels", 2, 6, 20),
			most(damaged, "damaged kernels", 3, 10, 20),
			hundredths(most("ergot_pct", "ergot", 0.05, 0.05, 0.05)),
			hundredths(most("sclerotinia_pct", "sclerotinia", 0.05, 0.10, 0.15)),
			hundredths(most(stones, "stones", 0.05, 0.05, 0.05)),
			most("conspicuous_admixture_pct", "conspicuous admixture", 1, 1.5, 2),
			most("inconspicuous_admixture_pct", "inconspicuous admixture", 5, 5, 5),
		},
	},
	{
		Name: "sorghum", Crop: "sorghum", Section: "7 CFR 810.1404", Mark: "published",
		Factors: []Factor{
			pounds(Tenths, 57, 55, 53, 51),
			most(heat, "heat-damaged kernels", 0.2, 0.5, 1, 3),
			most(damaged, "damaged kernels", 2, 5, 10, 15),
			most(foreign, "foreign material", 1, 2, 3, 4),
			most("broken_and_foreign_pct", "broken kernels and foreign material", 3, 6, 8, 10),
		},
	},
}

// TableOf returns the table that a crop's tank is graded by, or nil: rough rice
// has a standard of its own (7 CFR 868.210) whose table is not held here.
func TableOf(crop string) *Table {
	for i := range Tables {
		if Tables[i].Crop == crop {
			return &Tables[i]
		}
	}
	return nil
}

// Named returns the table of the given name, or nil.
func Named(name string) *Table {
	for i := range Tables {
		if Tables[i].Name == name {
			return &Tables[i]
		}
	}
	return nil
}
