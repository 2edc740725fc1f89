// Package thresh is the cylinder and its concave: rasp bars open heads, pods
// and ears strike by strike, freed grain and chaff fall through the grate, and
// the cylinder slows under its load.
package thresh

import (
	"math"

	"riddle/sim/num"
	"riddle/sim/setup"
	"riddle/sim/stage/design"
	"riddle/sim/stage/flow"
	"riddle/sim/trade/crop"
)

// Exponents and rates of the threshing laws. The form of the two-stage law
// along the concave is published (Miu & Kutzbach 2008, Computers and
// Electronics in Agriculture 60:96–109; formulae from memory). That threshing
// rises with speed and falls with feed is published (Huynh, Powell & Siddall
// 1982, Trans. ASAE 25(1):65–73; from memory). The exponents are calibrated.
const (
	lambdaSpeed, lambdaGap, lambdaLoad, lambdaTough = 1.3, -0.25, -0.30, 0.005
	betaSpeed, betaGap, betaLoad, betaTough         = 0.6, -0.30, -0.55, 0.03
	lambdaWear, betaWear                            = 0.25, 0.10
	// rethresh over the starting rate gives the rate at which returned pieces
	// open: 1 − e^−1.6 is 0.80, the share that one pass frees. Calibrated.
	rethresh = 1.6
	// Damage: speed acts about three times as strongly as the gap (common
	// practice, as the trade press tells of soybeans); exponents calibrated.
	damageSpeed, damageGap, damageLoad, damageWear = 2.0, -0.65, -0.40, 0.1
	damageMost                                     = 0.5
	// MOG through the concave follows the severity of threshing. Calibrated.
	chaffPower, shortPower, severityGap = 0.4, 1.7, -0.5
	// brittle is the growth of break-up a point of straw moisture below the
	// start, pliant its fall a point above: tough straw bends, but what breaks off
	// it still clings to chaff. Calibrated.
	brittle, pliant = 0.03, 0.010
	mogMost         = 0.6
	// weedShare of the green weeds falls through the concave. Calibrated.
	weedShare = 0.35
	// pieceRate is how readily unthreshed pieces fall through the grate, 1/m.
	// Calibrated: most that leave the cylinder unthreshed leave over its end.
	pieceRate = 0.01
	// Power: P = 6 (n/860)² + e q (v/v0) (c/c0)^−0.3 e^(0.03 tough) kW, calibrated
	// to half of the rotary power of a small-grain combine (ASAE D497, from
	// memory; that the cylinder takes half is published, Dodds 1968, Canadian
	// Agric. Engng 10(2):74–76).
	idleKW, idleRPM, powerGap, powerTough = 6.0, 860.0, -0.3, 0.03
	// nominalKW is the cylinder's power at rated feed in every crop, and the belt
	// passes slipRatio times its torque. Calibrated.
	nominalKW, slipRatio, governor = 35.25, 2.6, 30.0
	inertia                        = 15.0 // of the cylinder, kg m². Calibrated.
	// stallAt is the share of its set speed below which the cylinder has stalled.
	stallAt = 0.35
	// cropSpeed is the speed of the crop in the gap as a share of bar speed:
	// 0.3 to 0.5 (Trollope 1982, J. Agric. Engng Res. 27:119–130, from memory).
	cropSpeed = 0.3
)

// Load is what the cylinder has to do at one moment.
type Load struct {
	Speed float64 // bar speed over that at the start
	Gap   float64 // clearance over that at the start
	Feed  float64 // MOG feed, returned grain counted in at a third of its straw, over rated
}

// Rates are the laws' results for one moment.
type Rates struct {
	Lambda float64 // threshing, 1/m
	Beta   float64 // separation, 1/m
	Return float64 // opening of returned pieces, 1/m
	Damage float64 // of freed or returned grain in one pass, 0 to 0.5
	Fines  float64 // how much each kernel that breaks sheds
	Chaff  float64 // share of all MOG that falls through the concave as chaff
	Short  float64 // and as short straw
}

// LoadOf returns the load at cylinder speed rpm and MOG feed q kg/s.
func LoadOf(c *design.Fit, s *setup.Settings, rpm, q float64) Load {
	return Load{
		Speed: max(rpm, leastRPM) / c.Start.CylinderSpeed,
		Gap:   max(s.Clearance, leastClearance) / c.Start.Clearance,
		Feed:  max(leastFeed, q/c.RatedMOG),
	}
}

// The least speed in rpm, clearance in mm and feed over the rated that the laws
// are asked for; below, they take these. Chosen, as limits.
const leastRPM, leastClearance, leastFeed = 20, 2, 0.05

// cushionLeast and cushionMost hold the feed, over the rated, by which the crop
// cushions its grain. Chosen, as limits.
const cushionLeast, cushionMost = 0.25, 2

// RatesOf returns threshing, separation and damage under a load.
//
//	λ = λ0 v^1.3 c^−0.25 Q^−0.30 e^(−k ΔM − 0.005 ΔMs) (1 − 0.25 w)
//	β = β0 v^0.6 c^−0.30 Q^−0.55 e^(−0.03 (ΔMs)+) (1 − 0.10 w)
//	D = D0 v² c^−0.65 Q^−0.40 h(M)/h(M0) (1 + 0.1 w)
//	A = v c^−0.5 e^(−0.03 ΔMs) in dry and e^(−0.01 ΔMs) in tough straw;  chaff φc A^0.4, short straw φs A^1.7
//
// v, c, Q as in Load, w bar wear, M grain and Ms straw moisture.
func RatesOf(c *design.Fit, set *setup.Setup, cond *crop.Condition, l Load) Rates {
	wear := set.Conditions.BarWear
	r := Rates{
		Lambda: c.Lambda * num.Pow(l.Speed, lambdaSpeed) * num.Pow(l.Gap, lambdaGap) * num.Pow(l.Feed, lambdaLoad) *
			num.Exp(-float64(c.Moisture*cond.Moist)-float64(lambdaTough*cond.Tough)) * (1 - float64(lambdaWear*wear)),
		Beta: c.Beta * num.Pow(l.Speed, betaSpeed) * num.Pow(l.Gap, betaGap) * num.Pow(l.Feed, betaLoad) *
			num.Exp(-betaTough*num.Positive(cond.Tough)) * (1 - float64(betaWear*wear)),
	}
	r.Return = rethresh / c.Plan.ConcaveLength * r.Lambda / c.Lambda
	m0 := c.Start.GrainMoisture
	damage := c.Broken / flow.Percent * num.Pow(l.Speed, damageSpeed) * num.Pow(l.Gap, damageGap) *
		num.Pow(num.Clamp(l.Feed, cushionLeast, cushionMost), damageLoad) * (1 + float64(damageWear*wear)) *
		MoistureDamage(c, m0+cond.Moist) / MoistureDamage(c, m0)
	r.Damage = min(damageMost, damage)
	r.Fines = Fines(c, cond, l)
	a := l.Speed * num.Pow(l.Gap, severityGap) * num.Exp(float64(brittle*num.Positive(-cond.Tough))-float64(pliant*num.Positive(cond.Tough)))
	r.Chaff = float64(c.ChaffOut * num.Pow(a, chaffPower))
	r.Short = float64(c.ShortOut * num.Pow(a, shortPower))
	if sum := r.Chaff + r.Short; sum > mogMost {
		r.Chaff, r.Short = r.Chaff*mogMost/sum, r.Short*mogMost/sum
	}
	return r
}

// MoistureDamage returns the factor of grain moisture m (% wet basis) on
// damage: e^(k (Md − m)) when drier than Md, e^(k (m − Mw)) when wetter than Mw.
func MoistureDamage(c *design.Fit, m float64) float64 {
	d := c.Damage
	return num.Exp(float64(d.DryRate*num.Positive(d.Dry-m)) + float64(d.WetRate*num.Positive(m-d.Wet)))
}

// Unthreshed returns the share still unthreshed at x m along the concave.
func Unthreshed(lambda, x float64) float64 { return num.Exp(-lambda * x) }

// Separated returns the share freed and separated by x m along the concave:
//
//	s = 1 − (λ e^−βx − β e^−λx)/(λ − β);  for λ = β: 1 − (1 + λx) e^−λx
func Separated(lambda, beta, x float64) float64 {
	const alike = 1e-6 // share of a rate by which two may differ and count as equal; chosen
	if d := lambda - beta; d > alike*lambda || d < -alike*lambda {
		return 1 - (float64(lambda*num.Exp(-beta*x))-float64(beta*num.Exp(-lambda*x)))/d
	}
	lx := float64(lambda * x)
	return 1 - float64((1+lx)*num.Exp(-lx))
}

// Free returns the share freed but not yet separated at x m.
func Free(lambda, beta, x float64) float64 {
	return 1 - Unthreshed(lambda, x) - Separated(lambda, beta, x)
}

// chaffMost is the share of the freed chaff that the concave lets through at
// most, chaffFastest the greatest rate that is looked at, 1/m. Chosen, as limits.
const chaffMost, chaffFastest = 0.97, 200

// ChaffRate returns the separation rate (1/m) at which chaff, set free as the
// pieces open at rate lambda, leaves the share want through a concave of a length
// in m.
func ChaffRate(lambda, want, length float64) float64 {
	want = num.Clamp(want, 0, chaffMost*(1-Unthreshed(lambda, length)))
	lo, hi := 0.0, float64(chaffFastest)
	for range 24 {
		mid := (lo + hi) / 2
		if Separated(lambda, mid, length) < want {
			lo = mid
		} else {
			hi = mid
		}
	}
	return lo
}

// Power returns the power that the cylinder takes at its set speed under MOG
// feed q, kW.
func Power(c *design.Fit, s *setup.Settings, cond *crop.Condition, q float64) float64 {
	return Idle(s.CylinderSpeed) + workPower(c, s, cond, s.CylinderSpeed, q)
}

// Idle returns the power of the empty cylinder at a speed in rpm, kW.
func Idle(rpm float64) float64 {
	return float64(idleKW * (rpm / idleRPM) * (rpm / idleRPM))
}

func workPower(c *design.Fit, s *setup.Settings, cond *crop.Condition, rpm, q float64) float64 {
	return float64(c.Energy * q * (rpm / c.Start.CylinderSpeed) *
		num.Pow(max(s.Clearance, leastClearance)/c.Start.Clearance, powerGap) * num.Exp(powerTough*cond.Tough))
}

// Drive is the cylinder's share x of its set speed, and the power it takes.
type Drive struct {
	X  float64 // speed over set speed
	KW float64 // taken by the crop and by idling, no more than the belt passes
}

// Turn advances the drive by dt seconds under a load of idle and work power
// (kW at the set speed) and a set speed of omega rad/s. Belt and governor pass
// min(2.6 Tn, Tn (1 + 30 (1 − x))); the crop asks for
// (idle x² + work/max(x, 0.35))/(x ω) since a slow cylinder works harder a
// kilogram. Calibrated to recover from 2.5 times rated feed for 3 s and to
// stall on three times for 2 s.
func (d *Drive) Turn(idle, work, omega, dt float64) {
	x := max(d.X, slowest)
	nominal := nominalKW * watts / omega
	drive := num.Clamp(nominal*(1+float64(governor*(1-x))), 0, slipRatio*nominal)
	asked := float64(idle*x*x) + work/max(x, stallAt)
	d.KW = min(asked, slipRatio*nominalKW)
	load := asked * watts / (x * omega)
	d.X = max(0, d.X+float64((drive-load)/(inertia*omega)*dt))
}

const (
	slowest = 0.05   // share of the set speed below which a torque is that at this speed; chosen, as a limit
	watts   = 1000.0 // a kW; definition
)

// Stalled reports whether the cylinder has stopped for all that it threshes.
func (d *Drive) Stalled() bool { return d.X < stallAt }

// BrokenVt is the terminal velocity of half a kernel over that of a sound one,
// mark and reason where it is defined.
const BrokenVt = brokenVt

// BarSpeed returns the speed of the bars of a cylinder of diameter d m at rpm,
// m/s: π d n/60, by definition.
func BarSpeed(rpm, d float64) float64 { return rpm * math.Pi * d / flow.Minute }

// tapered is the front gap of the concave over the rear one, about 2 : 1 from
// memory; taperedEars is that for ears of corn, geometry of this machine.
const tapered, taperedEars = 2.0, 1.3

// Gaps returns the front and rear gap of the concave, mm, for a mean clearance:
// 2 : 1 for all crops but corn, and 1.3 : 1 for corn.
func Gaps(c *design.Fit, clearance float64) (front, rear float64) {
	ratio := tapered
	if c.Header.Snaps {
		ratio = taperedEars
	}
	rear = 2 * clearance / (1 + ratio)
	return ratio * rear, rear
}

// CropSpeed returns the speed of the crop in the gap under a cylinder of diameter
// d m at a speed in rpm, m/s.
func CropSpeed(rpm, d float64) float64 {
	return cropSpeed * rpm * math.Pi * d / flow.Minute
}
