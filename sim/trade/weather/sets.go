package weather

// Habit is how a crop's grain and straw take up and give off water in the
// field.
type Habit struct {
	Crop    string
	Grain   Isotherm
	Source  string  // of the isotherm's coefficients, with its mark
	Held    string  // against what it is held before it is offered
	Kernels float64 // time constant of kernels on the plant, h
}

// Lags. Straw, chaff and pods follow the air in 2 to 4 h, kernels of small
// grain and pods in 8 to 16 h; a modelling choice from memory, held to the
// published three to four points that sunflower loses in a dry windy day (NDSU
// Sunflower Production EB-25, 2007). Corn in its husk loses 0.4 to 0.8 points a day at
// 20 % (extension advice, common practice), which sets its constant; rice on a
// green plant lies between, from memory.
const (
	strawLag = 3.0 // h
	smallLag = 12.0
	greenLag = 48.0
	huskLag  = 240.0
)

// Habits are the crops, each with an isotherm that reproduces what is printed of
// it; work, year and mark of each, published or from memory, stand in its Source
// and Held. A set of coefficients that does not is not offered (Withheld).
var Habits = []Habit{
	{Crop: "wheat", Grain: Isotherm{Henderson, 1.2299e-5, 2.5558, 64.346, 0.90}, Kernels: smallLag,
		Source: "ASAE D245.5 (1995), soft wheat, from memory",
		Held:   "soft red winter wheat, 90 °F and 50 %: 10.8 % (University of Kentucky extension); 13.0 % at 65 % and 75 to 80 °F (extension answer, common practice); Cromarty et al. 1982, within a point"},
	{Crop: "soybeans", Grain: Isotherm{Halsey, 2.87, -0.0054, 1.38, 0.80}, Kernels: smallLag,
		Source: "modified Halsey coefficients of soybeans, from memory",
		Held:   "eight cells of an encyclopedia's table, 1.7 to 37.8 °C at 25 and 40 %; 70 °F and 50 %: 8.8 % (S. McNeill, University of Kentucky, 2012)"},
	{Crop: "corn", Grain: Isotherm{Henderson, 8.6541e-5, 1.8634, 49.810, 0.90}, Kernels: huskLag,
		Source: "ASAE D245.5 (1995), yellow dent corn, published also in open code",
		Held:   "a dryer manual's table by the Henderson–Thompson equation, 35 to 100 °F at 10 to 90 %; 70 °F and 50 %: 11.3 % (S. McNeill, University of Kentucky, 2012)"},
	{Crop: "canola", Grain: Isotherm{Halsey, 3.489, -0.010553, 1.860, 0.80}, Kernels: smallLag,
		Source: "modified Halsey coefficients of canola, from memory",
		Held:   "22 °C and 60 %: just below 8 % (Canola Council of Canada, 2020); Cromarty et al. 1982, within half a point"},
	{Crop: "rice", Grain: Isotherm{Henderson, 1.9187e-5, 2.4451, 51.161, 0.90}, Kernels: greenLag,
		Source: "ASAE D245.5 (1995), rough rice, published also in open code",
		Held:   "Cromarty et al. 1982, within a point"},
	{Crop: "barley", Grain: Isotherm{Form: SeedOil, A: 0.02, Most: 0.75}, Kernels: smallLag,
		Source: seeds + ", 2 % oil", Held: hygroscopic},
	{Crop: "oats", Grain: Isotherm{Form: SeedOil, A: 0.06, Most: 0.75}, Kernels: smallLag,
		Source: seeds + ", 6 % oil", Held: hygroscopic},
	{Crop: "sorghum", Grain: Isotherm{Form: SeedOil, A: 0.03, Most: 0.75}, Kernels: greenLag,
		Source: seeds + ", 3 % oil", Held: hygroscopic},
}

// What the three crops share whose own coefficients failed.
const (
	seeds       = "Cromarty, Ellis & Roberts 1982, equation for seeds by oil content (published), oil common practice"
	hygroscopic = "Coleman & Fellows 1925, Cereal Chemistry 2:275–287, at 25 °C and 15 to 75 % (from memory), within 0.85 points"
)

// Refused is a set of coefficients that is known and not offered.
type Refused struct {
	Crop  string
	Grain Isotherm
	Why   string
}

// Withheld are the sets that failed their check, with the reason; coefficients
// from memory.
var Withheld = []Refused{
	{"barley", Isotherm{Henderson, 2.2919e-5, 2.0123, 195.267, 0.90},
		"up to 1.6 points under Cromarty et al. 1982 at 15 °C"},
	{"oats", Isotherm{ChungPfost, 433.157, 0.21581, 41.439, 0.90},
		"up to 2.0 points under Cromarty et al. 1982, and 1.2 under Coleman & Fellows 1925 at 60 %"},
	{"sorghum", Isotherm{Henderson, 0.8532e-5, 2.4757, 113.725, 0.90},
		"up to 1.4 points over Cromarty et al. 1982, and 1.2 to 2.5 off one published table"},
}

// Straw is the isotherm of straw and chaff of every crop: the form of modified
// Oswin, calibrated here to pass through the ends that are published for corn
// stover, 8.0 % dry basis at 12 % humidity and 19.6 % at 89 % (Karunanithy,
// Muthukumarappan & Donepudi 2013, Journal of Renewable Energy, article
// 939504, abstract). Warm straw holds less; that slope is from memory.
var Straw = Isotherm{Form: Oswin, A: 14.24, B: -0.06, C: 5.13, Most: 0.90}

// HabitOf returns the crop's habit, or nil where no set of coefficients is
// offered.
func HabitOf(crop string) *Habit {
	for i := range Habits {
		if Habits[i].Crop == crop {
			return &Habits[i]
		}
	}
	return nil
}
