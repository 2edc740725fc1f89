package render

import (
	"math"

	"riddle/sim/trade/crop"
)

// Patch is a part of a figure: a filled outline or a stroke. Lengths are mm
// about the figure's middle, x along it and y to its left.
type Patch struct {
	Points []Pt
	Width  float32 // of a stroke, mm; 0 is filled
	Closed bool    // a stroke that ends where it begins
	Erase  bool    // takes away instead of adding
}

// Figure returns the shape in which a crop's dots of a form are drawn in true
// size, at the middle grade.
func Figure(c *crop.Crop, f Form) []Patch {
	l, w := float32(c.Seed.Length), float32(c.Seed.Width)
	switch f {
	case KernelForm:
		return kernel(c, l, w)
	case LightForm:
		return shrunken(l*0.95, w*0.62)
	case HalfForm:
		return half(c, l, w)
	case PieceForm:
		return piece(c)
	case FlakeForm:
		return flake(float32(c.PieceSize))
	case BitForm:
		return cobBit()
	case WeedForm:
		return star(11)
	}
	return nil
}

// kernel is a sound kernel: the seed's outline, filled, with its crease, eye
// or dent left open.
func kernel(c *crop.Crop, l, w float32) []Patch {
	body := Patch{Points: seed(c, l, w)}
	mark := Patch{Width: w * 0.10, Erase: true}
	switch c.Name {
	case "soybeans":
		mark.Points = []Pt{{-l * 0.13, w * 0.30}, {l * 0.13, w * 0.30}}
	case "corn":
		mark.Points = []Pt{{l * 0.10, -w * 0.20}, {-l * 0.22, 0}, {l * 0.10, w * 0.20}}
	case "canola", "sorghum":
		return []Patch{body}
	default:
		mark.Points = []Pt{{-l * 0.34, 0}, {l * 0.30, 0}}
	}
	return []Patch{body, mark}
}

// seed returns the outline of a crop's kernel: its half width at share u from
// -1 to 1 of its half length.
func seed(c *crop.Crop, l, w float32) []Pt {
	profile := func(u float64) float64 { return math.Pow(1-u*u, 0.5) }
	switch c.Name {
	case "wheat":
		profile = func(u float64) float64 { return math.Pow(1-math.Pow(abs(u), 2.4), 0.56) * (1 - 0.10*u) }
	case "barley", "oats":
		profile = func(u float64) float64 { return math.Pow(1-u*u, 0.8) * (1 - 0.12*u) }
	case "rice":
		profile = func(u float64) float64 { return math.Pow(1-u*u, 0.6) }
	case "corn": // a wedge: broad crown, narrow tip
		profile = func(u float64) float64 { return math.Pow(1-math.Pow(abs(u), 6), 0.5) * (0.74 + 0.30*u) }
	}
	return lens(l, w, 18, profile)
}

// lens returns an outline that is w wide and l long, of n steps a side.
func lens(l, w float32, n int, profile func(u float64) float64) []Pt {
	pts := make([]Pt, 0, 2*n)
	for i := range n {
		u := -math.Cos(math.Pi * float64(i) / float64(n))
		pts = append(pts, Pt{l / 2 * float32(u), w / 2 * float32(profile(u))})
	}
	for i := range n {
		u := math.Cos(math.Pi * float64(i) / float64(n))
		pts = append(pts, Pt{l / 2 * float32(u), -w / 2 * float32(profile(u))})
	}
	return pts
}

func round(u float64) float64 { return math.Sqrt(1 - u*u) }

// shrunken is a light kernel: narrow, with two furrows.
func shrunken(l, w float32) []Patch {
	return []Patch{
		{Points: lens(l, w, 14, func(u float64) float64 { return math.Pow(1-u*u, 0.7) })},
		{Points: []Pt{{-l * 0.36, w * 0.14}, {l * 0.36, w * 0.14}}, Width: w * 0.13, Erase: true},
		{Points: []Pt{{-l * 0.30, -w * 0.16}, {l * 0.30, -w * 0.16}}, Width: w * 0.11, Erase: true},
	}
}

// half is a broken kernel: the rear part of a sound one with a flat edge.
func half(c *crop.Crop, l, w float32) []Patch {
	whole := seed(c, l, w)
	cut := -l * 0.02
	var pts []Pt
	for _, p := range whole {
		if p.X <= cut {
			pts = append(pts, p)
		} else if n := len(pts); n > 0 && pts[n-1].X < cut || n == 0 {
			pts = append(pts, Pt{cut, p.Y})
		}
	}
	for i := range pts {
		pts[i].X += l * 0.26 // about its own middle
	}
	return []Patch{{Points: pts}}
}

// flake is chaff: an open curved line, thick in its middle.
func flake(size float32) []Patch {
	const n = 12
	var pts []Pt
	r := size * 0.45
	for i := range n + 1 {
		a := (-0.62 + 1.24*float64(i)/n) * math.Pi / 2
		pts = append(pts, Pt{r * 1.1 * float32(math.Sin(a)), r * (float32(math.Cos(a)) - 0.72)})
	}
	for i := range n + 1 {
		a := (0.62 - 1.24*float64(i)/n) * math.Pi / 2
		thin := float32(1 - math.Pow(abs(a)/(0.62*math.Pi/2), 2))
		pts = append(pts, Pt{r * 1.1 * float32(math.Sin(a)), r * (float32(math.Cos(a)) - 0.72 - 0.22*thin)})
	}
	return []Patch{{Points: pts}}
}

// cobBit is a piece of a corn cob: a segment of a ring.
func cobBit() []Patch {
	var pts []Pt
	const out, in, n = 14.0, 6.5, 12
	for i := range n + 1 {
		a := (-65 + 130*float64(i)/n) * math.Pi / 180
		pts = append(pts, Pt{float32(out * math.Sin(a)), float32(out*math.Cos(a) - 9)})
	}
	for i := range n + 1 {
		a := (65 - 130*float64(i)/n) * math.Pi / 180
		pts = append(pts, Pt{float32(in * math.Sin(a)), float32(in*math.Cos(a) - 9)})
	}
	return []Patch{{Points: pts}}
}

// star is a flake of green weed.
func star(size float32) []Patch {
	var pts []Pt
	for i := range 12 {
		r := size * 0.55
		if i%2 == 1 {
			r = size * 0.2
		}
		a := float64(i) * math.Pi / 6
		pts = append(pts, Pt{r * float32(math.Cos(a)), r * float32(math.Sin(a))})
	}
	return []Patch{{Points: pts}}
}
