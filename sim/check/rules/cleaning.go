package rules

import "riddle/sim/setup"

const (
	craess = "Craessaerts et al. 2010, Biosystems Engineering 106:97, and common practice"
	rice   = "Processes 2022, 10:281 (air and sieve of a rice combine), and common practice"
	winn   = "University of Wisconsin Extension, harvest advice, and common practice"
	kansas = "survey of combine losses in Kansas wheat, 1994–95, and common practice"
	slope  = "a trial at 8° with an ordinary shoe, and common practice"
)

func fan(times float64) func(*setup.Setup) {
	return func(s *setup.Setup) { s.Settings.Fan *= times }
}

func upper(times float64) func(*setup.Setup) {
	return func(s *setup.Setup) { s.Settings.Upper *= times }
}

func lower(times float64) func(*setup.Setup) {
	return func(s *setup.Setup) { s.Settings.Lower *= times }
}

func cleaning(key, name, source string, apply func(*setup.Setup)) *Change {
	return &Change{Key: key, Table: "CL-E2", Name: name, Source: source, Mark: "common practice", apply: apply}
}

// Rows of the cleaning table.
var (
	fanUp       = cleaning("fan-up", "fan +20 %", rice, fan(1.2))
	fanDown     = cleaning("fan-down", "fan −20 %", craess, fan(0.8))
	upperOpen   = cleaning("upper-open", "upper sieve opened × 1.2", winn, upper(1.2))
	upperClosed = cleaning("upper-closed", "upper sieve closed × 0.75", winn, upper(0.75))
	lowerOpen   = cleaning("lower-open", "lower sieve opened × 1.25", winn, lower(1.25))
	lowerClosed = cleaning("lower-closed", "lower sieve closed × 0.75", winn, lower(0.75))
	faster      = cleaning("feed-up", "feed +35 %", nyborg, speed(1.35))
	veryLow     = cleaning("feed-low", "feed a quarter, same fan", craess, speed(0.25))
	over        = cleaning("over", "over-threshing (cylinder +20 %)", practice, cylinder(1.2))
	under       = cleaning("under", "under-threshing (cylinder −15 %)", winn, cylinder(0.85))
	sideways    = cleaning("side-slope", "side slope of 8°", slope, func(s *setup.Setup) { s.Conditions.SideSlope = 8 })
	uphill      = cleaning("uphill", "uphill, 8°", practice, func(s *setup.Setup) { s.Conditions.ForeSlope = 8 })
	downhill    = cleaning("downhill", "downhill, 8°", practice, func(s *setup.Setup) { s.Conditions.ForeSlope = -8 })
	light       = cleaning("light", "light grain +4 points", kansas, func(s *setup.Setup) { s.Conditions.LightGrain += 4 })
	damp        = cleaning("damp", "damp crop: grain +2, straw +8 points", rice, func(s *setup.Setup) {
		s.Conditions.GrainMoisture += 2
		s.Conditions.StrawMoisture += 8
	})
)

// cleaningRules are the cells of the cleaning table, row by row.
func cleaningRules() []Rule {
	t := &table{}
	t.row(fanUp).rises(Blown).falls(Ridden, Trash).rises(Returns).risesOrNone(Cracked)
	t.row(fanDown).falls(Blown).rises(Ridden, Trash).risesOrNone(Tailings).little(Cracked)
	t.row(upperOpen).falls(Blown, Ridden).rises(Trash, Chaff).little(Cracked)
	t.row(upperClosed).rises(Blown, Ridden).falls(Trash, Chaff).little(Cracked)
	t.row(lowerOpen).little(Blown, Ridden).rises(Trash).falls(Returns, Cracked)
	t.row(lowerClosed).little(Blown).rises(Ridden).falls(Trash).rises(Returns, Cracked)
	t.row(faster).falls(Blown).rises(Ridden, Trash, Returns).falls(Cracked)
	t.row(veryLow).rises(Blown).falls(Ridden, Trash).little(Returns).rises(Cracked)
	t.row(over).little(Blown).rises(Ridden, Trash, Chaff, Cracked)
	t.row(under).little(Blown, Ridden).rises(TankHeads, Heads, Cracked)
	t.row(sideways).rises(Blown, Ridden, Trash, Returns).little(Cracked)
	t.row(uphill).rises(Shoe)
	t.row(downhill).rises(Trash)
	t.row(light).rises(Blown).little(Ridden, Trash, Returns, Cracked)
	t.row(damp).falls(Blown).rises(Ridden, Trash, Returns).falls(Cracked)
	return t.list
}
