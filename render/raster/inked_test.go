package raster

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"riddle/render"
	"riddle/sim/trade/crop"
)

// channels returns red, green, blue and alpha of a pixel.
func channels(p uint32) [4]int {
	return [4]int{int(p & 255), int(p >> 8 & 255), int(p >> 16 & 255), int(p >> 24)}
}

// Two veils in one do what they do one after the other, and leave what was
// opaque opaque.
func TestAVeilOnAnotherIsBoth(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	hue := func() ink { return inkOf(render.RGB{R: uint8(r.Uint32()), G: uint8(r.Uint32()), B: uint8(r.Uint32())}) }
	for range 10_000 {
		v, w, p := hue().veil(r.Uint64N(257)), hue().veil(r.Uint64N(257)), hue().solid()
		want, got := channels(v.over(w.over(p))), channels(v.on(w).over(p))
		for i := range want {
			require.InDelta(t, want[i], got[i], 2)
		}
		require.Equal(t, 255, got[3])
	}
}

// A figure that reaches over an edge is the part of the same figure that lies on
// the canvas.
func TestFiguresAreCutAtTheEdge(t *testing.T) {
	const w, h, off = 24, 18, 40
	v := render.View{K: 2500, Scale: 1, W: w}
	black, paper := inkOf(render.RGB{}), inkOf(render.RGB{R: 200, G: 210, B: 220})
	for _, form := range []render.Form{render.KernelForm, render.PieceForm, render.FlakeForm} {
		for _, q := range [][2]float32{{0.2, 9}, {23.6, 9}, {12, 0.4}, {12, 17.8}, {-3, -2}, {25, 19}, {-90, 4}} {
			m := render.Glyph{X: q[0], Y: q[1], Form: form, Turn: 37, Grade: 1, Alpha: 255}
			var s stamps
			s.prepare(crop.Find("wheat"), v, paper)
			c := blank(w, h)
			st, x, y := s.figure(&m, black)
			st.lay(c, x, y)

			v := v
			v.W = w + 2*off
			s.prepare(crop.Find("wheat"), v, paper)
			m.X, m.Y = m.X+off, m.Y+off
			large := blank(w+2*off, h+2*off)
			st, x, y = s.figure(&m, black)
			st.clipped(large, x, y) // whole, as far as it lies on it
			for i, p := range c.pix {
				require.Equal(t, large.pix[(i/w+off)*large.w+i%w+off], p, "form %d at %v, pixel %d", form, q, i)
			}
		}
	}
}

// A lens that follows a dot moves with every picture: what was made ready stays.
func TestFiguresOutliveAMoveOfTheLens(t *testing.T) {
	snap := worked(t, "wheat", 8)
	var p Painter
	opt := render.Options{Width: 400, Height: 200, Rect: render.Rect{X0: 1, Y0: 0.9, X1: 1.6, Y1: 1.2}}
	p.Paint(snap, opt)
	require.NotEmpty(t, p.stamps.looks)
	kept := p.stamps.kept
	require.Positive(t, kept)
	opt.Rect.X0, opt.Rect.X1 = opt.Rect.X0+0.1237, opt.Rect.X1+0.1237 // after which the scale differs in its last digits
	made := p.stamps.looks[0]
	p.Paint(snap, opt)
	assert.GreaterOrEqual(t, p.stamps.kept, kept)
	for i, at := range made.at[1] {
		for j := range at {
			if at[j] != nil {
				assert.Same(t, at[j], p.stamps.looks[0].at[1][i][j])
			}
		}
	}
	paper, _ := render.FindTheme("paper")
	opt.Theme = "night"
	p.Paint(snap, opt)
	inks := map[ink]bool{}
	for _, l := range p.stamps.looks {
		inks[l.ink] = true
	}
	assert.NotContains(t, inks, inkOf(paper.Colours[render.GrainTone]), "another theme has inks of its own")
}

// However close the view, what is kept stays within bounds.
func TestFiguresAreGivenUpBeforeTheyFillMemory(t *testing.T) {
	var s stamps
	s.prepare(crop.Find("corn"), render.View{K: 9000, Scale: 1, W: 1000}, inkOf(render.RGB{}))
	largest := 0
	for turn := range 256 {
		for grade := range uint8(render.Grades) {
			m := render.Glyph{X: 500.3, Y: 500.3, Form: render.PieceForm, Turn: uint8(turn), Grade: grade, Alpha: 255}
			st, _, _ := s.figure(&m, inkOf(render.RGB{R: 9}))
			largest = max(largest, len(st.spots))
			require.LessOrEqual(t, s.kept, maxSpots+largest)
		}
	}
	require.Greater(t, largest*32*render.Grades, maxSpots, "all of them would not have fitted")
}
