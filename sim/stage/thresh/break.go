package thresh

import (
	"riddle/sim/num"
	"riddle/sim/stage/design"
	"riddle/sim/stage/flow"
	"riddle/sim/trade/crop"
)

const (
	// partChance is the chance that a broken kernel parts in two. Calibrated.
	partChance = 0.5
	// quarter is a quarter of a kernel, and chipMost the largest chip: what is
	// larger is a part. In parts of a kernel; definition.
	quarter  = flow.Kernel / 4
	chipMost = quarter - 1
	// chipSize is the exponent of size in the chips' distribution. From memory:
	// crushed grain is spread by 1 to 1.5.
	chipSize = 1.5
	// chips0 is how much a strike at the start sheds. Calibrated: a tenth of
	// what is visibly broken is chips, as of the visibly broken corn of combines
	// about a tenth falls through the grader's sieve (common practice); of corn
	// with 20 to 30 % of its kernels damaged in all, 2 % were fines as it came from
	// combines (J. Dyck of Ontario's ministry of agriculture, trade press 2017;
	// published).
	chips0 = 0.105
	// Harder strikes shed more: by the energy of the blow, which goes with the
	// square of its speed (standard mechanics); the gap squeezes less than it
	// breaks (calibrated). shedMost holds it within what was calibrated.
	shedSpeed, shedGap, shedMost = 2.0, -0.3, 0.7
	// Loose kernels and their parts.
	brokenVt     = 0.85 // terminal velocity of half a kernel over a sound one; calibrated, 0.89 by drag of half the mass
	brokenVtCV   = 0.14 // of its mean; calibrated
	brokenSizeCV = 0.16 // of its mean; calibrated
	// Of a body that keeps its shape the terminal velocity goes with the sixth
	// root of its mass, since drag goes with its face and the square of its speed,
	// and its size with the third (standard mechanics, where drag is Newton's; a
	// grain of dust falls more slowly than this).
	vtRoot = 6.0
)

// Fines returns how much a strike that breaks a kernel sheds: the measure in the
// law of Shed. l is the load; drier grain than at the start is more brittle by
// the crop's own rate of damage.
//
//	f = f0 v² c^−0.3 e^(k ((Md − M)+ − (Md − M0)+))
func Fines(c *design.Fit, cond *crop.Condition, l Load) float64 {
	m0 := c.Start.GrainMoisture
	dry := num.Positive(c.Damage.Dry-m0-cond.Moist) - num.Positive(c.Damage.Dry-m0)
	return min(shedMost, chips0*num.Pow(l.Speed, shedSpeed)*num.Pow(l.Gap, shedGap)*num.Exp(c.Damage.DryRate*dry))
}

// Shed is how chips come off a kernel that breaks.
type Shed struct {
	few   int                   // so many at least
	more  float32               // chance of one more
	below [chipMost + 1]float32 // share of the chips of at most so many parts of a kernel
}

// ShedOf returns how chips come off at a measure f. Of the kernel's mass, the
// share in chips of at most m parts of it is that of Rosin & Rammler (1933, J.
// Inst. Fuel 7:29–36; the form, published), cut where parts begin:
//
//	Y(m) = 1 − e^(−f (m/15)^(n/3))
//
// A larger f sheds more, and more of it fine. Chips are drawn by number, each of
// m parts in proportion to its share of the mass over m.
func ShedOf(f float64) Shed {
	s := Shed{}
	var number [chipMost + 1]float64
	last, all := 0.0, 0.0
	for m := 1; m <= chipMost; m++ {
		y := num.Chance(f * chipAt[m])
		number[m] = (y - last) * flow.Kernel / float64(m)
		last = y
		all += number[m]
	}
	if all == 0 {
		return s
	}
	s.few = int(all)
	s.more = float32(all - float64(s.few))
	sum := 0.0
	for m := 1; m <= chipMost; m++ {
		sum += number[m]
		s.below[m] = float32(sum / all)
	}
	s.below[chipMost] = 1
	return s
}

// chipAt is (m/15)^(n/3), computed.
var chipAt = func() (at [chipMost + 1]float64) {
	for m := range at {
		at[m] = num.Pow(float64(m)/chipMost, chipSize/3)
	}
	return at
}()

// partVt and partSize are the terminal velocity and the size of parts of a
// kernel over those of a sound one, computed from those of a half.
var partVt, partSize = func() (vt, size [flow.Kernel + 1]float64) {
	for g := 1; g <= flow.Kernel; g++ {
		q := float64(float64(g) / flow.Kernel)
		vt[g] = brokenVt * num.Exp(num.Log(q*2)/vtRoot)
		size[g] = crop.PartSize(q)
	}
	return vt, size
}()

// mostBits is more than a kernel can break into: 48 chips and two parts. Definition.
const mostBits = flow.Kernel

// breakKernel breaks a whole kernel: chips come off, down to a 64th of it, and
// what is left may part in two. It returns all but the largest, in a buffer that
// the next call fills anew.
func (s *Stage) breakKernel(k *flow.Dot, t *flow.Tally) []flow.Dot {
	t.Cylinder.Broken += int64(k.Grain)
	k.Kind = flow.Broken
	bits := s.bits[:0]
	off := func(grain uint16) {
		b := *k
		b.ID, b.From, b.Grain = s.number(), k.ID, grain
		k.Grain -= grain
		s.shape(&b)
		bits = append(bits, b)
	}
	for n := s.chips(); n > 0; n-- {
		if m := s.chip(); k.Grain >= m+quarter {
			off(m)
		}
	}
	if s.rng.Happens(partChance) {
		least, n := parting(s.crop, k.Grain)
		off(least + uint16(s.rng.Float()*float32(n)))
	}
	s.shape(k)
	return bits
}

// chips draws how many chips come off.
func (s *Stage) chips() int {
	if s.rng.Happens(s.shed.more) {
		return s.shed.few + 1
	}
	return s.shed.few
}

// chip draws the size of one, in parts of a kernel.
func (s *Stage) chip() uint16 {
	u, m := s.rng.Float(), uint16(1)
	for u >= s.shed.below[m] {
		m++
	}
	return m
}

// shape gives a part of a kernel its size and terminal velocity.
func (s *Stage) shape(d *flow.Dot) {
	vt, size := partVt[d.Grain]*s.crop.Vt*s.cond.Grain, partSize[d.Grain]*s.crop.Size
	d.Vt = s.rng.Normal(vt, brokenVtCV*vt)
	d.Size = s.rng.Normal(size, brokenSizeCV*size)
}

// parting returns how the rest of a kernel parts: the least second part, and
// from how many sizes upward it is drawn. Beans part along their seam.
func parting(c *design.Fit, rest uint16) (least, n uint16) {
	if c.Seam {
		return rest / 2, 1
	}
	least = (rest + leastPart - 1) / leastPart
	return least, rest - 2*least + 1
}

// leastPart is how many of the smaller part would make up what parts, at most;
// rounded up. Chosen.
const leastPart = 4

// Parts is a share of broken grain for each number of parts of a kernel that
// what it lies in weighs.
type Parts [flow.Kernel + 1]float64

// PartShares returns, of the grain that breaks, the share by mass in each size
// of part, as breakKernel parts it.
func PartShares(c *design.Fit, shed *Shed) (mass Parts) {
	var left, next [flow.Kernel + 1]float64 // chance that so much is left of a kernel
	left[flow.Kernel] = 1
	for i := range shed.few + 1 {
		comes := 1.0
		if i == shed.few {
			comes = float64(shed.more)
		}
		clear(next[:])
		for g := quarter; g <= flow.Kernel; g++ {
			next[g] += float64(left[g] * (1 - comes))
			for m := 1; m <= chipMost; m++ {
				share := float64(left[g] * comes * float64(shed.below[m]-shed.below[m-1]))
				if g < m+quarter { // it does not come off
					next[g] += share
					continue
				}
				next[g-m] += share
				mass[m] += float64(share * float64(m) / flow.Kernel)
			}
		}
		left = next
	}
	for g := uint16(quarter); g <= flow.Kernel; g++ {
		mass[g] += float64(left[g] * (1 - partChance) * float64(g) / flow.Kernel)
		least, n := parting(c, g)
		for part := least; part < least+n; part++ {
			each := float64(left[g] * partChance / float64(n) / flow.Kernel)
			mass[part] += float64(each * float64(part))
			mass[g-part] += float64(each * float64(g-part))
		}
	}
	return mass
}

// class is a class of broken grain by how much of a kernel it lies in.
type class struct{ from, to uint16 }

// classes are fine among chips, which air and sieves part. Chosen.
var classes = [...]class{{1, 1}, {2, 3}, {4, 8}, {9, 15}, {16, 23}, {24, 32}, {33, 47}, {48, flow.Kernel}}

// Classes is how many classes of broken grain a forecast follows. Computed.
const Classes = len(classes)

// middle is the size of part that stands for a class: of its range the third
// root of the mean of cubes would be near; the mean is near enough. The last
// class is mostly whole kernels that shed a chip or two.
func (c class) middle() float64 {
	if c.to == flow.Kernel {
		return float64(c.from+nearWhole*c.to) / (1 + nearWhole)
	}
	return float64(c.from+c.to) / 2
}

// nearWhole is the weight of the end of the last class, a whole kernel, over that
// of its beginning. Chosen.
const nearWhole = 3

// OfClass sums the shares of a class.
func (p *Parts) OfClass(i uint8) (sum float64) {
	for g := classes[i].from; g <= classes[i].to; g++ {
		sum += p[g]
	}
	return sum
}

// EachOf calls f for each size of part in a class with its share of the class
// and its size over that of the bins of the class.
func (p *Parts) EachOf(i uint8, f func(grain uint16, share, size float64)) {
	c, sum := classes[i], p.OfClass(i)
	if sum == 0 {
		return
	}
	for g := c.from; g <= c.to; g++ {
		if p[g] > 0 {
			f(g, p[g]/sum, partSize[g]/crop.PartSize(c.middle()/flow.Kernel))
		}
	}
}

// brokenBins appends the classes of broken kernels; the shares of each class
// sum to one.
func brokenBins(bins []flow.Bin, c *design.Fit, cond *crop.Condition) []flow.Bin {
	for i, cl := range classes {
		q := float64(cl.middle() / flow.Kernel)
		vt, size := brokenVt*num.Exp(num.Log(q*2)/vtRoot)*c.Vt*cond.Grain, crop.PartSize(q)*c.Size
		nv, ns := chipVts, chipSizes
		if cl.to > chipMost {
			nv, ns = partVts, partSizes
		}
		from := len(bins)
		bins = flow.AppendBins(bins, flow.Broken, vt, brokenVtCV*vt, nv, size, brokenSizeCV*size, ns)
		for j := from; j < len(bins); j++ {
			bins[j].Class = uint8(i)
		}
	}
	return bins
}
