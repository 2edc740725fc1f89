package render

import (
	"math"

	"riddle/sim/trade/crop"
)

// piece is an unthreshed piece: the outline of a head, pod or ear piece with
// its seeds showing.
func piece(c *crop.Crop) []Patch {
	size := float32(c.PieceSize)
	l, w := float32(c.Seed.Length), float32(c.Seed.Width)
	switch c.Name {
	case "soybeans":
		return pod(size*3.4, size, l*0.8, c.PieceKernels)
	case "canola":
		return pod(size*5, size*0.85, l*1.2, c.PieceKernels)
	case "corn":
		return earOfCorn(size, c.PieceKernels)
	case "oats", "rice", "sorghum":
		return panicle(c, l, w)
	}
	return ear(c, size, l, w)
}

// ear is a stretch of an ear of wheat or barley: spikelets left and right of a
// stem, within an outline, with beards.
func ear(c *crop.Crop, size, l, w float32) []Patch {
	long := size * 2.3
	out := []Patch{{
		Points: lens(long, size*1.15, 14, func(u float64) float64 { return math.Pow(1-math.Pow(abs(u), 2.6), 0.5) * (1 - 0.12*u) }),
		Width:  size * 0.09, Closed: true,
	}}
	n := c.PieceKernels
	for i := range n {
		side := float32(1 - 2*(i%2))
		x := long * (-0.30 + 0.58*float32(i)/float32(max(n-1, 1)))
		out = append(out, Patch{Points: turned(seed(c, l*0.92, w*0.82), 0.42*float64(side), x, size*0.25*side)})
	}
	out = append(out, Patch{Points: []Pt{{-long * 0.62, 0}, {-long * 0.48, 0}}, Width: size * 0.12})
	for _, y := range [...]float32{-0.55, 0, 0.55} { // beards
		out = append(out, Patch{Points: []Pt{{long * 0.44, y * size * 0.5}, {long * 0.66, y * size * 1.05}}, Width: size * 0.05})
	}
	return out
}

// pod is a curved outline with round seeds in it.
func pod(long, wide, seedD float32, n int) []Patch {
	bow := func(x float32) float32 { return wide * 0.22 * (1 - 4*x*x/(long*long)) }
	outline := lens(long, wide*0.95, 16, func(u float64) float64 { return math.Pow(1-u*u, 0.42) })
	for i := range outline {
		outline[i].Y += bow(outline[i].X)
	}
	out := []Patch{{Points: outline, Width: wide * 0.09, Closed: true}}
	for i := range n {
		x := long * 0.36 * (2*(float32(i)+0.5)/float32(n) - 1)
		out = append(out, Patch{Points: moved(lens(seedD, seedD, 10, round), x, bow(x))})
	}
	return append(out, Patch{Points: []Pt{{-long * 0.5, bow(-long * 0.5)}, {-long * 0.62, -wide * 0.1}}, Width: wide * 0.12})
}

// earOfCorn is a piece of an ear: its round end and rows of kernels.
func earOfCorn(size float32, n int) []Patch {
	wide, long := size*1.25, size*1.8
	out := []Patch{{
		Points: lens(long, wide, 14, func(u float64) float64 { return math.Pow(1-math.Pow(abs(u), 5), 0.5) }),
		Width:  size * 0.08, Closed: true,
	}}
	const rows = 2
	cols := max((n+rows-1)/rows, 1)
	for i := range n {
		x := long * 0.84 * ((float32(i/rows)+0.5)/float32(cols) - 0.5)
		y := wide * 0.36 * (2*float32(i%rows) - 1) * 0.62
		out = append(out, Patch{Points: moved(lens(long*0.7/float32(cols), wide*0.34, 8, round), x, y)})
	}
	return out
}

// panicle is a twig on which seeds hang left and right.
func panicle(c *crop.Crop, l, w float32) []Patch {
	n := c.PieceKernels
	step := max(l*0.5, w)
	long := step * float32(n)
	out := []Patch{{Points: []Pt{{-long * 0.5, 0}, {long * 0.42, 0}}, Width: w * 0.22}}
	for i := range n {
		side := float32(1 - 2*(i%2))
		x := -long*0.36 + step*0.82*float32(i)
		y := w * 0.85 * side
		out = append(out,
			Patch{Points: turned(seed(c, l*0.95, w*0.95), 0.5*float64(side), x+l*0.3, y)},
			Patch{Points: []Pt{{x - step*0.2, 0}, {x + l*0.1, y * 0.8}}, Width: w * 0.16})
	}
	return out
}

func moved(pts []Pt, x, y float32) []Pt { return turned(pts, 0, x, y) }

// turned turns points anticlockwise by a radians and moves them.
func turned(pts []Pt, a float64, x, y float32) []Pt {
	s64, c64 := math.Sincos(a)
	s, k := float32(s64), float32(c64)
	for i, p := range pts {
		pts[i] = Pt{x + p.X*k - p.Y*s, y + p.X*s + p.Y*k}
	}
	return pts
}
