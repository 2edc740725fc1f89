package grade

import "riddle/sim/trade/crop"

// What the dockage tester takes out, by what it is: air lifts chaff, a riddle
// holds back heads and long pieces. Calibrated; that air and riddle are its
// means is from memory.
const (
	takesChaff = 0.98
	takesStraw = 0.90
	takesWeed  = 0.70
)

// Found is what a grader finds in a sample.
type Found struct {
	Values     map[string]float64 // by factor key, for those that can be weighed
	Dockage    float64            // of the sample, %; 0 in crops whose standard has none
	Foreign    float64            // material other than the grain left after dockage, of the sample, %
	TestWeight float64            // lb/bu
}

// Weigh determines the factors of a crop's standard in the order that it
// prescribes: dockage is removed first and weighed apart; then the sample is
// sieved; then the rest is picked over. Moisture (% wet basis) is no grade
// factor, it only alters the test weight. What grows, lives or rots in the
// field is not in the machine: damage by heat, mould, sprout and insects, other
// classes and grains, ergot and stones stay unweighed.
func Weigh(c *crop.Crop, s Sample, moisture float64) Found {
	f := Found{Values: map[string]float64{}}
	whole := s.Whole()
	if !(whole > 0) {
		return f
	}
	clean := s
	if hasDockage[c.Name] {
		clean = s.withoutDockage()
		f.Dockage = 100 * (1 - clean.Whole()/whole)
		f.Values[dockage] = f.Dockage
	}
	f.Foreign = 100 * clean.other() / whole
	f.TestWeight = TestWeight(c, s.weighedFor(c, clean), moisture)
	if t := TableOf(c.Name); t != nil && t.Factor(testWeight) != nil {
		f.Values[testWeight] = f.TestWeight
	}
	if by := standards[c.Name]; by != nil {
		by(&clean, f.Values)
	}
	return f
}

// hasDockage lists the crops whose standard removes dockage first: 7 CFR
// 810.202, 810.302, 810.1401, 810.2202 (sorghum, and in canola as printed in
// 810.302, published; barley and wheat from memory). In corn, oats and soybeans
// all of it is foreign material.
var hasDockage = map[string]bool{"wheat": true, "barley": true, "canola": true, "sorghum": true}

// standards are the determinations, by crop; clean is free of dockage where the
// standard removes it.
var standards = map[string]func(clean *Sample, v map[string]float64){
	"wheat": func(s *Sample, v map[string]float64) { // 810.2202, 810.2203 (triticale's like text published, 810.2003)
		v["shrunken_and_broken_pct"] = share(s.Through, s.Whole())
		v[foreign] = share(s.other(), s.Whole()-s.Through)
		v["total_defects_pct"] = v["shrunken_and_broken_pct"] + v[foreign]
	},
	"barley": func(s *Sample, v map[string]float64) { // 810.202, 810.203 (from memory)
		v[foreign] = share(s.other(), s.Whole())
		v[sound] = 100 - v[foreign]
		v["broken_pct"] = share(s.Parts, s.Whole())
		v[skinned] = share(s.Parts+s.Cracked, s.Whole())
		v[thin] = share(s.Through, s.Whole())
	},
	"oats": func(s *Sample, v map[string]float64) { // 810.1002 (published)
		v[foreign] = share(s.other(), s.Whole())
		v[sound] = 100 - v[foreign]
		v[thin] = share(s.Through, s.Whole()) // a special grade above 20 %, 810.1005(h)
	},
	"soybeans": func(s *Sample, v map[string]float64) { // 810.1602(c) (published), 810.1603 (from memory)
		out := s.Through + s.other()
		v[foreign] = share(out, s.Whole())
		v["splits_pct"] = share(s.Parts-s.PartsThrough, s.Whole()-out)
	},
	"corn": func(s *Sample, v map[string]float64) { // 810.402 (published)
		v["broken_corn_pct"] = share(s.Through-s.Fine, s.Whole())
		v[foreign] = share(s.Fine+s.other(), s.Whole())
		v["broken_and_foreign_pct"] = share(s.Through+s.other(), s.Whole())
	},
	"canola": func(s *Sample, v map[string]float64) { // 810.302 (published)
		v["conspicuous_admixture_pct"] = share(s.other(), s.Whole())
	},
	"sorghum": func(s *Sample, v map[string]float64) { // 810.1402 (from memory)
		v["broken_kernels_pct"] = share(s.Through-s.Fine, s.Whole())
		v[foreign] = share(s.Fine+s.other(), s.Whole())
		v["broken_and_foreign_pct"] = share(s.Through+s.other(), s.Whole())
	},
}

// withoutDockage returns what the dockage tester leaves in. Heads and pods that
// still hold grain stay on its riddle and go with the dockage, grain and all
// (taken from common practice; no printed rule was seen).
func (s *Sample) withoutDockage() Sample {
	left := *s
	left.Headed, left.Husk = 0, 0
	left.Chaff *= 1 - takesChaff
	left.Straw *= 1 - takesStraw
	left.Weed *= 1 - takesWeed
	return left
}

// other returns the material other than the grain. Grain in pods and cobs is
// picked out and counts as grain.
func (s *Sample) other() float64 { return s.Husk + s.Chaff + s.Straw + s.Weed }

func share(part, whole float64) float64 {
	if !(whole > 0) {
		return 0
	}
	return 100 * part / whole
}
