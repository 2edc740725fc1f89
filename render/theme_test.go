package render

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// luminance is the relative luminance of sRGB, as WCAG 2.2 defines it.
func luminance(c RGB) float64 {
	part := func(v uint8) float64 {
		x := float64(v) / 255
		if x <= 0.04045 {
			return x / 12.92
		}
		return math.Pow((x+0.055)/1.055, 2.4)
	}
	return 0.2126*part(c.R) + 0.7152*part(c.G) + 0.0722*part(c.B)
}

// contrast is the contrast ratio of WCAG 2.2.
func contrast(a, b RGB) float64 {
	x, y := luminance(a), luminance(b)
	return (max(x, y) + 0.05) / (min(x, y) + 0.05)
}

var kindsOfTone = []Tone{ChaffTone, StrawTone, GrainTone, CobTone, WeedTone, PieceTone, BrokenTone}

func TestContrastFormula(t *testing.T) {
	assert.InDelta(t, 21, contrast(RGB{0, 0, 0}, RGB{255, 255, 255}), 1e-9)
	assert.InDelta(t, 4.54, contrast(RGB{0x76, 0x76, 0x76}, RGB{255, 255, 255}), 0.01) // the grey known to just pass AA on white
}

func TestInkStandsOutFromPaper(t *testing.T) {
	for _, name := range Themes {
		theme, ok := FindTheme(name)
		require.True(t, ok, name)
		c := theme.Colours
		for _, ground := range []Tone{Paper, Inside} {
			assert.GreaterOrEqual(t, contrast(c[Ink], c[ground]), 4.5, "%s: words", name)
			assert.GreaterOrEqual(t, contrast(c[Line], c[ground]), 3.0, "%s: lines", name)
			for _, k := range append(kindsOfTone, AirTone) {
				assert.GreaterOrEqual(t, contrast(c[k], c[ground]), 3.0, "%s: tone %d on %d", name, k, ground)
			}
		}
	}
}

func TestKindsPartInGrey(t *testing.T) {
	for _, name := range Themes {
		theme, _ := FindTheme(name)
		var steps []float64
		for _, k := range kindsOfTone {
			steps = append(steps, contrast(theme.Colours[k], theme.Colours[Paper]))
		}
		slices.Sort(steps)
		for i := 1; i < len(steps); i++ {
			assert.Greater(t, steps[i]/steps[i-1], 1.12, "%s: step %d of the ladder %.3v", name, i, steps)
		}
	}
}
