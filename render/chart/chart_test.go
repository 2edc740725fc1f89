package chart

import (
	"bytes"
	"image/color"
	"image/png"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"riddle/render"
	"riddle/sim/ask/study"
	"riddle/sim/read/readout"
	"riddle/sim/setup"
	"riddle/sim/trade/crop"
)

// parabolas stand in for a machine: shoe loss falls and rises with the fan,
// the rest stays; it plugs above 1,250 rpm.
func parabolas(s setup.Setup) (readout.Report, error) {
	r := readout.Report{Crop: s.Crop, State: "running"}
	if s.Settings.Fan > 1250 {
		r.State = "plugged"
		return r, nil
	}
	off := (s.Settings.Fan - 950) / 100
	unthreshed, walker, shoe, foreign, header := 0.3, 0.6, 0.5+off*off, 0.2, 0.8
	processing := unthreshed + walker + shoe
	total := processing + header
	r.Loss = readout.Loss{Header: &header, Unthreshed: &unthreshed, Walker: &walker, Shoe: &shoe, Processing: &processing, Total: &total}
	r.Tank.Broken, r.Tank.Foreign = &unthreshed, &foreign
	return r, nil
}

func fanChart(t *testing.T) Chart {
	t.Helper()
	s, err := setup.Default("wheat")
	require.NoError(t, err)
	w := study.Sweep{Base: s, Field: setup.Find("fan-speed"), From: 650, To: 1350, Points: 15}
	c, err := w.Run(parabolas)
	require.NoError(t, err)
	return Response(w, c, "forecast")
}

// TestResponse: what a teacher needs stands in the chart.
func TestResponse(t *testing.T) {
	c := fanChart(t)
	require.Equal(t, "Fan speed, rpm", c.X.Label)
	require.Contains(t, c.Y.Label, "%")
	names := []string{}
	for _, l := range c.Lines {
		names = append(names, l.Name)
	}
	require.Subset(t, names, []string{"processing loss", "unthreshed", "straw walkers", "shoe", "foreign in tank"})
	require.Equal(t, &Note{X: 950, Y: 1.4, Text: "least of all losses 2.20 % at 950 rpm"}, c.Least)
	require.Equal(t, &Band{From: 820, To: 1000, Name: "usual range 820–1000 rpm"}, c.Band)
	require.Equal(t, "set to 910 rpm", c.Set.Text)
	require.Equal(t, 1300.0, c.Stop.X)
	for _, words := range []string{"Wheat", "upper sieve 16 mm", "MOG ratio 0.9", "grain moisture 13 %"} {
		require.Contains(t, c.Text, words)
	}
	require.NotContains(t, c.Text, "fan speed", "what is varied has no one value")
}

// TestEveryField draws a chart of everything that can be varied, in every
// crop, and no two lines of one look alike but for their colour.
func TestEveryField(t *testing.T) {
	for _, name := range crop.Names() {
		s, err := setup.Default(name)
		require.NoError(t, err)
		for i := range setup.Fields {
			f := &setup.Fields[i]
			if f.Switch() || !f.On(crop.Find(name)) {
				continue
			}
			w := study.Sweep{Base: s, Field: f, From: f.From, To: f.To, Points: 3}
			curve, err := w.Run(parabolas)
			require.NoError(t, err)
			c := Response(w, curve, "forecast")
			require.Greater(t, c.Y.To, c.Y.From)
			for a := range c.Lines {
				for b := range a {
					require.NotEqual(t, c.Lines[a].Style, c.Lines[b].Style, "%s: %s and %s", f.Name, c.Lines[a].Name, c.Lines[b].Name)
				}
			}
		}
	}
}

// TestLeastIsByCost: where a price is put on what is lost and what is taken
// off, the mark stands on the main line where that is least, and says so.
func TestLeastIsByCost(t *testing.T) {
	s, err := setup.Default("oats")
	require.NoError(t, err)
	w := study.Sweep{Base: s, Field: setup.Find("cutting-height"), From: 20, To: 100, Points: 5}
	c, err := w.Run(func(s setup.Setup) (readout.Report, error) {
		h := s.Settings.CuttingHeight
		total, processing, cost := h, 1-h/100, (h-40)*(h-40)/100+7
		return readout.Report{Crop: s.Crop, Loss: readout.Loss{Total: &total, Processing: &processing}, Money: readout.Money{WholeHa: &cost}}, nil
	})
	require.NoError(t, err)
	got := Response(w, c, "forecast")
	require.Equal(t, &Note{X: 40, Y: 40, Text: "least cost 7.00 a hectare at 40 cm"}, got.Least)
	require.GreaterOrEqual(t, got.Y.To, 40.0)
}

// TestLeastStandsOut: on a curve that is flat but for a hundredth nothing is
// marked.
func TestLeastStandsOut(t *testing.T) {
	s, err := setup.Default("wheat")
	require.NoError(t, err)
	w := study.Sweep{Base: s, Field: setup.Find("fan-speed"), From: 900, To: 1000, Points: 11}
	for depth, marked := range map[float64]bool{0.01: false, 0.1: true} {
		c, err := w.Run(func(s setup.Setup) (readout.Report, error) {
			off := (s.Settings.Fan - 950) / 50
			v := 1 + depth*off*off
			return readout.Report{Crop: s.Crop, State: "running", Loss: readout.Loss{Processing: &v, Total: &v}}, nil
		})
		require.NoError(t, err)
		require.Equal(t, marked, Response(w, c, "forecast").Least != nil)
	}
}

// TestDraw: the picture has its size, holds the lines where their values lie,
// and says "forecast" in every theme without a failure.
func TestDraw(t *testing.T) {
	for _, theme := range render.Themes {
		c := fanChart(t)
		c.Least, c.Set, c.Lines = nil, nil, c.Lines[:1] // one line alone
		img, err := Draw(c, Size{Theme: theme, Width: 800})
		require.NoError(t, err)
		require.Equal(t, 800, img.Rect.Dx())
		require.Equal(t, 500, img.Rect.Dy())
		look, _ := render.FindTheme(theme)
		f := &frame{c: c, u: 0.5, x0: 59, y0: 89, x1: 607.5, y1: 386}
		ink := look.Colours[render.Ink]
		for _, p := range c.Lines[0].Points {
			if p.Gap || p.Y > c.Y.To {
				continue
			}
			q := f.at(p.X, p.Y)
			require.Equal(t, color.RGBA{ink.R, ink.G, ink.B, 255}, img.RGBAAt(int(q.x), int(q.y)), "%s: %v", theme, p)
		}
	}
	var file bytes.Buffer
	require.NoError(t, PNG(&file, fanChart(t), Size{Theme: "paper", Width: 1600}))
	img, err := png.Decode(&file)
	require.NoError(t, err)
	require.Equal(t, 1000, img.Bounds().Dy())
}

// TestContrast: lines and words stand out against the ground by at least
// 3 : 1, the least that WCAG 2.2 asks of graphics and large type.
func TestContrast(t *testing.T) {
	for _, name := range render.Themes {
		theme, _ := render.FindTheme(name)
		for _, s := range []show{processing, unthreshed, walker, shoe, header, broken, foreign, returned, either} {
			for _, ground := range []render.Tone{render.Paper, render.Sheet} {
				require.GreaterOrEqual(t, contrast(theme.Colours[s.tone], theme.Colours[ground]), 3.0, "%s: %s", name, s.Name)
			}
		}
	}
}

// contrast as WCAG 2.2 defines it.
func contrast(a, b render.RGB) float64 {
	la, lb := luminance(a), luminance(b)
	return (max(la, lb) + 0.05) / (min(la, lb) + 0.05)
}

func luminance(c render.RGB) float64 {
	linear := func(v uint8) float64 {
		s := float64(v) / 255
		if s <= 0.04045 {
			return s / 12.92
		}
		return math.Pow((s+0.055)/1.055, 2.4)
	}
	return 0.2126*linear(c.R) + 0.7152*linear(c.G) + 0.0722*linear(c.B)
}

// TestTicks are round and within the ends, as a hand would set them.
func TestTicks(t *testing.T) {
	require.Equal(t, []float64{600, 800, 1000, 1200, 1400}, ticks(600, 1400, 5))
	require.InDeltaSlice(t, []float64{0, 0.1, 0.2, 0.3, 0.4}, ticks(0, 0.4, 5), 1e-12)
	require.Equal(t, []float64{0, 5, 10, 15}, ticks(-2, 16, 5))
	require.Empty(t, ticks(3, 3, 5))
	require.Equal(t, "0", number(-0.0000001))
	require.Equal(t, 4.0, top(3.7))
	require.Equal(t, 1.0, top(0))
}

// TestDashes keeps the lengths: a way of 100 under 10 on, 5 off is 70 long in
// seven pieces, round a corner too.
func TestDashes(t *testing.T) {
	for _, way := range [][]pt{{{0, 0}, {100, 0}}, {{0, 0}, {37, 0}, {37, 63}}} {
		parts, sum := dashes(way, []float32{10, 5}), 0.0
		for _, p := range parts {
			for i := 1; i < len(p); i++ {
				sum += math.Hypot(float64(p[i].x-p[i-1].x), float64(p[i].y-p[i-1].y))
			}
		}
		require.Len(t, parts, 7)
		require.InDelta(t, 70, sum, 1e-3)
	}
}

// TestNamesKeepApart: six names that all end at one place lie under another
// within the chart.
func TestNamesKeepApart(t *testing.T) {
	f := &frame{u: 1, y0: 100, y1: 700}
	list := make([]label, 6)
	for i := range list {
		list[i].end.y = 690
	}
	f.apart(list)
	for i := range list {
		require.LessOrEqual(t, list[i].y, f.y1)
		if i > 0 {
			require.GreaterOrEqual(t, list[i].y-list[i-1].y, float32(nameSize))
		}
	}
}

// TestWrap loses no word.
func TestWrap(t *testing.T) {
	theme, _ := render.FindTheme("paper")
	p, err := newPen(10, 10, theme)
	require.NoError(t, err)
	f := &frame{pen: p, u: 1}
	text := "Wheat: ground speed 5.2 km/h, cylinder speed 860 rpm, concave clearance 10 mm"
	rows := f.wrap(text, face{20, false}, 200)
	require.Greater(t, len(rows), 2)
	require.Equal(t, text, strings.Join(rows, " "))
	for _, r := range rows {
		require.LessOrEqual(t, p.wide(r, face{20, false}), float32(200))
	}
}
