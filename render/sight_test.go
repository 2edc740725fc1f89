package render

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"riddle/sim/stage/flow"
	"riddle/sim/trade/crop"
)

// The sight of colour-blind people, as matrices on linear sRGB. Source:
// Machado, Oliveira and Fernandes 2009, A Physiologically-based Model for
// Simulation of Color Vision Deficiency, IEEE TVCG 15(6), severity 1.0.
var sights = map[string][3][3]float64{
	"protanopia":   {{0.152286, 1.052583, -0.204868}, {0.114503, 0.786281, 0.099216}, {-0.003882, -0.048116, 1.051998}},
	"deuteranopia": {{0.367322, 0.860646, -0.227968}, {0.280085, 0.672501, 0.047413}, {-0.011820, 0.042940, 0.968881}},
	"tritanopia":   {{1.255528, -0.076749, -0.178779}, {-0.078411, 0.930809, 0.147602}, {0.004733, 0.691367, 0.303900}},
	"grey":         {{0.2126, 0.7152, 0.0722}, {0.2126, 0.7152, 0.0722}, {0.2126, 0.7152, 0.0722}},
}

func linear(v uint8) float64 {
	x := float64(v) / 255
	if x <= 0.04045 {
		return x / 12.92
	}
	return math.Pow((x+0.055)/1.055, 2.4)
}

// seen returns a colour in linear sRGB as a kind of sight has it.
func seen(m [3][3]float64, c RGB) (out [3]float64) {
	in := [3]float64{linear(c.R), linear(c.G), linear(c.B)}
	for i := range out {
		for j := range in {
			out[i] += m[i][j] * in[j]
		}
		out[i] = min(max(out[i], 0), 1)
	}
	return out
}

// lab returns CIELAB coordinates (CIE 15:2004) of a colour in linear sRGB under D65.
func lab(c [3]float64) [3]float64 {
	x := (0.4124*c[0] + 0.3576*c[1] + 0.1805*c[2]) / 0.95047
	y := 0.2126*c[0] + 0.7152*c[1] + 0.0722*c[2]
	z := (0.0193*c[0] + 0.1192*c[1] + 0.9505*c[2]) / 1.08883
	f := func(t float64) float64 {
		if t > 216.0/24389 {
			return math.Cbrt(t)
		}
		return (24389.0/27*t + 16) / 116
	}
	return [3]float64{116*f(y) - 16, 500 * (f(x) - f(y)), 200 * (f(y) - f(z))}
}

// apart is the CIE 1976 difference of two colours: 2.3 is just noticeable.
func apart(a, b [3]float64) float64 {
	p, q := lab(a), lab(b)
	return math.Sqrt((p[0]-q[0])*(p[0]-q[0]) + (p[1]-q[1])*(p[1]-q[1]) + (p[2]-q[2])*(p[2]-q[2]))
}

// print is what of a kind meets the eye apart from its colour: how much of its
// box is inked, how slim it is, how large, and how long its edge is over that
// of a disc of its ink.
type print struct{ ink, slim, size, edge float64 }

// printOf measures a figure on a grid.
func printOf(patches []Patch) print {
	lo, hi := Pt{math.MaxFloat32, math.MaxFloat32}, Pt{-math.MaxFloat32, -math.MaxFloat32}
	for _, p := range patches {
		a, b := Bounds(p.Points)
		h := p.Width / 2
		lo, hi = Pt{min(lo.X, a.X-h), min(lo.Y, a.Y-h)}, Pt{max(hi.X, b.X+h), max(hi.Y, b.Y+h)}
	}
	long, wide := float64(hi.X-lo.X), float64(hi.Y-lo.Y)
	step := min(max(long, wide)/60, min(long, wide)/4)
	at := func(i, j int) bool {
		q := Pt{lo.X + float32((float64(i)+0.5)*step), lo.Y + float32((float64(j)+0.5)*step)}
		on := false
		for _, p := range patches {
			if inked(p, q) {
				on = !p.Erase
			}
		}
		return on
	}
	ink, edge := 0, 0
	for i := range int(long/step) + 1 {
		for j := range int(wide/step) + 1 {
			if !at(i, j) {
				continue
			}
			ink++
			for _, d := range [...][2]int{{1, 0}, {-1, 0}, {0, 1}, {0, -1}} {
				if !at(i+d[0], j+d[1]) {
					edge++
				}
			}
		}
	}
	area := float64(ink) * step * step
	return print{area / (long * wide), min(long, wide) / max(long, wide), max(long, wide), float64(edge) * step / math.Sqrt(area)}
}

// inked reports whether a point lies in a patch.
func inked(p Patch, q Pt) bool {
	n := len(p.Points)
	if p.Width > 0 {
		last := n - 1
		if p.Closed {
			last = n
		}
		for i := range last {
			a, b := p.Points[i], p.Points[(i+1)%n]
			dx, dy := b.X-a.X, b.Y-a.Y
			t := min(max(((q.X-a.X)*dx+(q.Y-a.Y)*dy)/max(dx*dx+dy*dy, 1e-9), 0), 1)
			if math.Hypot(float64(q.X-a.X-t*dx), float64(q.Y-a.Y-t*dy)) <= float64(p.Width)/2 {
				return true
			}
		}
		return false
	}
	in := false
	for i, j := 0, n-1; i < n; j, i = i, i+1 {
		a, b := p.Points[i], p.Points[j]
		if (a.Y > q.Y) != (b.Y > q.Y) && q.X < (b.X-a.X)*(q.Y-a.Y)/(b.Y-a.Y)+a.X {
			in = !in
		}
	}
	return in
}

// unlike says by how much two prints differ: the greatest of the ratios of
// their measures, less one.
func unlike(a, b print) float64 {
	ratio := func(x, y float64) float64 { return max(x, y)/max(min(x, y), 1e-6) - 1 }
	return max(ratio(a.ink, b.ink), ratio(a.slim, b.slim), ratio(a.size, b.size), ratio(a.edge, b.edge))
}

// kindPrints are the prints of all kinds of a crop in a lens. A straw is its
// stroke.
func kindPrints(c *crop.Crop) (list [flow.Kinds]print) {
	for k := range list {
		list[k] = printOf(Figure(c, kindForms[k]))
		length := map[flow.Kind]float32{flow.Short: 60, flow.Straw: 450}[flow.Kind(k)]
		if length > 0 && !(snaps(c) && flow.Kind(k) == flow.Short) {
			wide := float32(2.2)
			if snaps(c) {
				length, wide = 180, cobThick*1000
			}
			list[k] = printOf([]Patch{{Points: []Pt{{-length / 2, 0}, {length / 2, 0}}, Width: wide}})
		}
	}
	return list
}

// In a lens every kind is told from every other, by every kind of sight and in
// grey: by a colour that differs plainly (10 in CIELAB is more than four just
// noticeable differences), or by a shape of which one measure at least is a
// third larger.
func TestEveryKindIsToldApartByEverySight(t *testing.T) {
	const colour, shape = 10.0, 0.33
	for _, name := range crop.Names() {
		c := crop.Find(name)
		prints := kindPrints(c)
		m := marker{c: c, level: figures}
		for _, theme := range Themes {
			th, _ := FindTheme(theme)
			for sight, matrix := range sights {
				for a := range flow.Kinds {
					for b := range a {
						ca, cb := seen(matrix, th.Colours[m.tone(a)]), seen(matrix, th.Colours[m.tone(b)])
						d, u := apart(ca, cb), unlike(prints[a], prints[b])
						assert.True(t, d >= colour || u >= shape, "%s, %s, %s: %v and %v: colour %.1f, shape %.2f", name, theme, sight, a, b, d, u)
					}
				}
			}
		}
	}
}

// In the whole view the three classes are told apart by every sight: grain and
// unthreshed pieces by tone or size, chaff by tone or size, straw by its shape.
func TestTheThreeClassesAreToldApartByEverySight(t *testing.T) {
	snap := worked(t, "wheat", 10)
	var s Scene
	opt := Options{Zone: "whole", Width: 1440, Height: 700}
	s.Set(opt, snap.Crop)
	s.Update(snap, opt)
	radius := map[Tone]float32{}
	for _, m := range marksOf(&s) {
		if m.Form == Speck {
			radius[m.Tone] = max(radius[m.Tone], m.DX)
		}
	}
	require.Len(t, radius, 3, "straw is told from all three by its shape: a stroke")
	for _, theme := range Themes {
		th, _ := FindTheme(theme)
		for sight, matrix := range sights {
			for _, pair := range [][2]Tone{{GrainTone, PieceTone}, {GrainTone, ChaffTone}, {PieceTone, ChaffTone}} {
				d := apart(seen(matrix, th.Colours[pair[0]]), seen(matrix, th.Colours[pair[1]]))
				size := float64(max(radius[pair[0]], radius[pair[1]]) / min(radius[pair[0]], radius[pair[1]]))
				assert.True(t, d >= 10 || size >= 1.25, "%s, %s: %v: colour %.1f, size %.2f", theme, sight, pair, d, size)
			}
		}
	}
}

// Source of the check itself: white and black are 100 apart in CIELAB, and a
// grey seen in grey stays what it is.
func TestSightFormulas(t *testing.T) {
	assert.InDelta(t, 100, apart(seen(sights["grey"], RGB{255, 255, 255}), seen(sights["grey"], RGB{})), 0.05)
	for name, m := range sights {
		for i := range m {
			assert.InDelta(t, 1, m[i][0]+m[i][1]+m[i][2], 0.001, "%s keeps greys", name)
		}
	}
}
