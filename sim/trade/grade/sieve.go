package grade

import (
	"math"

	"riddle/sim/stage/flow"
	"riddle/sim/trade/crop"
)

const inch = 25.4 // mm; international yard and pound agreement 1959 (published)

// Hole is the form of a sieve's holes.
type Hole uint8

const (
	Slot     Hole = iota // longer than the grain: the thickness has to pass
	Round                // the width has to pass: a kernel stands up on end
	Triangle             // equilateral, named by its inscribed circle (7 CFR 810.1002(e), published): a flat grain finds more room along a side
)

// Sieve is one of the grader's hand sieves.
type Sieve struct {
	Hole Hole
	MM   float64 // width of the slot, diameter of the hole or of its inscribed circle, mm
	Name string  // as the standard calls it
}

// across returns the limiting dimension of a grain of so much width and
// thickness, mm, to be held against MM. On end the grain is taken as an ellipse;
// it just fits an equilateral triangle whose inscribed circle is
// (t + √(3w² + t²))/3 across (geometry), which for w = t is the circle itself.
func (s Sieve) across(width, thickness float64) float64 {
	switch s.Hole {
	case Slot:
		return thickness
	case Triangle:
		return (thickness + math.Sqrt(float64(3*width*width)+float64(thickness*thickness))) / 3
	}
	return width
}

// Passes reports whether what measures mm across its limiting dimension falls
// through.
func (s Sieve) Passes(mm float64) bool { return mm <= s.MM }

// sieves of the standards, the coarse one first; where there is a second, it
// sieves what the first let through. Holes by 7 CFR 810: wheat 810.2202 (the
// same text as triticale, 810.2002(g)(h), published), soybeans 810.1602(c)
// (published), corn 810.402 (published), oats 810.1002(e) and 810.1005(h)
// (published; not a grade factor, but thin oats are a special grade), barley
// 810.202 and sorghum 810.1402 (from memory). Canola and rough rice are not
// parted by such a sieve.
var sieves = map[string][]Sieve{
	"wheat":    {{Slot, 0.064 * inch, "0.064 × 3/8 in oblong-hole sieve"}},
	"oats":     {{Slot, 0.064 * inch, "0.064 × 3/8 in oblong-hole sieve"}},
	"barley":   {{Slot, 5.0 / 64 * inch, "5/64 × 3/4 in slotted-hole sieve"}},
	"soybeans": {{Round, 8.0 / 64 * inch, "8/64 in round-hole sieve"}},
	"corn":     {{Round, 12.0 / 64 * inch, "12/64 in round-hole sieve"}, {Round, 6.0 / 64 * inch, "6/64 in round-hole sieve"}},
	"sorghum":  {{Triangle, 5.0 / 64 * inch, "5/64 in triangular-hole sieve"}, {Round, 2.5 / 64 * inch, "2 1/2/64 in round-hole sieve"}},
}

// SievesOf returns the sieves that the standard of a crop uses, the coarse one
// first; none where it uses none.
func SievesOf(name string) []Sieve { return sieves[name] }

// lightThick is the thickness of a light kernel over that of a sound one.
// Calibrated: shrunken kernels are flat; if thickness alone made them light it
// would be the square of their terminal velocity over a sound kernel's (drag),
// 0.46 in wheat.
const lightThick = 0.6

// Sieving is what the grader's sieves do to loose grain of one crop. A kernel's
// thickness or width is the crop's, by how much larger or smaller than the mean
// of its kind the kernel is; a part keeps the kernel's shape, so that it is
// smaller by the third root of its mass (geometry). A damaged kernel of which a
// quarter or less is missing stays on the sieve.
type Sieving struct {
	most [2][flow.Broken + 1]float64 // limiting size up to which it falls through, mm
}

// SievingOf returns the sieving of a crop.
func SievingOf(c *crop.Crop) *Sieving {
	s := &Sieving{}
	for i, sieve := range sieves[c.Name] {
		light := crop.LightSize
		if sieve.Hole == Slot {
			light = lightThick
		}
		whole := sieve.MM / sieve.across(c.Seed.Width, c.Seed.Thickness) * c.Size
		s.most[i] = [...]float64{flow.Sound: whole, flow.Light: whole / light * crop.LightSize, flow.Broken: whole * crop.PartShape}
	}
	return s
}

// Through reports whether a loose kernel or part of one falls through the
// crop's sieve. Size is its limiting dimension as the machine knows it, mm.
func (s *Sieving) Through(k flow.Kind, grain uint16, size float32) bool {
	return float64(size) <= s.limit(0, k, grain)
}

// Fine reports whether it also falls through the second, finer sieve.
func (s *Sieving) Fine(k flow.Kind, grain uint16, size float32) bool {
	return float64(size) <= s.limit(1, k, grain)
}

// Limits returns the sizes up to which a kernel or part falls through the crop's
// sieve and through the second one, mm; 0 where it does not.
func (s *Sieving) Limits(k flow.Kind, grain uint16) (through, fine float64) {
	return s.limit(0, k, grain), s.limit(1, k, grain)
}

func (s *Sieving) limit(sieve int, k flow.Kind, grain uint16) float64 {
	switch {
	case !k.IsKernel(), grain > flow.Kernel, k == flow.Broken && !IsPart(grain), k != flow.Broken && grain < flow.Kernel:
		return 0
	}
	return s.most[sieve][k]
}

// IsPart reports whether more than a quarter of the kernel is gone, which makes
// it a split in soybeans (7 CFR 810.1602, from memory) and a broken kernel in
// barley (810.202, from memory).
func IsPart(grain uint16) bool { return 4*grain < 3*flow.Kernel }

// IsChip reports whether it is less than a quarter of a kernel.
func IsChip(grain uint16) bool { return 4*grain < flow.Kernel }
