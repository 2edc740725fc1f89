package feed

import "riddle/sim/trade/crop"

const (
	// feederIdle is the power of the empty feeder house, kW. Calibrated as that
	// of walkers and shoe, to ASAE D497, from memory.
	feederIdle = 2.5
	// knifeWidth is the power of knife, reel and auger a metre of cutter bar, kW,
	// and rollWidth that of snapping rolls and chains a metre of an ear-snapping
	// header. Calibrated, so that a combine turns empty with 20 kW in small grain
	// and with about 35 kW less what its ears need in corn (ASAE D497, from memory).
	knifeWidth, rollWidth = 0.5, 1.7
	// feedWork is what header and feeder put into a kilogram of crop, kJ.
	// Calibrated as before.
	feedWork = 1.0
)

// HeaderKW returns the power of header and feeder house over a width in m at
// an engine speed over its set speed, under kg/s of crop, kW:
// (2.5 + 0.5 B) x² + q, and 1.7 for 0.5 where ears are snapped.
func HeaderKW(c *crop.Crop, width, engine, crop float64) float64 {
	each := knifeWidth
	if c.Header.Snaps {
		each = rollWidth
	}
	return float64((feederIdle+float64(each*width))*engine*engine) + float64(feedWork*crop)
}
