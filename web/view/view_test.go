package view

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"riddle/render"
	"riddle/sim/stage/flow"
	"riddle/sim/stage/section"
	"riddle/sim/trade/crop"
	"riddle/web/runner"
)

// The legend tells the kinds of a crop apart by shape, not by colour alone.
func TestLegendTellsKindsApart(t *testing.T) {
	for _, name := range crop.Names() {
		c := crop.Find(name)
		list := Legend(c)
		require.Len(t, list, int(flow.Kinds))
		shapes := map[string]string{}
		for _, k := range list {
			require.NotEmpty(t, k.Stroke, "%s %s", name, k.ID)
			require.Positive(t, k.Size)
			text := fmt.Sprint(k.Stroke)
			require.Empty(t, shapes[text], "%s: %s looks like it", name, k.ID)
			shapes[text] = k.ID
		}
		if n := c.Chaff.Pieces; n > 1 {
			require.Contains(t, fmt.Sprint(list[flow.Chaff].Dot.With), fmt.Sprint(n))
		}
	}
}

// What is held of the last map is what would be made anew, whatever is changed.
func TestHeldMapIsTheRightOne(t *testing.T) {
	r := runner.New()
	var held Mapper
	words := render.Words{"fan": "Gebläse"}
	base := render.Options{Zone: "whole", Theme: "paper", Width: 1200, Height: 560, Scale: 1}
	check := func(change func(*render.Options)) {
		t.Helper()
		opt := base
		change(&opt)
		require.Equal(t, mapOf(&r.Snap, opt), held.Map(&r.Snap, opt))
	}
	for _, crop := range []string{"wheat", "corn", "wheat"} {
		require.NoError(t, r.Crop(crop))
		check(func(*render.Options) {})
		check(func(o *render.Options) { o.Air, o.Lit, o.Rotors = true, "fan", 0.5 })
		check(func(o *render.Options) { o.Words = &words })
		check(func(o *render.Options) { o.Labels = true })
		check(func(o *render.Options) { o.Zone = "walkers" })
		check(func(o *render.Options) { o.Rect = render.Rect{X0: 0, Y0: 1, X1: 2, Y1: 2} })
		check(func(o *render.Options) { o.Theme = "projector" })
		check(func(o *render.Options) { o.Width, o.Scale = 2400, 2 })
	}
}

func TestTheEyeKeepsItsMiddleInTheMachine(t *testing.T) {
	var e Eye
	now := render.Zones[0].Rect
	for range 30 {
		require.NoError(t, e.Move(Move{Zoom: 1.5, At: &Spot{0.9, 0.1}, DX: 0.4, DY: 0.3}, now))
		now = e.Frame
		whole, x, y := render.Zones[0].Rect, (now.X0+now.X1)/2, (now.Y0+now.Y1)/2
		require.True(t, x > whole.X0-1e-9 && x < whole.X1+1e-9 && y > whole.Y0-1e-9 && y < whole.Y1+1e-9, "%v", now)
		assert.GreaterOrEqual(t, now.X1-now.X0, nearest-1e-9)
	}
	// The spot under the pointer stays where it is while zooming.
	before := render.Rect{X0: 0, Y0: 1, X1: 2, Y1: 2}
	require.NoError(t, e.Move(Move{Zoom: 2, At: &Spot{0.25, 0.5}}, before))
	assert.InDelta(t, 0.5, e.Frame.X0+0.25*(e.Frame.X1-e.Frame.X0), 1e-9)
	for _, bad := range []float64{math.NaN(), math.Inf(1), 1e9} {
		assert.Error(t, e.Move(Move{DX: bad}, before))
	}
	require.NoError(t, e.Move(Move{Home: true}, before))
	assert.True(t, e.Frame.Empty())
}

func TestTheLensGoesWithTheKernel(t *testing.T) {
	var e Eye
	assert.True(t, e.Follow(section.Point{X: 1, Y: 1}, 2))
	assert.False(t, e.Follow(section.Point{X: 1.1, Y: 1}, 2), "it stays while the kernel is in its middle")
	assert.True(t, e.Follow(section.Point{X: 1.5, Y: 1}, 2))
	assert.True(t, e.Frame.Contains(section.Point{X: 1.5, Y: 1}))
}

// A rotor that is drawn at a share of its turning goes on by less than a
// quarter of the way between two bars from picture to picture.
func TestRotorsDoNotStrobe(t *testing.T) {
	for _, speed := range runner.Speeds {
		const rpm, bars, pictures = 1000.0, section.RaspBars, 30.0
		turned := rpm / 60 * speed * RotorShare(speed) / pictures * bars // of the way between two bars
		assert.LessOrEqual(t, turned, 0.3, "×%v", speed)
		assert.Equal(t, RotorShare(speed) < 1, Rotors(speed) != nil, "it is said")
	}
}
