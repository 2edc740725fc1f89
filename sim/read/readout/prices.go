package readout

import (
	"math"
	"strconv"
	"strings"

	"riddle/sim/num"
	"riddle/sim/trade/crop"
	"riddle/sim/trade/grade"
	"riddle/sim/trade/quantity"
)

// Prices are what a buyer pays and takes off, and what time costs. All of it can
// be set; the defaults only give the order.
type Prices struct {
	PerBushel float64 // of clean, dry grain of the basis grade, in any currency
	AsOf      string  // of when and where the price is, in words

	Schedule  []Off   // what the buyer's list takes off, factor by factor; where there is none, by the grade
	Basis     int     // the numbered grade that has the full price
	GradeStep float64 // without a list: taken off for each grade below the basis, % of the price
	Sample    float64 // taken off for U.S. Sample grade, %
	Point     float64 // taken off for each point of moisture above base, %, beside the water itself
	Tolerance float64 // foreign material up to which nothing is taken off the weight, %; dockage always is

	Screenings float64 // what screened-out fines bring, share of the price
	Stored     float64 // share of the harvest that is kept as long as grain of its damage would keep at Steele's reference
	Premium    float64 // of malting over feed barley, % of the price

	MachineH float64 // machine and labour, an hour
	Hectares float64 // that still stand when the reading is taken
	Hours    float64 // of harvest in a day that is fit
	Fit      float64 // share of days that are fit
	Delay    float64 // worth that a standing crop loses a day, %
}

// Off is a line of a buyer's list: from one value of a factor to the next line's,
// so many hundredths of the money are taken off a bushel for each step begun.
type Off struct {
	Factor         string
	From, To, Each float64
	Cents          float64 // at the price that this program takes for the crop
	Below          bool    // the factor is to be high: From is above To
}

// prices are of the order that U.S. farms got a bushel in the seasons 2021/22
// to 2023/24, in dollars. Common practice, from market reports; no one source.
var prices = map[string]float64{
	"wheat": 6.5, "barley": 5.5, "oats": 4, "soybeans": 12, "corn": 5.2, "canola": 12.5, "rice": 7, "sorghum": 5,
}

// basis is the grade that contracts name, where it is not No. 1. Common
// practice.
var basis = map[string]int{"corn": 2, "oats": 2, "barley": 2, "sorghum": 2}

// schedules are lists of discounts that elevators of the U.S. Midwest posted,
// published: corn Illinois, crop of 2011, test weight of the list of 2020/21;
// soybeans Illinois, crop of 2010; wheat Indiana, 2013; sorghum Kansas, 2008.
// They are of one buyer each, and cut off where they refuse a load. Of the other
// crops none was found.
var schedules = map[string][]Off{
	"corn": {
		{"broken_and_foreign_pct", 3, 4, 1, 2, false}, {"broken_and_foreign_pct", 4, 7, 1, 3, false}, {"broken_and_foreign_pct", 7, 100, 1, 4, false},
		{"test_weight_lb_bu", 54, 0, 1, 1, true},
	},
	"soybeans": {
		{"splits_pct", 15, 20, 5, 2, false}, {"splits_pct", 20, 25, 5, 3, false}, {"splits_pct", 25, 100, 5, 5, false},
		{"foreign_material_pct", 1, 5, 1, 1, false}, {"foreign_material_pct", 5, 100, 1, 3, false},
		{"test_weight_lb_bu", 54, 52, 1, 1, true}, {"test_weight_lb_bu", 52, 0, 1, 2, true},
	},
	"wheat":   {{"test_weight_lb_bu", 58, 56, 0.5, 2, true}, {"test_weight_lb_bu", 56, 0, 0.5, 4, true}},
	"sorghum": {{"broken_and_foreign_pct", 7, 100, 1, 5, false}, {"test_weight_lb_bu", 55, 52, 1, 2, true}, {"test_weight_lb_bu", 52, 0, 1, 3, true}},
}

// What is taken off, % of the price. Common practice; no one source, each buyer
// has a list of its own.
const (
	gradeStep   = 2   // a grade
	sampleStep  = 15  // U.S. Sample grade
	dryingPoint = 1   // a point of moisture, for fuel and handling
	paidForeign = 1   // % foreign material that is paid for as grain, in soybeans and in rice, whose grades are not held
	anyForeign  = 100 // in other crops grade and dockage take care of it
	screenings  = 0.6 // what screenings bring as feed, share of the price
	maltPremium = 25  // of malting over feed barley
)

// delays are what a day of standing ripe takes off a crop's worth, %. Corn and
// soybeans are the timeliness factors of ASABE's machinery management data, 0.3
// and 0.6 to 1.0 (R. Schuler, University of Wisconsin, 2005; published); wheat
// loses 6.4 % of its test weight in 12 days (W. Thomason, Virginia Tech, harvests
// of 2001 and 2002; published); sorghum as corn, by analogy; the others
// from memory.
var delays = map[string]float64{
	"wheat": 0.5, "barley": 0.6, "oats": 0.6, "soybeans": 0.8, "corn": 0.3, "canola": 1, "rice": 0.8, "sorghum": 0.3,
}

const (
	// machineHour is machine, fuel and driver, dollars an hour: custom combining
	// was $39.90 (soybeans) to $41.30 an acre (corn) in Iowa in 2023 (Iowa State
	// University Extension, custom rate survey; published), and this machine does
	// some five acres an hour, turning and unloading counted in; computed.
	machineHour = 200
	// What waits for the machine. Common practice: a hundred hectares for one of
	// this width, eight hours of a day dry enough, two days of three fit.
	standing, dayHours, fitDays = 100, 8, 0.66
)

// DefaultPrices returns the prices that are taken where none are given.
func DefaultPrices(name string) Prices {
	p := Prices{
		PerBushel: prices[name], AsOf: "typical U.S. farm prices, dollars per bushel, 2021 to 2024",
		Schedule: schedules[name], Basis: max(1, basis[name]), GradeStep: gradeStep, Sample: sampleStep, Point: dryingPoint, Tolerance: anyForeign,
		Screenings: screenings, Stored: 1,
		MachineH: machineHour, Hectares: standing, Hours: dayHours, Fit: fitDays, Delay: delays[name],
	}
	if name == "soybeans" || name == "rice" {
		p.Tolerance = paidForeign
	}
	if name == "barley" {
		p.Premium = maltPremium
	}
	return p
}

// MaxPrice is the highest price that is taken, a bushel. Chosen: beyond any
// grain in any currency in use, and short of what a table can hold.
const MaxPrice = 1e6

// PricesAt returns the prices of a crop at a price of one's own for a bushel; at
// 0 they are those that are taken where none is given.
func PricesAt(crop string, perBushel float64) Prices {
	p := DefaultPrices(crop)
	if perBushel != 0 && perBushel != p.PerBushel {
		p.PerBushel, p.AsOf = perBushel, "as given"
	}
	return p
}

// PriceWant says in words what ReadPrice takes.
const PriceWant = "a number above 0, up to 1000000, per bushel, or per tonne with /t"

// ReadPrice reads a price for a bushel, or for a tonne where it ends with /t, and
// returns that of a bushel. The currency is the user's own.
func ReadPrice(crop, text string) (perBushel float64, ok bool) {
	number, tonne := strings.CutSuffix(strings.TrimSpace(text), "/t")
	if !tonne {
		number = strings.TrimSuffix(number, "/bu")
	}
	v, err := strconv.ParseFloat(strings.TrimSpace(number), 64)
	if tonne {
		p := DefaultPrices(crop)
		v *= p.PerBushel / p.PerTonne(crop)
	}
	return v, err == nil && v > 0 && v <= MaxPrice
}

// PerTonne returns the price of a tonne of a crop.
func (p *Prices) PerTonne(crop string) float64 {
	const poundKg = 0.45359237 // definition: international agreement 1959
	return p.PerBushel / (quantity.Bushel(crop) * poundKg) * 1000
}

// moisture returns what moisture takes off the value, %: the water above base,
// and the drying. Grain drier than base is paid by its weight.
func (p *Prices) moisture(crop string, percent float64) float64 {
	base := grade.BaseMoisture(crop)
	wet := num.Positive(percent - base)
	if wet == 0 {
		return 0
	}
	left := grade.ToMoisture(percent, base) * max(0, 1-p.Point*wet/100)
	return 100 * (1 - left)
}

// weight returns what is taken off the weight for dockage and for foreign
// material beyond the tolerance, %.
func (p *Prices) weight(t *Tank) float64 {
	if d := t.GradeFactors["dockage_pct"]; d != nil {
		return *d
	}
	if t.Foreign == nil {
		return 0
	}
	return num.Positive(*t.Foreign - p.Tolerance)
}

// grade returns what the list, or else the grade, takes off, %, or nil where
// there is neither.
func (p *Prices) grade(crop string, t *Tank) *float64 {
	if t.Grade == nil {
		return nil
	}
	off, numbered := 0.0, 0
	for no := 1; no <= grade.MostGrades; no++ {
		if *t.Grade == grade.NameOf(no) {
			numbered = no
		}
	}
	for _, o := range p.Schedule {
		if v := t.GradeFactors[o.Factor]; v != nil {
			off += o.cents(*v) / prices[crop]
		}
	}
	switch {
	case numbered == 0:
		off = max(off, p.Sample)
	case p.Schedule == nil:
		off = p.GradeStep * float64(max(0, numbered-p.Basis))
	}
	return &off
}

// cents returns what a line takes off at a value of its factor.
func (o *Off) cents(v float64) float64 {
	past := min(v, o.To) - o.From
	if o.Below {
		past = o.From - max(v, o.To)
	}
	const hair = 1e-9 // so that a step that binary numbers cannot hold is not begun; chosen
	return o.Cents * math.Ceil(num.Positive(past)/o.Each-hair)
}

// Free returns up to what value the list takes nothing off for a factor.
func (p *Prices) Free(factor string) (upTo float64, listed bool) {
	for _, o := range p.Schedule {
		if o.Factor == factor {
			return o.From, true
		}
	}
	return 0, false
}

const (
	// hidden is how many kernels are damaged in all, cracks that only a dye shows
	// among them, for one that is visibly damaged. Calibrated: corn as this machine
	// leaves it at the start is corn as combines shell it, 25 to 35 % of its kernels
	// damaged (Ng, Wilcke, Morey, Meronuck & Lang 1998, Trans. ASAE 41(4):1095–1100;
	// published); taken for every crop by analogy.
	hidden = 9.5
	// Safe storage of shelled corn falls with damage D (%) by 2.08 e^(−0.0239 D),
	// 1 at 30 % (Steele, Saul & Hukill 1969, Trans. ASAE 12(5):685–689; figures from
	// memory), up to 40 % and then no more (Ng et al. 1998; published). It is over
	// when half a percent of the dry matter is gone (the same). Other crops by
	// analogy with corn: for them no such figures were found.
	keepsBest, keepsFall, keepsEnd, keepsGone = 2.08, 0.0239, 40, 0.5
)

// Damaged returns the share of kernels damaged in all, %, where so many are
// visibly broken.
func Damaged(broken float64) float64 { return min(100, hidden*broken) }

// Keeps returns the safe storage time of grain of which so much is damaged in
// all, %, over that of grain of which 30 % is.
func Keeps(damaged float64) float64 {
	return keepsBest * num.Exp(-keepsFall*min(damaged, keepsEnd))
}

// wasted returns what shorter keeping costs, % of the worth: the dry matter that
// is gone by the time that grain of 30 % damage keeps, beyond what would be gone
// of sound grain.
func wasted(broken float64) float64 {
	return keepsGone * (1/Keeps(Damaged(broken)) - 1/Keeps(0))
}

// Germination of grain as seed, %: sprouts is that of seed cut without harm, and
// a damaged kernel in three does not sprout; both from memory.
const sprouts, killed = 97, 0.33

// least is what certified seed has to reach, %: the agencies' common standards,
// from memory.
var least = map[string]float64{"wheat": 85, "barley": 85, "oats": 85, "soybeans": 80, "canola": 85, "rice": 80, "sorghum": 80}

// skinnedMost is what malting contracts allow of skinned kernels, %: typically 5
// (Scotland's Farm Advisory Service 2020; published).
const skinnedMost = 5

// Seed and Malt are uses that damage can bar.
const Seed, Malt = "seed", "malt"

// refused lists the uses that the sample is no longer fit for. Corn is not asked
// about seed: what is sown is hybrid.
func refused(c *crop.Crop, t *Tank) []string {
	list := []string{}
	if need, asked := least[c.Name]; asked && t.Broken != nil && sprouts-float64(killed*Damaged(*t.Broken)) < need {
		list = append(list, Seed)
	}
	if v := t.GradeFactors["skinned_and_broken_pct"]; v != nil && *v > skinnedMost {
		list = append(list, Malt)
	}
	return list
}
