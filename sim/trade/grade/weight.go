package grade

import (
	"riddle/sim/num"
	"riddle/sim/trade/crop"
)

// weight is how much a bushel of a crop's clean, sound grain weighs, and the
// moisture at which it does.
type weight struct {
	pounds float64 // lb/bu
	base   float64 // % wet basis
	slope  float64 // kg/hL a lb/bu
	offset float64 // kg/hL
}

// weights: the pounds are those of clean, sound grain in a usual year, not the
// legal weights by which bushels are sold. Calibrated so that the averages of
// harvests come out: wheat 60.8 to 62.0 (U.S. Wheat Associates, Harvest Reports
// of 2009 and 2010, hard red spring; published), corn 58.2 (U.S. Grains Council,
// Corn Harvest Quality Report 2015/2016; published), sorghum 58.9 (the same,
// Sorghum Harvest and Export Quality Report 2015/2016; published); the others
// from memory. Bases are the market's, common practice as collected by UF/IFAS
// (AG442, 2020). The lines to kg/hL are those of the Federal Grain Inspection
// Service, from memory; the pairs printed in the reports above lie on them.
var weights = map[string]weight{
	"wheat":    {61, 13.5, 1.292, 1.419},
	"barley":   {49.5, 14.5, 1.287, 0},
	"oats":     {37.5, 13.5, 1.287, 0},
	"soybeans": {57, 13, 1.287, 0},
	"corn":     {58.5, 15.5, 1.287, 0},
	"canola":   {51.5, 8.5, 1.287, 0},
	"rice":     {45.5, 13, 1.287, 0},
	"sorghum":  {59, 14, 1.287, 0},
}

// How densely each part of a sample packs, over sound grain. Calibrated: light
// kernels and trash hold the grain apart, parts of kernels a little.
const (
	packLight, packParts = 0.85, 0.95
	packHeads, packChaff = 0.50, 0.25
	packStraw, packWeed  = 0.25, 0.50
	dryGain              = 4 // % points below base over which weight still rises; calibrated
)

// TestWeight returns the weight of a bushel of the sample, lb. Volumes add:
//
//	1/w = Σ m_i/(m w_i);  w = w0 (100 − M)/(100 − M0)
//
// The rise as grain dries is Hellevang's estimate (1995, as quoted by others:
// from memory), held below M0 − 4; M0 is the base moisture.
func TestWeight(c *crop.Crop, s Sample, moisture float64) float64 {
	w, m := weights[c.Name], s.Whole()
	if !(m > 0) {
		return 0
	}
	volume := s.Loose - s.Light - s.Parts + float64(s.Light/packLight) + float64(s.Parts/packParts) +
		float64((s.Headed+s.Husk)/packHeads) + float64(s.Chaff/packChaff) + float64(s.Straw/packStraw) + float64(s.Weed/packWeed)
	dry := max(moisture, w.base-dryGain)
	return w.pounds * (100 - dry) / (100 - w.base) * m / volume
}

// weighedFor returns the sample whose test weight the standard means: as it is
// for corn, oats, sorghum and soybeans, cleaned of dockage for the others (7
// CFR 810.102(d), from memory).
func (s *Sample) weighedFor(c *crop.Crop, clean Sample) Sample {
	if c.Name == "sorghum" {
		return *s
	}
	return clean
}

// KgPerHL turns a test weight in lb/bu into kg/hL by the line of the crop.
func KgPerHL(crop string, pounds float64) float64 {
	w := weights[crop]
	return float64(w.slope*pounds) + w.offset
}

// PoundsPerBushel is the way back.
func PoundsPerBushel(crop string, kgPerHL float64) float64 {
	w := weights[crop]
	return (kgPerHL - w.offset) / w.slope
}

// BaseMoisture returns the moisture at which the market buys the crop, % wet
// basis.
func BaseMoisture(crop string) float64 { return weights[crop].base }

// ToMoisture returns the mass that grain of one moisture has at another, as a
// factor: dry matter is kept, (100 − from)/(100 − to). Arithmetic.
func ToMoisture(from, to float64) float64 {
	return (100 - from) / (100 - num.Clamp(to, 0, 99))
}
