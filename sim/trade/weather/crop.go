package weather

import "riddle/sim/num"

const (
	// dewRate is the water that passes between a surface and the air, mm an hour
	// for each kPa between their vapour pressures. Calibrated, so that a clear
	// calm night brings at most the 0.06 mm/h of dew that is published
	// (Garratt & Segal 1988, Boundary-Layer Meteorology 45:209–236, abstract).
	dewRate = 0.20
	// dryRate is the same while a film dries: by day there is wind. Calibrated,
	// so that the dew is gone by mid-morning (common practice).
	dryRate = 0.50
	// dewMost is the film that the crop holds before it drips, mm. From memory.
	dewMost = 0.30
	// caught is the share of the film that lies on what the header takes; the
	// rest is on stubble and soil. Calibrated.
	caught = 0.5
)

// Crop is the water in a standing crop at one moment.
type Crop struct {
	Grain float64 // in the kernels, % dry basis
	Straw float64 // that straw and chaff hold from the air, % dry basis
	Own   float64 // that the stems still hold from growing, % dry basis; it stays
	Film  float64 // dew on the plants, mm

	habit *Habit
	mass  float64 // of dry straw that is cut, kg/m²
}

// NewCrop returns the crop that stands at an hour with grain and straw of the
// given moistures (% wet basis), of which mog kg/m² is straw and chaff. Straw
// wetter than its air is taken to be green by the difference.
func NewCrop(h *Habit, day *Day, hour, grain, straw, mog float64) *Crop {
	air := day.At(hour)
	wet := DryBasis(straw)
	own := num.Positive(wet - Straw.Moisture(air.T, air.RH))
	return &Crop{Grain: DryBasis(grain), Straw: wet - own, Own: own, habit: h, mass: max(0.05, mog*(1-straw/100))}
}

// Advance moves the crop on by dt hours from an hour of the day.
//
//	dM/dt = (Me − M)/τ;  film: dF/dt = k (e − es(Ts)), 0 ≤ F ≤ 0.3 mm
//
// Me is the equilibrium moisture in the air of the hour, e its vapour pressure
// and Ts the temperature of the plant's outside. Under a film kernels and
// straw follow air at the wet end of their isotherm.
func (c *Crop) Advance(day *Day, hour, dt float64) {
	air := day.At(hour)
	flow := air.Vapour() - Saturation(day.Surface(hour))
	if flow > 0 {
		flow *= dewRate
	} else {
		flow *= dryRate
	}
	c.Film = num.Clamp(c.Film+float64(flow*dt), 0, dewMost)
	if c.Film > 0 {
		air.RH = 1
	}
	c.Grain += float64((c.habit.Grain.Moisture(air.T, air.RH) - c.Grain) * num.Chance(dt/c.habit.Kernels))
	c.Straw += float64((Straw.Moisture(air.T, air.RH) - c.Straw) * num.Chance(dt/strawLag))
}

// Moistures returns the moisture of the kernels and of straw and chaff with
// what lies on them, % wet basis.
func (c *Crop) Moistures() (grain, straw float64) {
	return WetBasis(c.Grain), WetBasis(c.Straw + c.Own + float64(100*c.Film*caught/c.mass))
}

// usualMOG is the straw and chaff of a field where none is named, kg/m²:
// 4.5 t/ha. Common practice.
const usualMOG = 0.45

// settle is how many such days the crop has stood in, before MoistureAt reads
// it. Chosen.
const settle = 5

// MoistureAt returns the moisture of grain and of straw with its dew at an
// hour of a day of which the crop has seen five alike, % wet basis; ok is
// false for a crop without an offered isotherm.
func MoistureAt(hour float64, day *Day, crop string) (grain, straw float64, ok bool) {
	h := HabitOf(crop)
	if h == nil {
		return 0, 0, false
	}
	noon := day.At(12)
	c := NewCrop(h, day, 12, WetBasis(h.Grain.Moisture(noon.T, noon.RH)), WetBasis(Straw.Moisture(noon.T, noon.RH)), usualMOG)
	for t := 12.0; t < 24*settle+clock(hour); t += stepHours {
		c.Advance(day, t, stepHours)
	}
	grain, straw = c.Moistures()
	return grain, straw, true
}

// stepHours is the step in which a day is computed, h. Chosen.
const stepHours = 1.0 / 12

// Track is the moisture of a crop from an hour on, ready to be read.
type Track struct{ grain, straw [trackLen]float64 }

// trackLen covers three days; after them the last values stay. Chosen.
const trackLen = 72*12 + 1

// NewTrack computes the moisture of the crop from the given hour on.
func NewTrack(c *Crop, day *Day, from float64) *Track {
	t := &Track{}
	for i := range trackLen {
		t.grain[i], t.straw[i] = c.Moistures()
		c.Advance(day, from+float64(float64(i)*stepHours), stepHours)
	}
	return t
}

// At returns grain and straw moisture so many hours later, % wet basis.
func (t *Track) At(hours float64) (grain, straw float64) {
	x := num.Clamp(hours/stepHours, 0, trackLen-1)
	i := min(int(x), trackLen-2)
	f := x - float64(i)
	return t.grain[i] + float64(f*(t.grain[i+1]-t.grain[i])), t.straw[i] + float64(f*(t.straw[i+1]-t.straw[i]))
}
