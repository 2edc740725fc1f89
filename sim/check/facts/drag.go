package facts

import (
	"math"

	"riddle/sim"
	"riddle/sim/num"
	"riddle/sim/stage/design"
	"riddle/sim/stage/flow"
	"riddle/sim/stage/thresh"
	"riddle/sim/trade/crop"
	"riddle/testdata/published"
)

// drag is how a particle moves in air, and how fast each kind falls.
var drag = map[string]law{
	"CL-A1a": func(c *published.Check) float64 { v, _ := fall(c, 1); return v },
	"CL-A1b": func(c *published.Check) float64 { _, y := fall(c, 1); return y },
	"CL-A1c": func(c *published.Check) float64 { // the error at half the step less that at the whole
		v, _ := fall(c, 1)
		half, _ := fall(c, 2)
		return sign(math.Abs(half-c.Input["speed"]) - math.Abs(v-c.Input["speed"]))
	},
	"CL-A3a": func(c *published.Check) float64 { return floating(c.Input["vt"]) },
	"CL-A3b": func(*published.Check) float64 {
		worst := 0.0
		for _, name := range crop.Names() {
			c := crop.Find(name)
			for _, vt := range []float64{c.Vt, c.LightVt, c.PieceVt, c.Chaff.Vt, c.Short.Vt, c.Weed.Vt} {
				worst = max(worst, floating(vt))
			}
		}
		return worst
	},
	"CL-A5": func(c *published.Check) float64 { return overSphere(of(c), c.Input["density"]) },
	"CL-A5-least": func(c *published.Check) float64 { // the grain with the least share of its sphere's speed: oats?
		least, where := math.Inf(1), ""
		for _, name := range crop.Names() {
			if r := overSphere(fit(name), c.Input[name]); r < least {
				least, where = r, name
			}
		}
		return truth(where == c.Crop)
	},
	"CL-A6": func(c *published.Check) float64 { return ordered(of(c)) },
	"CL-A7": func(c *published.Check) float64 {
		k := of(c)
		wet, dry := k.In(c.Input["wet"], k.Start.StrawMoisture, 0, 0), k.In(c.Input["dry"], k.Start.StrawMoisture, 0, 0)
		return wet.Grain / dry.Grain
	},
	"CL-A9a": func(c *published.Check) float64 {
		k := of(c)
		sd := k.Vt * k.VtCV
		return num.Phi((c.Input["to"]-k.Vt)/sd) - num.Phi((c.Input["from"]-k.Vt)/sd)
	},
	"CL-A9b": func(c *published.Check) float64 { return of(c).PieceVt },
	"CL-A9c": func(c *published.Check) float64 { return of(c).Chaff.Vt },

	"CL-1.1-kernel": func(c *published.Check) float64 { return of(c).Vt },
	"CL-1.1-light":  func(c *published.Check) float64 { return of(c).LightVt },
	"CL-1.1-piece":  func(c *published.Check) float64 { return of(c).PieceVt },
	"CL-1.1-chaff":  func(c *published.Check) float64 { return of(c).Chaff.Vt },
	"CL-1.1-straw":  func(c *published.Check) float64 { return of(c).Short.Vt },
	"CL-1.1-slope": func(c *published.Check) float64 { // m/s a point of moisture
		k := of(c)
		up := k.In(k.Start.GrainMoisture+1, k.Start.StrawMoisture, 0, 0)
		return (up.Grain - 1) * k.Vt
	},
	"CL-1.1-window": func(c *published.Check) float64 { // all straw lifts below the speed that lifts grain
		k := of(c)
		return truth(k.Short.Vt < c.Input["straw"] && k.Vt > c.Input["grain"])
	},

	"DR-terminal": func(c *published.Check) float64 { // speed after a long fall over Vt
		d := flow.Dot{Vt: float32(c.Input["vt"])}
		for range 20 * sim.TickHz {
			d.Fly(0, 0, 1.0/sim.TickHz, flow.PullOn(0))
		}
		return -float64(d.VY) / c.Input["vt"]
	},
	"DR-carried": func(c *published.Check) float64 { // a light thing takes the speed of the wind
		d := flow.Dot{Vt: float32(c.Input["vt"])}
		for range 10 * sim.TickHz {
			d.Fly(float32(c.Input["wind"]), 0, 1.0/sim.TickHz, flow.PullOn(0))
		}
		return float64(d.VX)
	},
}

// fall drops a dot from rest in still air with the machine's own step, or with
// a part of it, and returns its speed and how deep it fell, m/s and m.
func fall(c *published.Check, parts int) (speed, depth float64) {
	d := flow.Dot{Vt: float32(c.Input["vt"])}
	steps := int(math.Round(c.Input["seconds"] * sim.TickHz * float64(parts)))
	for range steps {
		d.Fly(0, 0, float32(1/(sim.TickHz*float64(parts))), flow.PullOn(0))
	}
	return -float64(d.VY), -float64(d.Y)
}

// floating returns the acceleration over g of a dot at rest in an upward stream
// of its terminal velocity.
func floating(vt float64) float64 {
	d := flow.Dot{Vt: float32(vt)}
	d.Fly(0, float32(vt), 1.0/sim.TickHz, flow.PullOn(0))
	return math.Abs(float64(d.VY)) * sim.TickHz / flow.Gravity
}

const (
	airDensity = 1.2    // kg/m³, standard, about 20 °C at sea level
	viscosity  = 1.8e-5 // Pa s of air at 20 °C, standard
)

// constantDrag is the drag coefficient of a sphere from Re 1,000 to 200,000.
// Published, University of Florida aerosol notes; a standard figure.
func constantDrag(float64) float64 { return 0.44 }

// schillerNaumann is the drag coefficient of a sphere below Re 1,000, and the
// constant above. Published: L. Schiller and A. Naumann 1935, Z. Ver. Dtsch.
// Ing. 77:318 (from memory).
func schillerNaumann(re float64) float64 {
	if re >= 1000 {
		return constantDrag(re)
	}
	return 24 / re * (1 + float64(0.15*num.Pow(re, 0.687)))
}

// sphereVt returns the terminal velocity of a sphere of diameter d m and
// density kg/m³ in air, m/s: √(4 g d (ρp − ρ)/(3 ρ CD)), the coefficient at the
// speed's own Reynolds number. Standard mechanics.
func sphereVt(d, density float64, coefficient func(re float64) float64) float64 {
	v := 1.0
	for range 60 {
		cd := coefficient(airDensity * v * d / viscosity)
		v = math.Sqrt(4 * flow.Gravity * d * (density - airDensity) / (3 * airDensity * cd))
	}
	return v
}

// overSphere returns the terminal velocity of a crop's sound kernel over that
// of the sphere of its mass and density.
func overSphere(c *design.Fit, density float64) float64 {
	d := num.Pow(6*c.KernelKg()/(math.Pi*density), 1.0/3)
	return c.Vt / sphereVt(d, density, schillerNaumann)
}

// ordered counts the steps of chaff, short straw, unthreshed piece, broken and
// sound kernel that do not fall faster than the one before.
func ordered(c *design.Fit) (wrong float64) {
	list := []float64{c.Chaff.Vt, c.Short.Vt, c.PieceVt, c.Vt * thresh.BrokenVt, c.Vt}
	for i := 1; i < len(list); i++ {
		if !(list[i] > list[i-1]) {
			wrong++
		}
	}
	return wrong
}
