package render

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"riddle/sim/setup"
	"riddle/sim/stage/section"
	"riddle/sim/trade/crop"
)

var sizes = [][2]int{{1440, 700}, {820, 500}, {360, 260}, {500, 900}}

func TestFitHoldsTheZoneInTheAspectOfThePicture(t *testing.T) {
	for _, z := range Zones {
		for _, s := range sizes {
			r := Fit(z.Name, s[0], s[1])
			assert.InEpsilon(t, float64(s[0])/float64(s[1]), (r.X1-r.X0)/(r.Y1-r.Y0), 1e-9, "%s %v", z.Name, s)
			for _, q := range []section.Point{{X: z.Rect.X0 + 1e-9, Y: z.Rect.Y0 + 1e-9}, {X: z.Rect.X1 - 1e-9, Y: z.Rect.Y1 - 1e-9}} {
				assert.True(t, r.Contains(q), "%s %v", z.Name, s)
			}
		}
	}
	assert.Equal(t, Fit("whole", 300, 200), Fit("no such zone", 300, 200))
}

func TestZonesAreThoseOfTheCommand(t *testing.T) {
	var names []string
	for _, z := range Zones {
		names = append(names, z.Name)
	}
	assert.Equal(t, []string{"whole", "gap", "concave", "walkers", "upper", "lower", "returns", "tank", "ground"}, names)
	_, ok := FindZone("cellar")
	assert.False(t, ok)
}

func TestViewIsReversible(t *testing.T) {
	v := Options{Zone: "upper", Width: 800, Height: 300}.View()
	for _, q := range []section.Point{{X: 1.2, Y: 0.9}, {X: 3.1, Y: 1.3}} {
		back := v.Metres(v.Px(q))
		assert.InDelta(t, q.X, back.X, 1e-5)
		assert.InDelta(t, q.Y, back.Y, 1e-5)
	}
	up, down := v.Px(section.Point{Y: 1}), v.Px(section.Point{Y: 0})
	assert.Less(t, up.Y, down.Y, "up in the section is up on the picture")
}

func TestEverySettingHasAPart(t *testing.T) {
	set := map[string]bool{}
	ids := map[string]bool{}
	for i := range Parts {
		p := &Parts[i]
		assert.False(t, ids[p.ID], "%s twice", p.ID)
		ids[p.ID] = true
		assert.True(t, Zones[0].Rect.Contains(p.Anchor), p.ID)
		assert.NotEmpty(t, p.Purpose, p.ID)
		for _, name := range p.Sets {
			require.NotNil(t, setup.Find(name), "%s: %s", p.ID, name)
			set[name] = true
		}
	}
	for i := range setup.Fields {
		if f := &setup.Fields[i]; !f.Condition {
			assert.True(t, set[f.Name], "no part obeys %s", f.Name)
		}
	}
}

func TestPartAtFindsWhatIsThere(t *testing.T) {
	wheat, corn := crop.Find("wheat"), crop.Find("corn")
	assert.Equal(t, "cylinder", PartAt(wheat, section.Cylinder.Centre).ID)
	assert.Equal(t, "fan", PartAt(wheat, section.Fan.Centre).ID)
	assert.Equal(t, "upper-sieve", PartAt(wheat, between(section.UpperSieve, 0.8)).ID)
	assert.Equal(t, "reel", PartAt(wheat, section.Reel.Centre).ID)
	if p := PartAt(corn, section.Reel.Centre); p != nil {
		assert.NotEqual(t, "reel", p.ID)
	}
	assert.Nil(t, PartAt(wheat, section.Point{X: 6, Y: 4.5}))
}
