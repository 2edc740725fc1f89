package rules

// exception is a cell that the model does not meet, in some crops or all.
type exception struct {
	rule  string
	crops []string // none: all
	why   string
}

// unmet returns why a rule does not hold in a crop, or nothing where that is
// not known.
func unmet(id, crop string) string {
	for _, e := range exceptions {
		if e.rule != id {
			continue
		}
		if len(e.crops) == 0 {
			return e.why
		}
		for _, c := range e.crops {
			if c == crop {
				return e.why
			}
		}
	}
	return ""
}

// exceptions are the cells that the model does not meet, each with the reason.
var exceptions = []exception{
	{rule: "TH-T24-grain-wet-power", crops: []string{"barley", "canola", "rice"},
		why: "the power law knows the moisture of straw, not that of grain; in a field both rise together, and with the straw power does rise. It would take a term in grain moisture, for which no figure is held"},
	{rule: "TH-T24-dry-walker",
		why: "short straw that packs is in the law, by the root of the share let through, but grain also falls out of dry straw more readily at the concave, which weighs more. A stronger exponent on that share would work against the falling walker loss of a faster cylinder"},
	{rule: "TH-T24-straw-tough-returns",
		why: "the cleaning table says the opposite of a damp crop (grain sticks in the chaff, returns rise), and the model follows that: less straw breaks up, but more grain is carried to the tail"},
	{rule: "TH-T24-droop-returns",
		why: "the fan slows with the engine, and less air carries less grain past the lower sieve into the returns; more heads come back, but they weigh less than that"},
	{rule: "TH-T24-blocked-unthreshed", why: wholly},
	{rule: "TH-T24-blocked-cracked", crops: []string{"wheat", "barley", "oats", "soybeans", "canola", "rice", "sorghum"}, why: wholly},
	{rule: "TH-T24-blocked-break-up", why: wholly},
	{rule: "TH-T24-blocked-returns", why: wholly},
	{rule: "TH-T24-blocked-power", why: wholly},

	{rule: "SH-clearance", crops: []string{"corn"},
		why: "corn is bruised far more than it is left on the cob: broken and unthreshed do not meet within the legal range of the clearance, and their sum falls to its end"},

	{rule: "CL-E2-upper-open-blown", crops: []string{"wheat", "barley", "oats", "corn", "rice"}, why: breathes},
	{rule: "CL-E2-upper-closed-blown", crops: []string{"wheat", "barley", "oats", "corn", "canola", "rice", "sorghum"}, why: breathes},
	{rule: "CL-E2-light-ridden", crops: []string{"wheat", "barley", "oats", "corn", "rice"},
		why: "part of the light kernels that the air carries to the tail leave under a mat, and count as ridden over"},
	{rule: "CL-E2-damp-blown", crops: []string{"soybeans"},
		why: "soybeans lose so little over the shoe that the few kernels left behind by damp husks, which leave from the bare tail, outweigh the heavier kernels"},
	{rule: "CL-E2-feed-low-blown", crops: []string{"soybeans", "canola", "sorghum"},
		why: "with little chaff most grain falls through the front of the sieve before the air can carry it far; of the little that is lost a far greater share is blown, which is what the rule is about"},
	{rule: "CL-E2-feed-low-returns",
		why: "the threshing table says that returns fall with feed, and the model follows that"},
	{rule: "CL-E2-feed-low-trash", crops: []string{"corn"}, why: cobs},
	{rule: "CL-E2-under-ridden", crops: []string{"wheat", "barley", "oats", "corn", "canola", "rice", "sorghum"}, why: mirror},
	{rule: "CL-E2-under-cracked",
		why: "a slower cylinder breaks less at each pass, as the threshing table says; the repeats of more heads in the returns do not make up for it"},
	{rule: "CL-E2-side-slope-blown",
		why: "the machine is a slice of mean width: air that leaks on the bare side is air lost to all, so that the load of the low side is seen and the bare side is not"},
	{rule: "CL-E2-light-returns",
		why: "the air carries light kernels past the lower sieve into the returns, which the table leaves out"},
	{rule: "CL-E2-damp-cracked", crops: []string{"corn"},
		why: "corn starts at the moisture above which its kernels turn soft, so that damper ones break more, as the threshing table says of wet grain"},
}

const (
	wholly = "the model's grate can only be blocked as a whole, as a fault: then nothing falls through it to the shoe and back. " +
		"Wires blocked in part, which keep grain and straw in the gap to be ground, are not modelled"
	breathes = "the loss over the shoe as a whole goes as the rule says, and so does what is ridden over; but more air comes through an open sieve at the same fan speed, " +
		"which thins the mat over the tail, and what leaves a thin and open mat counts as blown"
	cobs   = "the trash of corn is cob pieces, which are too heavy for the air to take at any load; their share follows the threshing"
	mirror = "less short straw falls on the shoe, so that less grain is carried over it: the mirror of the table's own row on over-threshing"
)
