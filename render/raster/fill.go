package raster

import "riddle/render"

// filler fills polygons. For each pixel it sums up what the edges change of the
// coverage there, as signed areas, and then sweeps each row from the first edge
// that it holds to the last. The room is kept from one polygon to the next, and
// holds nothing but zeros between two.
type filler struct {
	change     []float32 // of coverage, by pixel of the box of the polygon
	from, to   []int     // in each row, the pixels that have a change
	x0, y0     float32   // upper left corner of the box
	wide, high int
	w, h       float32 // the same
}

// fill paints the polygon through points, a of 256 parts of the ink.
func (f *filler) fill(dst *canvas, pts []render.Pt, c ink, a float32) {
	r := box(pts)
	x0, y0, x1, y1 := max(r.Min.X, 0), max(r.Min.Y, 0), min(r.Max.X, dst.w), min(r.Max.Y, dst.h)
	if x0 >= x1 || y0 >= y1 {
		return
	}
	f.open(x0, y0, x1-x0, y1-y0)
	p := pts[len(pts)-1]
	for _, q := range pts {
		f.edge(p.X, p.Y, q.X, q.Y)
		p = q
	}
	for j := range f.high {
		if from, to := f.from[j], min(f.to[j], f.wide); from < to {
			at := (y0+j)*dst.w + x0
			sweep(dst.pix[at+from:at+to], f.change[j*(f.wide+1)+from:], c, a)
		}
		if f.to[j] > f.wide {
			f.change[j*(f.wide+1)+f.wide] = 0
		}
	}
}

// open makes room for a box of pixels.
func (f *filler) open(x, y, wide, high int) {
	f.x0, f.y0, f.wide, f.high, f.w, f.h = float32(x), float32(y), wide, high, float32(wide), float32(high)
	if n := (wide + 1) * high; n > len(f.change) {
		f.change = make([]float32, n+n/4)
	}
	if high > len(f.from) {
		f.from, f.to = make([]int, high+high/4), make([]int, high+high/4)
	}
	for j := range high {
		f.from[j], f.to[j] = wide, 0
	}
}

// edge adds an edge: what lies to its right is covered from where it goes down
// on and no more from where it goes up.
func (f *filler) edge(ax, ay, bx, by float32) {
	ax, ay, bx, by = ax-f.x0, ay-f.y0, bx-f.x0, by-f.y0
	way := float32(1)
	if ay > by {
		ax, ay, bx, by, way = bx, by, ax, ay, -1
	}
	if ay == by || by <= 0 || ay >= f.h {
		return
	}
	slope := (bx - ax) / (by - ay)
	if ay < 0 {
		ax, ay = ax-ay*slope, 0
	}
	if by > f.h {
		by = f.h
	}
	row := int(ay)
	for x, y := ax, ay; y < by; row++ {
		next := float32(row + 1)
		if next > by {
			next = by
		}
		end := x + (next-y)*slope
		f.stretch(row, x, end, (next-y)*way)
		x, y = end, next
	}
}

// stretch adds the part of an edge that lies in a row, from x to end along it
// and d down.
func (f *filler) stretch(row int, x, end, d float32) {
	if x > end {
		x, end = end, x
	}
	// Off to the left it counts for the whole row. Off to the right it changes
	// nothing, but what the others do holds up to there.
	if end <= 0 {
		x, end = 0, 0
	} else if x < 0 {
		off := d * -x / (end - x)
		f.stretch(row, 0, 0, off)
		x, d = 0, d-off
	}
	if x >= f.w {
		f.to[row] = max(f.to[row], f.wide)
		return
	}
	if end > f.w {
		d *= (f.w - x) / (end - x)
		end = f.w
	}
	i, last := int(x), int(end)
	change := f.change[row*(f.wide+1):][: f.wide+1 : f.wide+1]
	if i < f.from[row] {
		f.from[row] = i
	}
	if n := min(last+2, f.wide+1); n > f.to[row] {
		f.to[row] = n
	}
	if last == i { // within one pixel
		right := (x+end)/2 - float32(i) // how much of it lies to the left of the edge
		change[i] += d * (1 - right)
		if i < f.wide {
			change[i+1] += d * right
		}
		return
	}
	per := d / (end - x)
	for ; i <= last && i < f.wide; i++ {
		to := float32(i + 1)
		if to > end {
			to = end
		}
		part := (to - x) * per
		right := (x+to)/2 - float32(i)
		change[i] += part * (1 - right)
		change[i+1] += part * right
		x = to
	}
}

// sweep paints one row by the changes of coverage in it, which it clears.
func sweep(pix []uint32, change []float32, c ink, a float32) {
	change = change[:len(pix)]
	sum, part, solid := float32(0), uint64(0), c.solid()
	for i := range pix {
		if d := change[i]; d != 0 {
			change[i] = 0
			sum += d
			share := sum
			if share < 0 {
				share = -share
			}
			if share > 1 {
				share = 1
			}
			part = uint64(int(share*a + 0.5))
		}
		if part == 256 {
			pix[i] = solid
		} else {
			pix[i] = c.over(pix[i], part)
		}
	}
}
