package render

import (
	"slices"

	"riddle/sim"
	"riddle/sim/stage/flow"
	"riddle/sim/stage/section"
)

// Specks are round dots that look alike, of which a view of the whole has tens
// of thousands.
type Specks struct {
	At    []Pt // where each is
	Layer int
	DotStyle
}

// DotStyle is how specks look.
type DotStyle struct {
	R     float32 // radius, px
	Tone  Tone
	Alpha uint8
}

// brush is what all dots of a kind that ride alike have in common at a place.
type brush struct {
	layer    uint8
	strength uint8 // of ink, of 255
	tone     Tone
	stalk    bool  // a stroke of the dot's length
	lies     bool  // such a stroke along the way of the place
	alpha    uint8 // of such a stroke, before it is made a little weaker
}

// alike computes what the dots have in common at the present place.
func (k *marker) alike(s *Scene) {
	none := k.level == figures || k.place == sim.Gap || k.place == sim.Filling
	for kind := range flow.Kinds {
		tone, stalk := k.tone(kind), k.stalk(kind)
		for ride := range flow.AtRest + 1 {
			d := flow.Dot{Kind: kind, Ride: ride}
			layer := k.layer(&d)
			k.strength = k.strengthOf(&d, layer)
			k.brushes[kind][ride] = brush{uint8(layer), uint8(k.strength), tone, stalk, stalk && k.lies(&d), k.ink(stalkAlpha[k.level])}
			of := uint8(0)
			if !none && !stalk {
				m := k.speck(kind, Glyph{Tone: tone})
				of = uint8(s.specksOf(layer, DotStyle{m.DX, m.Tone, m.Alpha}) + 1)
			}
			k.specks[slot(kind, ride)] = of
		}
	}
}

// slot returns the number of a kind that rides so.
func slot(kind flow.Kind, ride flow.Ride) uint8 { return (uint8(kind)<<3 | uint8(ride)) % slots }

const slots = uint8(flow.Kinds) << 3

// specksOf returns the number of the specks of a look in a layer.
func (s *Scene) specksOf(layer int, look DotStyle) int {
	for i := range s.Specks {
		if s.Specks[i].Layer == layer && s.Specks[i].DotStyle == look {
			return i
		}
	}
	n := len(s.Specks)
	s.Specks = slices.Grow(s.Specks, 1)[:n+1]
	s.Specks[n] = Specks{At: s.Specks[n].At[:0], Layer: layer, DotStyle: look} // in the room of another view's
	return n
}

// swarm makes the marks of the dots at the present place.
func (k *marker) swarm(dots []flow.Dot, s *Scene) {
	k.alike(s)
	for _, i := range k.lay(dots, k.sift(dots, s.Specks), s) {
		d := &dots[i]
		if !k.sees(d) || k.place == sim.Filling && k.heap.holds(d) {
			continue
		}
		of := &k.brushes[d.Kind][d.Ride]
		k.out, k.strength = &s.Marks[of.layer], int(of.strength)
		k.dot(d, of)
	}
}

// sift takes out the dots that are specks in sight, and returns the numbers of
// those that are none. It calls nothing and branches little, since all tens of
// thousands pass here.
//
//go:noinline
func (k *marker) sift(dots []flow.Dot, specks []Specks) []int32 {
	for i := range specks {
		specks[i].At = slices.Grow(specks[i].At, len(dots))
	}
	rest := slices.Grow(k.rest, len(dots))[:len(dots)]
	n := 0
	x0, y1, scale := k.v.Rect.X0, k.v.Rect.Y1, k.v.K
	reach := scale * speckReach
	right, low := int(float64(k.v.W)+2*reach), int(float64(k.v.H)+2*reach)
	for i := range dots {
		d := &dots[i]
		of := k.specks[slot(d.Kind, d.Ride)]
		if of == 0 {
			rest[n] = int32(i)
			n++
			continue
		}
		x, y := (float64(d.X)-x0)*scale, (y1-float64(d.Y))*scale // as View.Px has it
		if i, j := int(x+reach), int(y+reach); i|j|(right-i)|(low-j) < 0 {
			continue
		}
		to := &specks[of-1]
		last := len(to.At)
		to.At = to.At[:last+1]
		to.At[last] = Pt{float32(x), float32(y)}
	}
	k.rest = rest[:0]
	return rest[:n]
}

// lay makes the marks of the stalks that lie along the way of the place, which
// most stalks do, and returns the numbers of the other dots. It does for them
// what dot does, and is as sparing as sift.
//
//go:noinline
func (k *marker) lay(dots []flow.Dot, rest []int32, s *Scene) []int32 {
	for i := range s.Marks {
		s.Marks[i] = slices.Grow(s.Marks[i], len(rest))
	}
	n := 0
	x0, y1, scale, half := k.v.Rect.X0, k.v.Rect.Y1, k.v.K, float32(k.v.K)/2000
	way, walking := wayTurns[k.place], k.place == sim.Walking
	for _, i := range rest {
		d := &dots[i]
		of := &k.brushes[d.Kind][d.Ride]
		if !of.lies {
			rest[n] = i
			n++
			continue
		}
		px, py := (float64(d.X)-x0)*scale, (y1-float64(d.Y))*scale
		long := d.Size * half
		reach := int(long) + 1
		if i, j := int(px), int(py); (i+reach)|(j+reach)|(k.wide+reach-i)|(k.high+reach-j) < 0 {
			continue
		}
		if walking {
			way = walkerTurn(d.X)
		}
		h := mix(d.ID)
		a := uint8(way + scatter(int32(int8(h)), d.Size))
		out := &s.Marks[of.layer]
		last := len(*out)
		*out = (*out)[:last+1]
		(*out)[last] = Glyph{
			X: float32(px), Y: float32(py), DX: long * cosines[a], DY: -long * cosines[a-64], W: k.stalkW,
			Form: k.form(d.Kind), Tone: of.tone, Alpha: weaker(of.alpha, h),
		}
		if walking && d.Y > hoodLow {
			k.underHood(&(*out)[last])
		}
	}
	return rest[:n]
}

// hoodLow is the height from which a stalk on the walkers may reach the roof of
// the hood, m: the lowest end of the roof less half of the longest straw, aslant.
var hoodLow = float32(section.HoodAt(section.WalkerStart.X) - 0.25)

// underHood turns a stalk of the walkers so that neither end stands out of the
// roof of the hood, against which it is pressed.
//
//go:noinline
func (k *marker) underHood(m *Glyph) {
	roof := func(x float32) float32 {
		y := section.HoodAt(k.v.Rect.X0 + float64(x)/k.v.K)
		return float32((k.v.Rect.Y1 - y) * k.v.K)
	}
	ahead, behind := roof(m.X+m.DX)-m.Y, m.Y-roof(m.X-m.DX) // px, down
	m.DY = min(max(m.DY, ahead), max(behind, ahead))
}

// lies reports whether a stalk's dot lies along the way of the present place,
// straight and as long as it is.
func (k *marker) lies(d *flow.Dot) bool {
	switch k.place {
	case sim.Standing, sim.Cutting, sim.Feeding, sim.Gap, sim.Plate, sim.Hood:
		return false
	}
	return d.Ride != flow.Airborne && !(k.cobs && d.Kind == flow.Straw)
}

// weaker returns the strength of a stalk's ink: no two alike, so that a mat has
// depth. The bits are those of its number, mixed.
func weaker(alpha uint8, bits uint32) uint8 { return uint8(int(alpha) * (205 + int(bits&63)) / 268) }

// speckReach is how far a speck reaches at most, m.
const speckReach = 0.03

// sees reports whether the dot can be in sight.
func (k *marker) sees(d *flow.Dot) bool {
	m := float64(d.Size)*0.001 + speckReach
	x, y, r := float64(d.X), float64(d.Y), &k.v.Rect
	return x >= r.X0-m && x <= r.X1+m && y >= r.Y0-m && y <= r.Y1+m
}
