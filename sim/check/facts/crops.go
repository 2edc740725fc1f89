package facts

import (
	"riddle/sim/read/measure"
	"riddle/sim/setup"
	"riddle/sim/stage/feed"
	"riddle/sim/stage/section"
	"riddle/sim/stage/thresh"
	"riddle/sim/trade/crop"
	"riddle/sim/trade/grade"
	"riddle/sim/trade/quantity"
	"riddle/testdata/published"
)

// crops is what the machine takes each crop to be, and where it starts.
var crops = map[string]law{
	"KE-mass":      func(c *published.Check) float64 { return of(c).KernelMass },
	"KE-length":    func(c *published.Check) float64 { return of(c).Seed.Length },
	"KE-width":     func(c *published.Check) float64 { return of(c).Seed.Width },
	"KE-thickness": func(c *published.Check) float64 { return of(c).Seed.Thickness },
	"KE-volume": func(c *published.Check) float64 {
		s := of(c).Seed
		return of(c).KernelKg() / c.Input["density"] * 1e9 / (s.Length * s.Width * s.Thickness)
	},
	"CR-1.2-yield":    startBushels,
	"CR-1.2-average":  startBushels,
	"CR-1.2-moisture": func(c *published.Check) float64 { return of(c).Start.GrainMoisture },
	"CR-1.2-wettest":  func(c *published.Check) float64 { return within(c, of(c).Start.GrainMoisture) },
	"CR-1.2-base":     func(c *published.Check) float64 { return grade.BaseMoisture(c.Crop) },
	"CR-1.4":          func(c *published.Check) float64 { return of(c).Start.MOGRatio },
	"CR-4.2-speed":    func(c *published.Check) float64 { return thresh.BarSpeed(of(c).Start.CylinderSpeed, section.CylinderD) },
	"CR-4.2-lower":    func(c *published.Check) float64 { return of(c).Start.Lower },
	"CR-4.2-reel":     func(c *published.Check) float64 { return of(c).Start.ReelIndex },
	"CR-5.2-reel":     func(c *published.Check) float64 { return of(c).Start.ReelIndex },
	"CL-3.2-upper":    func(c *published.Check) float64 { return of(c).Start.Upper },
	"CL-3.2-lower":    func(c *published.Check) float64 { return of(c).Start.Lower },
	"CL-2-fan":        func(c *published.Check) float64 { return of(c).Start.Fan },

	"CR-F1a": func(c *published.Check) float64 { return fed(c).grain },
	"CR-F1b": func(c *published.Check) float64 { return fed(c).grain * 3.6 },
	"CR-F1c": func(c *published.Check) float64 {
		return fed(c).grain * 3600 / (quantity.Bushel(c.Crop) * measure.PoundG / 1000)
	},
	"CR-F1d": func(c *published.Check) float64 { return fed(c).mog },
	"CR-F1e": func(c *published.Check) float64 { return measure.AcresAnHour(c.Input["mph"], c.Input["ft"], 1) },
	"CR-F4": func(*published.Check) float64 {
		rises := 0.0
		for _, name := range crop.Names() {
			k := crop.Find(name)
			for h := 3.0; h < 100; h++ {
				if feed.StrawFactor(k, h+1) > feed.StrawFactor(k, h) {
					rises++
				}
			}
		}
		return rises
	},
}

func startBushels(c *published.Check) float64 {
	return measure.BushelsPerAcre(of(c).Start.Yield*1000, quantity.Bushel(c.Crop))
}

// fed is what the field of a check gives the machine, kg/s over the full width.
func fed(c *published.Check) (f struct{ grain, mog float64 }) {
	s, err := setup.Default(c.Crop)
	if err != nil {
		return f
	}
	s.Conditions.Yield = read(c.Input["bu"], "bu/ac", quantity.Yield, c.Crop)
	s.Conditions.HeaderWidth = feet(c.Input["ft"])
	s.Conditions.MOGRatio = c.Input["ratio"]
	speed := read(c.Input["mph"], "mph", quantity.Speed, "") / 3.6
	k := of(c)
	stand := feed.StandOf(k.Crop, &s, section.InnerWidth)
	slices := section.InnerWidth * 1000 / k.Slice
	f.grain = stand.Kernels * k.KernelKg() * speed * slices
	f.mog = (stand.Husk + stand.Straw + stand.Weed) * 1e-9 * speed * slices
	return f
}
