package bridge

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"riddle/render"
	"riddle/sim/crop"
	"riddle/sim/flow"
	"riddle/sim/quantity"
	"riddle/sim/setup"
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
