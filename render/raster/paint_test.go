package raster

import (
	"bytes"
	"image"
	"image/png"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/image/vector"

	"riddle/render"
	"riddle/sim"
	"riddle/sim/setup"
	"riddle/sim/stage/flow"
	"riddle/sim/stage/section"
	"riddle/sim/trade/crop"
)

// worked returns the snapshot of a machine that has worked for some seconds.
func worked(t testing.TB, name string, seconds int) *sim.Snapshot {
	t.Helper()
	s, err := setup.Default(name)
	require.NoError(t, err)
	m, err := sim.New(s)
	require.NoError(t, err)
	for range seconds * sim.TickHz {
		m.Step()
	}
	var snap sim.Snapshot
	m.Snapshot(&snap)
	return &snap
}

// changed returns the middle of the pixels in which two pictures differ, and
// how many there are.
func changed(a, b *image.RGBA) (x, y float64, n int) {
	for i := 0; i < len(a.Pix); i += 4 {
		if !bytes.Equal(a.Pix[i:i+4], b.Pix[i:i+4]) {
			x += float64(i%a.Stride/4) + 0.5
			y += float64(i/a.Stride) + 0.5
			n++
		}
	}
	return x / float64(n), y / float64(n), n
}

func TestADotMarksThePictureWhereItIs(t *testing.T) {
	at := map[sim.Place]section.Point{sim.Standing: {X: -4.2, Y: 0.6}, sim.Walking: {X: 2.3, Y: 2.3}, sim.Upper: {X: 2.5, Y: 1.1},
		sim.Filling: {X: 0.4, Y: 3.4}, sim.Lifting: {X: 1.5, Y: 2.0}, sim.Behind: {X: 5.9, Y: 0.02}}
	for kind := range flow.Kinds {
		for place, q := range at {
			for _, opt := range []render.Options{
				{Zone: "whole", Width: 1440, Height: 700},
				{Rect: render.Rect{X0: q.X - 0.3, Y0: q.Y - 0.2, X1: q.X + 0.3, Y1: q.Y + 0.2}, Width: 900, Height: 600},
			} {
				snap := sim.Snapshot{Crop: crop.Find("wheat")}
				var p Painter
				before := image.NewRGBA(image.Rect(0, 0, opt.Width, opt.Height))
				copy(before.Pix, p.Paint(&snap, opt).Pix)
				snap.Dots[place] = []flow.Dot{{X: float32(q.X), Y: float32(q.Y), Kind: kind, Size: 9.5, ID: 3, Ride: flow.Airborne}}
				x, y, n := changed(before, p.Paint(&snap, opt))
				want := opt.View().Px(q)
				require.Positive(t, n, "%v at %v", kind, place)
				reach := max(opt.View().K*0.004, 1.2) // a figure's ink need not be even about its middle
				assert.InDelta(t, want.X, x, reach, "%v at %v", kind, place)
				assert.InDelta(t, want.Y, y, reach, "%v at %v", kind, place)
			}
		}
	}
}

func TestEveryZoneThemeAndCropGivesAPicture(t *testing.T) {
	for _, name := range crop.Names() {
		snap := worked(t, name, 4)
		var p Painter
		for _, z := range render.Zones {
			for _, theme := range render.Themes {
				img := p.Paint(snap, render.Options{Zone: z.Name, Theme: theme, Width: 480, Height: 240, Air: true})
				paper := bytes.Clone(img.Pix[:4])
				inked := 0
				for i := 0; i < len(img.Pix); i += 4 {
					if !bytes.Equal(img.Pix[i:i+4], paper) {
						inked++
					}
				}
				share := float64(inked) / float64(480*240)
				assert.Greater(t, share, 0.02, "%s %s %s", name, z.Name, theme)
				assert.True(t, img.Opaque(), "%s %s %s", name, z.Name, theme)
			}
		}
	}
}

// A picture of many dots costs no new room once the figures are made.
func TestPaintingAllocatesNothing(t *testing.T) {
	snap := worked(t, "wheat", 12)
	n := 0
	for i := range snap.Dots {
		n += len(snap.Dots[i])
	}
	for i := range snap.Dots { // as many dots as a full machine may hold
		dots := snap.Dots[i]
		for n < 65000 && len(snap.Dots[i]) > 0 && len(snap.Dots[i]) < 8*len(dots) {
			snap.Dots[i] = append(snap.Dots[i], dots...)
			n += len(dots)
		}
	}
	require.GreaterOrEqual(t, n, 65000)
	for _, z := range []string{"whole", "gap", "upper", "walkers"} {
		var p Painter
		opt := render.Options{Zone: z, Width: 900, Height: 450, Air: true}
		p.Paint(snap, opt)
		assert.Zero(t, testing.AllocsPerRun(3, func() { p.Paint(snap, opt) }), z)
	}
}

// Outside of what is said to change, a picture is the one before it.
func TestWhatIsNotSaidToChangeStays(t *testing.T) {
	a, b := worked(t, "wheat", 4), worked(t, "wheat", 6)
	for _, z := range render.Zones {
		var p Painter
		opt := render.Options{Zone: z.Name, Width: 480, Height: 300, Labels: true, Air: true}
		first := *p.Paint(a, opt)
		assert.Equal(t, first.Rect, p.Changed(), "a new view")
		first.Pix = bytes.Clone(first.Pix)
		second := p.Paint(b, opt)
		in := p.Changed()
		assert.Less(t, in.Dy(), second.Rect.Dy(), z.Name)
		for y := range second.Rect.Dy() {
			if y < in.Min.Y || y >= in.Max.Y {
				require.Equal(t, first.Pix[y*first.Stride:(y+1)*first.Stride], second.Pix[y*second.Stride:(y+1)*second.Stride], "%s, row %d", z.Name, y)
			}
		}
	}
}

func TestAnEmptySnapshotGivesAPicture(t *testing.T) {
	var out bytes.Buffer
	require.NoError(t, PNG(&out, &sim.Snapshot{}, render.Options{Width: 300, Height: 150, Labels: true, Air: true}))
	img, err := png.Decode(&out)
	require.NoError(t, err)
	assert.Equal(t, image.Pt(300, 150), img.Bounds().Size())
}

func TestLabelsAddWords(t *testing.T) {
	snap := &sim.Snapshot{Crop: crop.Find("wheat")}
	opt := render.Options{Width: 1440, Height: 700}
	bare, err := Picture(snap, opt)
	require.NoError(t, err)
	opt.Labels = true
	named, err := Picture(snap, opt)
	require.NoError(t, err)
	_, _, n := changed(bare, named)
	assert.Greater(t, n, 2000)
}

// covered sums up how much of a white canvas is covered, in pixels.
func covered(c *canvas) float64 {
	sum := 0.0
	for _, p := range c.pix {
		sum += float64(255-p&255) / 255
	}
	return sum
}

func blank(w, h int) *canvas {
	c := canvasOf(image.NewRGBA(image.Rect(0, 0, w, h)))
	c.fill(inkOf(render.RGB{R: 255, G: 255, B: 255}))
	return &c
}

func TestStrokesCoverTheirArea(t *testing.T) {
	for _, deg := range []float64{0, 17, 45, 60, 90, 143} {
		for _, w := range []float32{0.7, 1.3, 4} {
			c := blank(200, 200)
			s, k := math.Sincos(deg * math.Pi / 180)
			x, y := float32(70*k), float32(70*s)
			line(c, render.Pt{X: 100 - x, Y: 100 - y}, render.Pt{X: 100 + x, Y: 100 + y}, w, inkOf(render.RGB{}), 255)
			length := 140 + 0.6*float64(w) // with its caps
			assert.InEpsilon(t, length*float64(w), covered(c), 0.03, "%v° %v px", deg, w)
		}
	}
}

// Polygons cover as much of each pixel as those of the vector rasterizer of
// golang.org/x/image do on a picture that holds them whole.
func TestPolygonsCoverTheirArea(t *testing.T) {
	const w, h = 60, 40
	r := rand.New(rand.NewPCG(1, 2))
	var f filler
	for n := range 400 {
		pts := make([]render.Pt, 3+n%9)
		for i := range pts {
			pts[i] = render.Pt{X: r.Float32()*140 - 40, Y: r.Float32()*120 - 40}
		}
		if n%5 == 0 { // as far as a lens makes them reach
			pts[0].X *= 20
		}
		c := blank(w, h)
		f.fill(c, pts, inkOf(render.RGB{}), 256)
		var z vector.Rasterizer
		all := box(pts).Union(image.Rect(0, 0, 600, h)) // over 512 wide it goes by a point
		outline(&z, all, pts)
		want := image.NewAlpha(all)
		z.Draw(want, all, image.Opaque, image.Point{})
		for i, p := range c.pix {
			require.InDelta(t, want.AlphaAt(i%w, i/w).A, 255-p&255, 3, "polygon %d %v, pixel %d", n, pts, i)
		}
	}
	for _, v := range f.change {
		require.Zero(t, v, "nothing is left over for the next")
	}
}

func TestStrokesOffTheCanvasDoNoHarm(t *testing.T) {
	c := blank(20, 10)
	for _, q := range [][4]float32{{-50, -50, 50, 50}, {-1e7, 3, 1e7, 4}, {5, -1e7, 5, 1e7}, {30, 30, 40, 40}, {3, 3, 3, 3}, {-9, 5, -2, 5}} {
		line(c, render.Pt{X: q[0], Y: q[1]}, render.Pt{X: q[2], Y: q[3]}, 3, inkOf(render.RGB{}), 255)
	}
	assert.Positive(t, covered(c))
}

// fenced returns a canvas, and a look at whether the memory before and behind it
// is as it was.
func fenced(w, h int) (*canvas, func() bool) {
	const fence = 0xA5A5A5A5
	pad := 40 * w
	all := make([]uint32, pad+w*h+pad)
	for i := range all {
		all[i] = fence
	}
	c := &canvas{all[pad : pad+w*h : pad+w*h], w, h}
	c.fill(inkOf(render.RGB{R: 255, G: 255, B: 255}))
	return c, func() bool {
		for i, v := range all {
			if (i < pad || i >= pad+w*h) && v != fence {
				return false
			}
		}
		return true
	}
}

// Strokes and specks are painted without asking at each pixel whether it lies on
// the canvas: wherever they lie, nothing else is touched.
func TestNothingBesideTheCanvasIsTouched(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 8))
	odd := []float32{0, -0.5, 29.999, 30, 50, float32(math.NaN()), float32(math.Inf(1)), float32(math.Inf(-1)), 1e9, -1e9, 3e38}
	number := func(around float32) float32 {
		if r.IntN(12) == 0 {
			return odd[r.IntN(len(odd))]
		}
		return around * (r.Float32()*1.4 - 0.2)
	}
	c, whole := fenced(50, 30)
	s := stamps{key: stampKey{w: 50}}
	black := inkOf(render.RGB{})
	for n := range 40_000 {
		a, b := render.Pt{X: number(50), Y: number(30)}, render.Pt{X: number(50), Y: number(30)}
		line(c, a, b, float32(r.IntN(8))*0.3, black, uint32(r.IntN(256)))
		s.round(0.4+0.4*float32(n%4), 255, black).press(c, []render.Pt{a, b})
		if n%1000 == 999 {
			require.True(t, whole(), "up to %d: %v to %v", n, a, b)
		}
	}
}

// A stroke that reaches over an edge is the part of the same stroke that lies on
// the canvas, though most are painted in another way where they lie within.
func TestStrokesAreCutAtTheEdge(t *testing.T) {
	const w, h, off = 40, 30, 60
	r := rand.New(rand.NewPCG(9, 10))
	black := inkOf(render.RGB{})
	for n := range 3_000 {
		a, b := render.Pt{X: r.Float32()*90 - 25, Y: r.Float32()*80 - 25}, render.Pt{X: r.Float32()*90 - 25, Y: r.Float32()*80 - 25}
		wide := 0.3 + 0.2*float32(n%6)
		small, large := blank(w, h), blank(w+2*off, h+2*off)
		line(small, a, b, wide, black, 230)
		line(large, render.Pt{X: a.X + off, Y: a.Y + off}, render.Pt{X: b.X + off, Y: b.Y + off}, wide, black, 230)
		for i, p := range small.pix {
			require.InDelta(t, large.pix[(i/w+off)*large.w+i%w+off]&255, p&255, 3, "%v to %v, %v wide, pixel %d", a, b, wide, i)
		}
	}
}

func TestSpecksCoverTheirArea(t *testing.T) {
	for _, r := range []float32{0.7, 1, 2.5} {
		for _, f := range []float32{0.1, 0.5, 0.9} {
			c := blank(20, 20)
			s := stamps{key: stampKey{w: 20}}
			s.round(r, 255, inkOf(render.RGB{})).press(c, []render.Pt{{X: 10 + f, Y: 10 + f}})
			assert.InEpsilon(t, math.Pi*float64(r*r), covered(c), 0.05, "r %v at %v", r, f)
		}
	}
}

func TestCanvasSharesItsImage(t *testing.T) {
	img := image.NewRGBA(image.Rect(0, 0, 3, 2))
	c := canvasOf(img)
	c.fill(inkOf(render.RGB{R: 10, G: 20, B: 30}))
	assert.Equal(t, []uint8{10, 20, 30, 255}, img.Pix[20:24])
	c.pix[0] = inkOf(render.RGB{R: 210, G: 120, B: 130}).over(c.pix[0], 128)
	assert.Equal(t, []uint8{110, 70, 80, 255}, img.Pix[:4])
}

func TestOddViewsDoNoHarm(t *testing.T) {
	snap := worked(t, "corn", 6)
	for _, opt := range []render.Options{
		{}, {Width: -3, Height: 5}, {Width: 1, Height: 1}, {Zone: "cellar", Theme: "mauve", Width: 40, Height: 900, Scale: math.NaN()},
		{Width: 300, Height: 200, Rect: render.Rect{X0: 0, Y0: 1.5, X1: 0.002, Y1: 1.501}},
		{Width: 300, Height: 200, Rect: render.Rect{X0: -5000, Y0: -10, X1: 5000, Y1: 10}, Labels: true},
		{Width: 300, Height: 200, Rect: render.Rect{X0: math.NaN(), X1: 1, Y1: 1}, Lit: "no such part"},
	} {
		opt.Air = true
		img, err := Picture(snap, opt)
		require.NoError(t, err)
		assert.True(t, img.Opaque())
	}
}
