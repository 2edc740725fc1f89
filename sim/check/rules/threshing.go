package rules

import (
	"riddle/sim/setup"
	"riddle/sim/trade/crop"
)

// Sources of the rows. The signs are common practice, told alike in operator's
// literature and extension advice; where a study is named it was read as an
// abstract.
const (
	practice = "common practice of the trade, as operators' and extension advice tells it"
	spokas   = "Spokas, Steponavicius & Petkevicius 2008, Agronomy Research 6:367–376, and common practice"
	huynh    = "Huynh, Powell & Siddall 1982, Transactions of the ASAE 25(1):65–73 (from memory), and common practice"
	nyborg   = "Nyborg 1967, Grain combine loss characteristics, MSc thesis, Michigan State University, and common practice"
	kim      = "Kim & Gregory 2015, Journal of Biosystems Engineering 40(4):314–319, and common practice"
	walkers  = "Steponavicius et al., studies of straw walkers (215 rpm on 0.05 m best), and common practice"
	srivast  = "Srivastava, Goering, Rohrbach & Buckmaster 2006, Engineering Principles of Agricultural Machines, ch. 12 (opening page), and common practice"
)

func cylinder(times float64) func(*setup.Setup) {
	return func(s *setup.Setup) { s.Settings.CylinderSpeed *= times }
}

func gap(times float64) func(*setup.Setup) {
	return func(s *setup.Setup) { s.Settings.Clearance *= times }
}

func speed(times float64) func(*setup.Setup) {
	return func(s *setup.Setup) { s.Settings.GroundSpeed *= times }
}

// cuts is true of crops that are cut with a bar.
func cuts(c *crop.Crop) bool { return !c.Header.Snaps }

func threshing(key, name, source string, apply func(*setup.Setup)) *Change {
	return &Change{Key: key, Table: "TH-T24", Name: name, Source: source, Mark: "common practice", apply: apply}
}

// wornSpeed is how much faster a driver turns a cylinder with bars worn to 0.8
// until as much is threshed as before: (1 − 0.25·0.8)^(−1/1.3), from the
// threshing law. Computed.
const wornSpeed = 1.187

// Rows of the threshing table.
var (
	drumUp     = threshing("drum-up", "cylinder speed +10 %", huynh, cylinder(1.1))
	drumDown   = threshing("drum-down", "cylinder speed −10 %", huynh, cylinder(0.9))
	drumFast   = threshing("drum-fast", "cylinder speed +20 %", huynh, cylinder(1.2))
	gapTight   = threshing("gap-tight", "clearance × 0.7", spokas, gap(0.7))
	gapWide    = threshing("gap-wide", "clearance × 1.5", spokas, gap(1.5))
	feedUp     = threshing("feed-up", "feed +50 %", nyborg, speed(1.5))
	feedDown   = threshing("feed-down", "feed −50 %", spokas, speed(0.5))
	grainWet   = threshing("grain-wet", "grain moisture +6.5 points", srivast, func(s *setup.Setup) { s.Conditions.GrainMoisture += 6.5 })
	strawTough = threshing("straw-tough", "straw moisture +8 points", practice, func(s *setup.Setup) { s.Conditions.StrawMoisture += 8 })
	weeds      = threshing("weeds", "green weeds, 10 % of the material", practice, func(s *setup.Setup) { s.Conditions.GreenWeeds = 10 })
	dry        = threshing("dry", "very dry crop: grain −3, straw −5 points", practice, func(s *setup.Setup) {
		s.Conditions.GrainMoisture = max(s.Conditions.GrainMoisture-3, 4)
		s.Conditions.StrawMoisture = max(s.Conditions.StrawMoisture-5, 4)
	})
	droop = &Change{Key: "droop", Table: "TH-T24", Name: "engine 5 % under its set speed", Source: walkers, Mark: "common practice",
		apply: func(*setup.Setup) {}, engine: 0.95}
	walkersFast = threshing("walkers-fast", "walkers 5 % over their best speed", walkers, func(*setup.Setup) {})
	worn        = threshing("worn", "rasp bars worn to 0.8", practice, func(s *setup.Setup) { s.Conditions.BarWear = 0.8 })
	wornSped    = threshing("worn-sped", "rasp bars worn to 0.8 and the cylinder sped up to make good", practice, func(s *setup.Setup) {
		s.Conditions.BarWear = 0.8
		s.Settings.CylinderSpeed *= wornSpeed
	})
	highCut = &Change{Key: "high-cut", Table: "TH-T24", Name: "cutting height +5 cm", Source: kim, Mark: "common practice",
		apply: func(s *setup.Setup) { s.Settings.CuttingHeight += 5 }, fits: cuts}
	blocked = threshing("blocked", "concave grate blocked", practice, func(s *setup.Setup) { s.Stopped |= setup.ConcavePart })
	regrind = threshing("regrind", "too much clean grain in the returns (lower sieve × 0.75)", practice, func(s *setup.Setup) { s.Settings.Lower *= 0.75 })
)

const (
	noWalkerSpeed = "the walkers turn with the engine and have no speed of their own to set; that they separate worse above their best throw is held by the law of the walkers"
)

// threshingRules are the cells of the threshing table, row by row. Where the
// table speaks of a part of the returns, or of the load of the shoe in place
// of break-up, the rule is about that: a slower cylinder and wet grain send
// more heads back, green weeds smear the sieve.
func threshingRules() []Rule {
	t := &table{}
	t.row(drumUp).falls(Unthreshed, Walker).rises(Cracked, BreakUp).falls(Heads).rises(Chaff, Power)
	t.row(drumDown).rises(Unthreshed, Walker).falls(Cracked, BreakUp).rises(Heads).falls(Power)
	t.row(drumFast).falls(Unthreshed, Walker).rises(Cracked, BreakUp, Returns, Power)
	t.row(gapTight).falls(Unthreshed, Walker).rises(Cracked, BreakUp, Chaff).falls(Heads).rises(Power)
	t.row(gapWide).rises(Unthreshed, Walker).falls(Cracked, BreakUp).rises(Heads).falls(Power)
	t.row(feedUp).rises(Unthreshed, Walker).falls(Cracked).rises(ShoeLoad, Returns, Power)
	t.row(feedDown).falls(Unthreshed, Walker).rises(Cracked, BreakUp).falls(Returns, Power)
	t.row(grainWet).rises(Unthreshed, Walker)
	for _, in := range [...]string{"wheat", "barley", "oats"} { // still below the moisture at which kernels turn soft
		t.only(in).little(Cracked)
	}
	for _, in := range [...]string{"soybeans", "corn", "canola", "rice", "sorghum"} {
		t.only(in).rises(Cracked)
	}
	t.only("").falls(BreakUp).rises(Heads, Power)
	t.row(strawTough).risesOrNone(Unthreshed).rises(Walker).little(Cracked).falls(BreakUp, Returns).rises(Power)
	t.row(weeds).rises(Unthreshed, Walker).risesOrNone(Cracked).rises(Shoe, Returns, Power)
	t.row(dry).falls(Unthreshed).rises(Walker, Cracked, BreakUp, Returns).falls(Power)
	t.row(droop).rises(Unthreshed, Walker).falls(Cracked, BreakUp).rises(Returns)
	t.row(walkersFast).not(noWalkerSpeed).little(Unthreshed).rises(Walker).little(Cracked, BreakUp, Returns).rises(Power)
	t.row(worn).rises(Unthreshed, Walker)
	t.row(wornSped).rises(Cracked, BreakUp, Returns, Power)
	t.row(highCut).little(Unthreshed).falls(Walker).rises(Cracked).falls(ShoeLoad, Returns, Power)
	t.row(blocked).rises(Unthreshed, Walker, Cracked, BreakUp, Returns, Power)
	t.row(regrind).little(Unthreshed).rises(Walker, Cracked, ShoeLoad, Returns, Power)
	return t.list
}
