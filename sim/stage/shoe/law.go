// Package shoe cleans the grain: conveyors bring it to the shoe, air and
// shaking sieves part it from chaff and straw.
package shoe

import (
	"math"

	"riddle/sim/num"
	"riddle/sim/stage/design"
	"riddle/sim/stage/flow"
	"riddle/sim/stage/section"
)

// Constants of the shoe, calibrated by hand so that each crop, at its starting
// settings, loses and keeps what practice does, unless marked otherwise. Where
// the form of a law comes from stands with the law.
const (
	airDensity = 1.2 // kg/m³, at about 20 °C; standard
	// fanPressure is the fan's pressure a squared rpm, Pa. Calibrated so that
	// the best fan speed for soybeans lies near 1,000 rpm (common practice).
	fanPressure = 6.85e-5
	// fanDroop lowers the pressure as the fan gives more air.
	fanDroop = 2
	// blastSin and blastCos are of section.BlastAngle, written out so that every
	// platform has the same bits.
	blastSin, blastCos = 0.5, 0.8660254037844386
	// airHeight is the height over a sieve in which the blast falls to 1/e, m.
	airHeight = 0.6
	// channels is the load from which air breaks through a mat in holes instead of
	// spreading under all of it, kg/m². That it does is from memory; calibrated, so
	// that no crop's shoe chokes at half more than its rated feed.
	channels = 0.9
	// mouthLoss is the pressure loss of the air on its way from the fan to under
	// the upper sieve, over ρVn²/2. Calibrated.
	mouthLoss = 1.5
	// underLower is the share of the air that is blown in under the lower sieve:
	// by the heights of the two mouths, geometry.
	underLower = section.LowerMouthHigh / (section.UpperMouthHigh + section.LowerMouthHigh)
	// betweenAir and lowerAir are the blast between the sieves and on the lower
	// sieve over that through the upper.
	betweenAir, lowerAir = 0.7, 0.5

	// carrySpeed is the speed at which a sieve carries a resting mat on level
	// ground, m/s: 0.2 to 0.5 (from memory).
	carrySpeed = 0.32
	// swing is the greatest speed of sieves and pans along themselves, m/s: 2π f a
	// cos 30°. Computed.
	swing = 2 * math.Pi * section.ShakeHz * section.ShakeAmplitude * blastCos
	// augerFall is how much faster an auger carries where it falls by the tangent
	// 1: 2 % a degree (from memory).
	augerFall = 1.15
	sideLoad  = 60.0  // loaded width falls by 1/60 a degree of side slope
	sideLeak  = 160.0 // air leaks as if the fan ran 1/160 slower a degree

	// liftRate is the rate at which MOG that the air can lift leaves the mat, 1/m.
	liftRate = 0.75
	// liftSpeed is the upward speed with which it leaves, m/s. Calibrated.
	liftSpeed = 0.3
	// stepShare is the share of MOG that falls over the step loose in the blast.
	stepShare = 0.5
	// broadside is the terminal velocity of MOG in flight over that in the mat:
	// once free of the mat it turns broadside to the air. Calibrated, so that
	// what the blast lifts at 30° it also carries.
	broadside = 0.55
	// bedVoid is the share of Vt at which a mat opens: voidage 0.85 to the power
	// 2.4 (Richardson & Zaki's exponent in the Newton range, from memory).
	bedVoid = 0.68
	// thinMat is the least thickness in which grain is held, m.
	thinMat = 0.002

	// settled is the share of grain, and settledPiece of pieces, that lies at
	// the bottom of the layer as it reaches the sieve.
	settled, settledPiece = 0.65, 0.3

	// Passage in one contact: how far the louvre is open to the kernel, of which
	// more than passGap mm over its size help little; the jet in the gap holding
	// kernels up; and the mat in the way.
	passBest, passOpen, passGap  = 0.85, 0.573, 6.0
	passBestLower                = 1.0
	passMost                     = 0.9
	jetShare                     = 0.6
	matInWay                     = 1.3 // kg/m²
	mogOpening, mogOpeningLower  = 6.0, 2.0
	liftedMisses                 = 0.8
	preGrain, preMOGPower        = 3.0, 1.5
	throwFactor                  = 1.2 // of the sieve's own vertical speed
	throwSpread                  = 0.3
	labelLoad                    = 0.42 // kg/m²: under a rear mat this heavy half of what an open mat lets go is blown
	lowerOwnShare, lowerMOGShare = 0.5, 0.7
)

// preMOG is the share of each MOG class that an open pre-sieve takes.
// Calibrated.
var preMOG = [3]float64{0.10, 0.04, 0.06}

// sections of the air path: front, middle, rear, and their weights.
// Calibrated; that the blast is strong in front and weak at the rear is published
// (Liang et al. 2020, Span. J. Agric. Res. 18(4)).
var sectionWeight = [3]float64{1.2, 1.0, 0.8}

const (
	leastOpen, mostOpen = 0.05, 0.9 // opening over pitch that the law is asked for. Chosen, as limits.
	// contracted is the width of the jets in the gaps over that of the gaps, and
	// faceLoss what a sieve that stood wide open would still cost, over ρV²/2.
	// Calibrated.
	contracted, faceLoss = 0.7, 0.5
)

// Resistance returns the pressure loss of a louvred sieve over ρV²/2, for its
// opening over its pitch (orifice form, from memory; constants calibrated).
func Resistance(open float64) float64 {
	p := num.Clamp(open, leastOpen, mostOpen)
	k := 1/float64(contracted*p) - 1
	return float64(k*k) + faceLoss
}

// FeedResistance returns the pressure loss over ρVn²/2 of the air on its way to
// the upper sieve: what is blown in between the sieves comes freely, what is
// blown in under the lower sieve has to pass it. Two paths side by side:
//
//	K = k/(1 − s + s/√(1 + Kl/k))²
func FeedResistance(lower float64) float64 {
	through := underLower / math.Sqrt(1+Resistance(lower/section.LowerPitch)/mouthLoss)
	share := 1 - underLower + through
	return mouthLoss / float64(share*share)
}

// MatResistance returns the pressure loss over ρV²/2 of a mat of W kg/m² that
// opens at speed vmf: at lift-off the loss equals the weight of the mat (force
// balance, published), so K = 2 g W/(ρ vmf²).
func MatResistance(load, vmf float64) float64 {
	return 2 * flow.Gravity * load / (airDensity * vmf * vmf)
}

// Spread returns how much of a mat of W kg/m² the air has to spread under: all
// of a thin one, and hardly more than channels of a thick one.
//
//	W/(1 + (W/0.9)⁴)^¼
func Spread(load float64) float64 {
	w := load / channels
	return load / math.Sqrt(math.Sqrt(1+float64(w*w*w*w)))
}

// Laden returns the speed of a blast of v m/s, vn of it through the sieve, that
// has to carry lifted kg/(s m²) of MOG: air and what it lifts share the momentum
// of the air alone, mechanics, so that
//
//	V' = V/(1 + M/(ρ Vn))
//
// That chaff checks the blast, and that heavy feeding therefore wants more wind
// than light feeding, is published (Stephenson 1903, Farm Engines and How to Run
// Them).
func Laden(v, vn, lifted float64) float64 {
	return v / (1 + lifted/(airDensity*max(vn, leastAir)))
}

// leastAir is the least air through the sieve that the law is asked for, m/s.
// Chosen, as a limit.
const leastAir = 0.1

// Blast is the air through the shoe.
type Blast struct {
	V        [3]float64 // along the blast at front, middle, rear, m/s
	Over     [3]float64 // of it over the upper sieve, laden with what it carries, m/s
	Vn       [3]float64 // of it through the sieve, m/s
	Pressure float64    // Pa
	Flow     float64    // m³/s a metre of width
}

// BlastOf returns the air that the fan drives through three parallel paths of
// sieve and mat:
//
//	C = Σ (L/3) w √(2/(ρ k));  p = a n²/(1 + b C²);  Vn = w √(2p/(ρ k))
//
// L is the length of the upper sieve, m.
//
// lifted is the MOG that it takes off the mat, kg/(s m²).
func BlastOf(length, rpm, upper, lower float64, mat, lifted [3]float64) Blast {
	sieves := Resistance(upper/section.UpperPitch) + FeedResistance(lower)
	var conduct [3]float64
	c := 0.0
	for i, w := range sectionWeight {
		conduct[i] = w * math.Sqrt(2/(airDensity*(sieves+mat[i])))
		c += float64(length / paths * conduct[i])
	}
	b := Blast{Pressure: fanPressure * rpm * rpm / (1 + float64(fanDroop*c*c))}
	root := math.Sqrt(b.Pressure)
	for i := range conduct {
		b.Vn[i] = float64(conduct[i] * root)
		b.V[i] = float64(b.Vn[i] / blastSin)
		b.Over[i] = Laden(b.V[i], b.Vn[i], lifted[i])
		b.Flow += float64(length / paths * b.Vn[i])
	}
	return b
}

// At returns the blast, its part through the sieve, and the laden blast over it
// at a distance s from the front of an upper sieve of a length, m/s: straight lines
// between the sections' middles.
func (b *Blast) At(s, length float64) (v, vn, over float64) {
	third := length / paths
	p := num.Clamp(s/third-0.5, 0, 2)
	i := min(int(p), 1)
	f := p - float64(i)
	between := func(v *[3]float64) float64 { return v[i] + float64(f*(v[i+1]-v[i])) }
	return between(&b.V), between(&b.Vn), between(&b.Over)
}

// Lifting returns the upward air speed that would hold a resting particle as
// the blast v does: V √(sin θ).
func Lifting(v float64) float64 { return float64(v * blastRoot) }

// blastRoot is the square root of blastSin, written out as that is. Computed.
const blastRoot = 0.7071067811865476

// Opened returns how far a mat is opened by the air, 0 lying to 1 in flight,
// for lifting air veq and the mat's mean terminal velocity.
func Opened(veq, matVt float64) float64 {
	vmf := float64(bedVoid * matVt)
	if matVt <= 0 {
		return 1
	}
	return num.SmoothStep((veq - vmf) / (matVt - vmf))
}

// SinkSpeed returns the speed at which grain sinks through a mat, m/s.
func SinkSpeed(c *design.Fit, damp, open, veq, vt float64) float64 {
	r := veq / vt
	return damp * (c.SinkBulk + float64((c.SinkOpen-c.SinkBulk)*open)) * num.Positive(1-float64(r*r))
}

// Clearing returns the share of contacts in which a gap of o is open to a
// particle of size d, both mm: it grows with what the gap is wider than the
// particle, and less and less; 0 for o ≤ d.
//
//	0.573 (1 − e^−((o − d)/6))
func Clearing(o, d float64) float64 { return passOpen * num.Chance(num.Positive(o-d)/passGap) }

// Jet returns the share of contacts that the jet in the gap spoils no more:
// 1 − 0.6 (Vn P/o)²/Vt².
func Jet(vn, o, vt, pitch float64) float64 {
	j := vn * pitch / max(o, leastGap) / vt
	return num.Clamp(1-float64(jetShare*j*j), 0, 1)
}

// leastGap is the least opening, mm, that the law of the jet is asked for. Chosen,
// as a limit.
const leastGap = 0.5

// PassUpper returns the chance that a grain or piece passes the upper sieve in
// one contact.
func PassUpper(o, d, vn, vt, load float64) float64 {
	return PassUpperThrough(Clearing(o, d), o, vn, vt, load)
}

// PassUpperThrough is PassUpper where the clearing is known.
func PassUpperThrough(clearing, o, vn, vt, load float64) float64 {
	return passBest * clearing * Jet(vn, o, vt, section.UpperPitch) / (1 + load/matInWay)
}

// PassLower returns the same for the lower sieve, where the load shares its
// openings: grain and MOG landing over those at the start.
func PassLower(o, d, vn, vt, grain, mog float64) float64 {
	return PassLowerThrough(Clearing(o, d), o, vn, vt, grain, mog)
}

// PassLowerThrough is PassLower where the clearing is known.
func PassLowerThrough(clearing, o, vn, vt, grain, mog float64) float64 {
	p := min(passMost, passBestLower*clearing*Jet(vn, o, vt, section.LowerPitch))
	crowd := (lowerOwnShare + float64((1-lowerOwnShare)*grain)) * (lowerMOGShare + float64((1-lowerMOGShare)*mog))
	return num.Chance(-num.Log(1-p) / max(crowd, leastCrowd))
}

// leastCrowd is the least crowd on the lower sieve, over that at the start, that the
// law is asked for; by its shares an empty sieve has 0.35. Chosen, as a limit.
const leastCrowd = 0.3

// LaunchSpeed is the upward speed that the sieve gives a grain at full engine
// speed, m/s.
const LaunchSpeed = throwFactor * 2 * math.Pi * section.ShakeHz * section.ShakeAmplitude * 0.5

// BlownShare returns the share of grain leaving from the sieve's face that is
// called blown out, by how far the air opens the rear mat and by that mat's
// load in kg/m²: what leaves where the air holds the mat up, and little lies
// there, goes with the air. A label, which moves nothing. Calibrated.
func BlownShare(open, load float64) float64 {
	over := load / labelLoad
	return open / (1 + float64(over*over*over*over))
}
