// Package readout turns what a machine counted over a window into losses,
// sample and loads. It never touches the machine.
package readout

// Schema names the form of a Report.
const Schema = "riddle.report/1"

// Report is what `run` and `forecast` give. Percentages are by mass; what
// cannot be computed is null.
type Report struct {
	Schema      string         `json:"schema"`
	Model       string         `json:"model"`
	Seed        uint64         `json:"seed"`
	Crop        string         `json:"crop"`
	Settings    map[string]any `json:"settings"`
	Conditions  map[string]any `json:"conditions"`
	WindowS     float64        `json:"window_s"`
	State       string         `json:"state"`
	PluggedAtS  *float64       `json:"plugged_at_s"`
	PluggedIn   *string        `json:"plugged_where"`
	PluggedWhy  *string        `json:"plugged_why"`
	Feed        Feed           `json:"feed"`
	Loss        Loss           `json:"loss_pct"`
	ShoeLoss    ShoeLoss       `json:"shoe_loss_pct"`
	LossSE      Loss           `json:"loss_se_pct"`      // standard errors of loss_pct
	ShoeLossSE  ShoeLoss       `json:"shoe_loss_se_pct"` // and of shoe_loss_pct
	LeftHa      *float64       `json:"left_ha"`          // on which the grain stood that left the machine
	LossKgHa    Loss           `json:"loss_kg_ha"`
	LossBuAc    Loss           `json:"loss_bu_ac"`
	LossPerM2   Loss           `json:"loss_kernels_m2"`
	LossPerFt2  Loss           `json:"loss_kernels_ft2"`
	Concave     Concave        `json:"concave"`
	Returns     Returns        `json:"returns"`
	Tank        Tank           `json:"tank"`
	TankSE      TankSE         `json:"tank_se_pct"`
	Cylinder    Cylinder       `json:"cylinder"`
	Loads       Loads          `json:"loads"`
	LoadsSE     Loads          `json:"loads_se"` // standard errors of loads
	Power       Power          `json:"power"`
	Money       Money          `json:"money"`
	Ledger      *Ledger        `json:"ledger"`
	SliceMM     float64        `json:"slice_mm"`
	TickHz      *float64       `json:"tick_hz"`
	Peak        *int           `json:"particles_peak"`
	Digest      *string        `json:"digest"`
	SimPerWallS *float64       `json:"sim_s_per_wall_s"`
}

// Feed is what came in, over the full width of the machine.
type Feed struct {
	GrainKgS *float64 `json:"grain_kg_s"`
	MOGKgS   *float64 `json:"mog_kg_s"`
	AreaHaH  *float64 `json:"area_ha_h"`
	GrainTH  *float64 `json:"grain_t_h"`
}

// Loss is grain lost by cause.
type Loss struct {
	Header     *float64 `json:"header"`
	Unthreshed *float64 `json:"unthreshed"`
	Walker     *float64 `json:"walker"`
	Shoe       *float64 `json:"shoe"`
	Processing *float64 `json:"processing"`
	Total      *float64 `json:"total"`
}

// ShoeLoss parts the shoe loss by the way it left.
type ShoeLoss struct {
	Blown  *float64 `json:"blown"`
	Ridden *float64 `json:"ridden"`
}

// Concave is what became of the grain that entered the cylinder.
type Concave struct {
	Separated  *float64 `json:"separated_pct"`
	Unthreshed *float64 `json:"unthreshed_pct"`
	MOGThrough *float64 `json:"mog_through_pct"`
}

// Returns is the size and make-up of the returns.
type Returns struct {
	OfGrain    *float64 `json:"pct_of_grain"`
	FreeGrain  *float64 `json:"free_grain_pct"`
	Unthreshed *float64 `json:"unthreshed_pct"`
	MOG        *float64 `json:"mog_pct"`
}

// Tank is the sample of what fell into the tank. Its shares are what the eye
// sees; GradeFactors are what the grader's sieves weigh.
type Tank struct {
	Kg           *float64            `json:"kg"`
	Sound        *float64            `json:"sound_pct"`
	Broken       *float64            `json:"broken_pct"`
	Fines        *float64            `json:"fines_pct"` // among the broken, parts smaller than a quarter of a kernel
	Unthreshed   *float64            `json:"unthreshed_pct"`
	Foreign      *float64            `json:"foreign_pct"`
	TestWeight   *float64            `json:"test_weight_kg_hl"`
	Grade        *string             `json:"grade"`
	GradedBy     *string             `json:"graded_by"`
	GradedKeys   []string            `json:"graded_by_factors"` // their keys in grade_factors; empty for U.S. No. 1, null without a grade
	GradedAs     *string             `json:"graded_as"`         // the class taken for granted and the section of the standard
	GradeFactors map[string]*float64 `json:"grade_factors"`
}

// TankSE is the standard errors of those shares of the tank that are counts.
type TankSE struct {
	Broken     *float64 `json:"broken"`
	Unthreshed *float64 `json:"unthreshed"`
}

// Cylinder is how hard the cylinder worked.
type Cylinder struct {
	SpeedRPM *float64 `json:"speed_rpm"`
	PowerKW  *float64 `json:"power_kw"`
	OfDrive  *float64 `json:"of_drive_pct"` // of what its belt passes at most
}

// Loads is what walkers and shoe had to part from the grain.
type Loads struct {
	Walkers *float64 `json:"walkers_mog_kg_s"` // other material that left the walkers, through them and over their end
	Shoe    *float64 `json:"shoe_mog_kg_s"`    // other material that came onto the shoe
}

// Power is what each part takes of the engine.
type Power struct {
	Cylinder  *float64 `json:"cylinder_kw"`
	Walkers   *float64 `json:"walkers_kw"` // and beater
	Shoe      *float64 `json:"shoe_kw"`    // its drive, and the elevators
	Fan       *float64 `json:"fan_kw"`
	Chopper   *float64 `json:"chopper_kw"`
	Header    *float64 `json:"header_kw"` // and feeder house
	Unloading *float64 `json:"unloading_kw"`
	Driving   *float64 `json:"driving_kw"`
	Total     *float64 `json:"total_kw"`
	Limit     float64  `json:"limit_kw"`        // that the engine has
	PerTonne  *float64 `json:"total_kwh_per_t"` // of grain fed
}

// Money is what loss and a poorer sample cost, in the currency of the price. A
// discount is a share of the value of what fell into the tank. Cost is lost
// grain, what the buyer takes off for dockage and grade, and what broken grain
// costs beside that; the settings answer for it. Moisture stands apart. The whole
// cost is cost, machine and labour, and the weather's risk to what still stands:
// it is what ground speed is set by. An hour's money is shown, and no goal: it
// would reward overload until the machine plugs.
type Money struct {
	PerBushel  *float64 `json:"price_per_bu"`
	PerTonne   *float64 `json:"price_per_t"`
	AsOf       string   `json:"price_as_of"`
	CropPerHa  *float64 `json:"crop_per_ha"` // of all that stood, were it clean, dry and of the basis grade
	CropPerH   *float64 `json:"crop_per_h"`
	LossPerHa  *float64 `json:"loss_per_ha"`
	LossPerH   *float64 `json:"loss_per_h"`
	Moisture   *float64 `json:"moisture_discount_pct"` // the water, and the drying
	MoistureHa *float64 `json:"moisture_per_ha"`
	Dockage    *float64 `json:"dockage_discount_pct"` // off the weight, foreign material that is not paid among it
	Grade      *float64 `json:"grade_discount_pct"`
	DiscountHa *float64 `json:"discount_per_ha"` // dockage and grade
	DiscountH  *float64 `json:"discount_per_h"`
	FinesHa    *float64 `json:"fines_per_ha"`   // chips and dust that are screened out
	StorageHa  *float64 `json:"storage_per_ha"` // damaged grain keeps less long
	UseHa      *float64 `json:"use_per_ha"`     // the premium of a use that it is refused for
	Refused    []string `json:"refused"`        // uses it is not fit for: seed, malt
	CostPerHa  *float64 `json:"cost_per_ha"`    // loss, discount and the three above
	CostPerH   *float64 `json:"cost_per_h"`
	MachineHa  *float64 `json:"machine_per_ha"` // and labour
	WeatherHa  *float64 `json:"weather_per_ha"` // what waiting does to what still stands
	WholeHa    *float64 `json:"whole_per_ha"`   // cost, machine and weather
	NetHa      *float64 `json:"net_per_ha"`     // the crop less cost and machine
	NetH       *float64 `json:"net_per_h"`
}

// Ledger counts every kernel since the first tick.
type Ledger struct {
	KernelsIn  int64 `json:"kernels_in"`
	Tank       int64 `json:"tank"`
	Header     int64 `json:"header"`
	Unthreshed int64 `json:"unthreshed"`
	Walker     int64 `json:"walker"`
	Shoe       int64 `json:"shoe"`
	Inside     int64 `json:"inside"`
}
