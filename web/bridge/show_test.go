package bridge

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"riddle/render"
	"riddle/sim/setup"
	"riddle/sim/stage/flow"
	"riddle/sim/trade/crop"
	"riddle/sim/trade/quantity"
)

func TestEverySituationAndCropCanBeChosen(t *testing.T) {
	for _, scene := range situations() {
		s := NewSession()
		r := send(t, s, Command{Do: "situation", Name: scene.Name})
		require.Empty(t, r.Error, scene.Name)
		require.Equal(t, scene.Crop, r.Setup.Crop)
		require.Contains(t, encode(r.Setup.Caption), "Tarn Hollow, ")
		require.NotEmpty(t, Words()["situation."+scene.Name+".shows"])
	}
	require.GreaterOrEqual(t, len(situations()), 8)
	for _, name := range crop.Names() {
		s := NewSession()
		r := send(t, s, Command{Do: "crop", Name: name})
		require.Empty(t, r.Error, name)
		require.Equal(t, name, r.Setup.Crop)
		require.Equal(t, "slice", r.Setup.Slice.Key)
	}
}

// Each setting stands under a part of the machine and leads to a view of it.
func TestSettingsStandUnderParts(t *testing.T) {
	for _, name := range crop.Names() {
		c := crop.Find(name)
		set, err := setup.Default(name)
		require.NoError(t, err)
		list := controls(&set, &set, quantity.Metric)
		require.Len(t, list, len(setup.Fields))
		place := -10.0
		for _, k := range list {
			if k.Condition {
				require.Empty(t, k.Part)
				continue
			}
			_, ok := render.FindZone(k.Zone)
			require.True(t, ok && k.Zone != "", k.Name)
			if !k.Has {
				continue
			}
			p := render.FindPart(k.Part)
			require.NotNil(t, p, "%s in %s", k.Name, name)
			require.True(t, p.On(c))
			for _, b := range k.Usual {
				require.True(t, k.From <= b.From && b.From < b.To && b.To <= k.To, k.Name)
			}
			if k.Stand == "settings" && !strings.HasPrefix(k.Name, "cutting") {
				require.GreaterOrEqual(t, p.Anchor.X, place-0.5, "%s stands before what the crop meets first", k.Name)
				place = p.Anchor.X
			}
		}
	}
}

// The legend tells the kinds of a crop apart by shape, not by colour alone.
func TestLegendTellsKindsApart(t *testing.T) {
	for _, name := range crop.Names() {
		c := crop.Find(name)
		list := legend(c)
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
			require.Contains(t, encode(list[flow.Chaff].Dot), fmt.Sprint(n))
		}
	}
}

// What is held of the last map is what would be made anew, whatever is changed.
func TestHeldMapIsTheRightOne(t *testing.T) {
	s := NewSession()
	var held mapper
	words := render.Words{"fan": "Gebläse"}
	base := render.Options{Zone: "whole", Theme: "paper", Width: 1200, Height: 560, Scale: 1}
	check := func(change func(*render.Options)) {
		t.Helper()
		opt := base
		change(&opt)
		require.Equal(t, mapOf(s.Snapshot(), opt), held.mapOf(s.Snapshot(), opt))
	}
	for _, crop := range []string{"wheat", "corn", "wheat"} {
		require.NoError(t, s.setCrop(crop))
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

// In the units of the United States a control stops at values as the trade says
// them, reads fractions with and without their unit, and leaves alone what was
// set in metric. Values by the definition of inch, foot and mile.
func TestCustomaryControls(t *testing.T) {
	s := NewSession()
	find := func(name string) Control {
		for _, c := range s.Setup().Controls {
			if c.Name == name {
				return c
			}
		}
		t.Fatal(name)
		return Control{}
	}
	send(t, s, Command{Do: "set", Name: "upper-sieve", Text: "16"})
	before := s.machine.Setup()
	send(t, s, Command{Do: "units", Name: "us"})
	require.Equal(t, before, s.machine.Setup(), "16 mm are not 5/8 in")
	require.Equal(t, "16 mm", find("upper-sieve").Held)
	for _, c := range []struct {
		name     string
		unit     string
		step     float64
		parts    int
		from, to float64 // the outermost steps within the legal range
	}{
		{"ground-speed", "mph", 0.1, 0, 0.4, 8.6},                // 0.31 to 8.70 mph; 0.5 km/h is just above three tenths
		{"concave-clearance", "in", 1.0 / 16, 16, 0.125, 2.3125}, // 0.079 to 2.362 in
		{"upper-sieve", "in", 1.0 / 32, 32, 0.09375, 0.9375},     // 0.0787 to 0.9449 in
		{"cutting-height", "in", 0.5, 2, 1.5, 39},                // 1.18 to 39.4 in
		{"header-width", "ft", 1, 0, 4, 49},                      // 3.28 to 49.2 ft
		{"yield", "bu/ac", 1, 0, 5, 371},                         // 4.46 to 371.7 bu/ac of wheat
	} {
		got := find(c.name)
		require.Equal(t, c.unit, got.Unit, c.name)
		require.Equal(t, c.parts, got.Parts, c.name)
		require.InDelta(t, c.step, got.Step, 1e-12, c.name)
		require.InDelta(t, c.from, got.From, 1e-9, c.name)
		require.InDelta(t, c.to, got.To, 1e-9, c.name)
		require.InDelta(t, math.Round(got.From/got.Step), got.From/got.Step, 1e-9, "it begins on a step: %s", c.name)
	}
	for text, mm := range map[string]float64{"3/8": 9.525, "3/8 in": 9.525, "1 1/4in": 31.75, "1-1/4": 31.75, "0.5": 12.7, "10 mm": 10} {
		send(t, s, Command{Do: "set", Name: "concave-clearance", Text: text})
		require.InDelta(t, mm, s.machine.Setup().Settings.Clearance, 1e-12, text)
	}
	send(t, s, Command{Do: "set", Name: "ground-speed", Text: "3.2"})
	require.InDelta(t, 5.1499008, s.machine.Setup().Settings.GroundSpeed, 1e-12)
	pace := s.valueOf(setup.Find("ground-speed"), 5.1499008).(Q)
	require.InDelta(t, 3.2, *pace.V, 1e-12)
	require.Equal(t, 1, pace.D)
	gap := s.valueOf(setup.Find("upper-sieve"), 9.525).(Q)
	require.InDelta(t, 0.375, *gap.V, 1e-12)
	require.Equal(t, 32, gap.Parts)
}
