package grade

// About is a factor in words, for those who show it.
type About struct {
	Key     string
	Name    string
	Graded  bool   // it sets the grade; else it is weighed and stated only
	Weighed bool   // the machine's sample tells it; else it is taken as met
	Machine bool   // the machine's settings can change it
	Purpose string // why it is looked at
	Driven  string // what moves it
}

// Factors returns every factor of the crop's standard in its order, then what
// is weighed besides; none where no table is held. What drives each is common
// practice, as the extension services teach it.
func Factors(crop string) []About {
	t := TableOf(crop)
	if t == nil {
		return nil
	}
	list := []About{}
	for _, f := range t.Factors {
		a := about(crop, f.Key)
		a.Name, a.Graded = f.Name, true
		list = append(list, a)
	}
	for _, key := range besides[crop] {
		list = append(list, about(crop, key))
	}
	return list
}

// besides is weighed and stated without a limit in the crop's table. Computed
// by Weigh.
var besides = map[string][]string{
	"wheat": {dockage}, "barley": {skinned, dockage}, "canola": {dockage}, "oats": {thin},
	"corn": {"broken_corn_pct", foreign}, "sorghum": {"broken_kernels_pct", dockage},
}

func about(crop, key string) About {
	a := words[key]
	if own, ok := words[crop+" "+key]; ok {
		a = own
	}
	a.Key = key
	return a
}

const (
	breaking = "cylinder speed up, clearance down, dry grain, an empty machine, heavy returns: more"
	cleaning = "fan down, sieves wide open, straw chopped up by hard threshing, green weeds: more"
	fields   = "weather, disease and storage; nothing in the machine"
	seeds    = "seed, variety and field; nothing in the machine"
)

// words by key, or by crop and key where the crop differs.
var words = map[string]About{
	testWeight: {Weighed: true, Machine: true, Purpose: "full, well filled grain gives more flour, feed or malt from the same room",
		Driven: "a stronger fan takes out light kernels and chaff and raises it, at the cost of yield; moisture, drought and frost lower it"},
	heat:    {Purpose: "grain that heated in store is spoilt", Driven: fields},
	damaged: {Purpose: "sprouted, mouldy, frosted or insect-bored grain keeps and mills badly; kernels that a machine broke are none of these", Driven: fields},
	foreign: {Weighed: true, Machine: true, Purpose: "the buyer pays for grain, not for chaff, stems and weed", Driven: cleaning},
	"soybeans foreign_material_pct": {Name: "foreign material", Weighed: true, Machine: true,
		Purpose: "pods, stems and chips of beans press into the oil and hold moisture", Driven: cleaning + "; chips also by hard threshing"},
	"corn foreign_material_pct": {Name: "foreign material", Weighed: true, Machine: true,
		Purpose: "fines and pieces of cob block the air in the bin", Driven: cleaning},
	dockage: {Name: "dockage", Weighed: true, Machine: true,
		Purpose: "what a cleaner takes out: no grade factor, but taken off the weight that is paid", Driven: cleaning},
	"shrunken_and_broken_pct": {Weighed: true, Machine: true,
		Purpose: "small and broken kernels are lost in milling", Driven: breaking + "; a stronger fan takes out shrunken kernels; frost and drought shrink them"},
	"total_defects_pct": {Weighed: true, Machine: true, Purpose: "damaged, foreign, shrunken and broken together", Driven: "its parts"},
	"broken_pct":        {Weighed: true, Machine: true, Purpose: "broken barley does not sprout, so it does not malt", Driven: breaking},
	skinned: {Name: "skinned and broken kernels", Weighed: true, Machine: true,
		Purpose: "barley without its hull takes up water unevenly in the maltings", Driven: breaking},
	thin: {Name: "thin oats", Weighed: true, Machine: true, Purpose: "thin grain is mostly hull", Driven: "a stronger fan takes it out; drought and frost make it"},
	sound: {Weighed: true, Machine: true, Purpose: "what is left when damage and foreign material are taken off",
		Driven: cleaning + "; and all that spoils grain in field and store"},
	"splits_pct":         {Weighed: true, Machine: true, Purpose: "split beans go rancid and break up further", Driven: breaking},
	"broken_corn_pct":    {Name: "broken corn", Weighed: true, Machine: true, Purpose: "of the sum: what is corn", Driven: breaking},
	"broken_kernels_pct": {Name: "broken kernels", Weighed: true, Machine: true, Purpose: "of the sum: what is sorghum", Driven: breaking},
	"broken_and_foreign_pct": {Weighed: true, Machine: true, Purpose: "broken grain and fines spoil first in the bin",
		Driven: breaking + "; " + cleaning},
	"conspicuous_admixture_pct":   {Weighed: true, Machine: true, Purpose: "what can be seen to be no canola and a cleaner left in", Driven: cleaning},
	"inconspicuous_admixture_pct": {Purpose: "seeds so like canola that no cleaner parts them spoil the oil", Driven: seeds},
	"contrasting_classes_pct":     {Purpose: "wheats for other uses mixed in", Driven: seeds},
	"other_classes_pct":           {Purpose: "wheats of other classes mixed in", Driven: seeds},
	stones:                        {Purpose: "they break mills and teeth", Driven: "a header that takes soil; not in this machine"},
	wildOats:                      {Purpose: "a weed with a seed like oats", Driven: seeds},
	"distinctly_green_pct":        {Purpose: "green seed colours the oil", Driven: "harvest before it is ripe, frost; nothing in the machine"},
	"ergot_pct":                   {Purpose: "poisonous", Driven: fields},
	"sclerotinia_pct":             {Purpose: "bodies of a fungus, black and hard", Driven: fields},
}
