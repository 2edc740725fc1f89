package render

import (
	"slices"

	"riddle/sim"
	"riddle/sim/flow"
)

// Specks are round dots that look alike, of which a view of the whole has tens
// of thousands.
type Specks struct {
	At    []Pt // where each is
	Layer int
	Look
}

// Look is how specks look.
type Look struct {
	R     float32 // radius, px
	Tone  Tone
	Alpha uint8
}

// brush is what all dots of a kind that ride alike have in common at a place.
type brush struct {
	specks   uint8 // number of their specks among those of the picture, plus one; 0 if they are none
	layer    uint8
	strength uint8 // of ink, of 255
}

// alike reckons what the dots have in common at the present place.
func (k *marker) alike(s *Scene) {
	none := k.level == figures || k.place == sim.Gap || k.place == sim.Filling
	for kind := range flow.Kinds {
		for ride := range flow.AtRest + 1 {
			d := flow.Dot{Kind: kind, Ride: ride}
			layer := k.layer(&d)
			k.strength = k.strengthOf(&d, layer)
			of := brush{layer: uint8(layer), strength: uint8(k.strength)}
			if !none && !k.stalk(kind) {
				m := k.speck(kind, Mark{Tone: k.tone(kind)})
				of.specks = uint8(s.specksOf(layer, Look{m.DX, m.Tone, m.Alpha}) + 1)
			}
			k.brushes[kind][ride] = of
		}
	}
}

// specksOf returns the number of the specks of a look in a layer.
func (s *Scene) specksOf(layer int, look Look) int {
	for i := range s.Specks {
		if s.Specks[i].Layer == layer && s.Specks[i].Look == look {
			return i
		}
	}
	n := len(s.Specks)
	s.Specks = slices.Grow(s.Specks, 1)[:n+1]
	s.Specks[n] = Specks{At: s.Specks[n].At[:0], Layer: layer, Look: look} // in the room of another view's
	return n
}

// swarm makes the marks of the dots at the present place.
func (k *marker) swarm(dots []flow.Dot, s *Scene) {
	k.alike(s)
	for _, i := range k.sift(dots, s.Specks) {
		d := &dots[i]
		if k.place == sim.Filling && k.heap.holds(d) {
			continue
		}
		of := k.brushes[d.Kind][d.Ride]
		k.out, k.strength = &s.Marks[of.layer], int(of.strength)
		k.dot(d)
	}
}

// sift takes out the dots that are specks and returns the numbers of the rest
// that are in sight. It calls nothing, since all tens of thousands pass here.
func (k *marker) sift(dots []flow.Dot, specks []Specks) []int32 {
	for i := range specks {
		specks[i].At = slices.Grow(specks[i].At, len(dots))
	}
	rest := slices.Grow(k.rest, len(dots))[:len(dots)]
	n := 0
	r := &k.v.Rect
	x0, x1, y0, y1, scale := float32(r.X0), float32(r.X1), float32(r.Y0), float32(r.Y1), k.v.K
	for i := range dots {
		d := &dots[i]
		of, m := k.brushes[d.Kind][d.Ride].specks, float32(0.03) // as far as a speck reaches
		if of == 0 {
			if m = d.Size * 0.001; m < 0.03 {
				m = 0.03
			}
		}
		if d.X < x0-m || d.X > x1+m || d.Y < y0-m || d.Y > y1+m {
			continue
		}
		if of == 0 {
			rest[n] = int32(i)
			n++
			continue
		}
		to := &specks[of-1]
		last := len(to.At)
		to.At = to.At[:last+1]
		to.At[last] = Pt{float32((float64(d.X) - r.X0) * scale), float32((r.Y1 - float64(d.Y)) * scale)} // as View.Px has it
	}
	k.rest = rest[:0]
	return rest[:n]
}
