package render

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"riddle/sim"
	"riddle/sim/trade/crop"
)

func TestLabelsKeepClearOfEachOther(t *testing.T) {
	for _, name := range []string{"wheat", "corn"} {
		snap := &sim.Snapshot{Crop: crop.Find(name)}
		for _, z := range Zones {
			for _, theme := range Themes {
				for _, s := range sizes {
					opt := Options{Zone: z.Name, Theme: theme, Width: s[0], Height: s[1]}
					checkLabels(t, Labels(snap, opt), opt)
				}
			}
		}
	}
}

// checkLabels: no name lies over the picture, in which the parts are, nor over
// another name; no lead runs through a name or across another lead.
func checkLabels(t *testing.T, ls []Label, opt Options) {
	t.Helper()
	opt.Labels = true
	margin := opt.View().Margin
	for i, a := range ls {
		require.True(t, a.At.X >= 0 && a.At.Y >= 0 && a.At.X+a.Wide <= float32(opt.Width) && a.At.Y+a.Size <= float32(opt.Height),
			"%v: %s lies outside: %+v", opt, a.Text, a)
		if margin > 0 {
			require.True(t, a.At.Y+a.Size <= margin || a.At.Y >= float32(opt.Height)-margin, "%v: %s lies over the picture", opt, a.Text)
		}
		for _, b := range ls {
			if a.Key != b.Key {
				require.False(t, through(&a, &b), "%v: the lead of %s runs through %s", opt, a.Text, b.Text)
			}
		}
		for _, b := range ls[:i] {
			apart := a.At.X+a.Wide <= b.At.X || b.At.X+b.Wide <= a.At.X || a.At.Y+a.Size <= b.At.Y || b.At.Y+b.Size <= a.At.Y
			require.True(t, apart, "%v: %s covers %s", opt, a.Text, b.Text)
			require.False(t, meet(&a, &b), "%v: the leads of %s and %s cross", opt, a.Text, b.Text)
		}
	}
}

func TestTheWholeViewNamesEveryPart(t *testing.T) {
	for _, name := range crop.Names() {
		c := crop.Find(name)
		named := map[string]bool{}
		for _, l := range Labels(&sim.Snapshot{Crop: c}, Options{Zone: "whole", Width: 1440, Height: 700}) {
			named[l.Key] = true
		}
		for i := range Parts {
			assert.Equal(t, Parts[i].On(c), named[Parts[i].ID], "%s: %s", name, Parts[i].ID)
		}
	}
}

// through reports whether the lead of a runs through the words of b.
func through(a, b *Label) bool {
	corner := func(x, y float32) Pt { return Pt{b.At.X + x*b.Wide, b.At.Y + y*b.Size} }
	for _, side := range [...]Label{{From: corner(0, 0), To: corner(1, 0)}, {From: corner(0, 1), To: corner(1, 1)}, {From: corner(0, 0), To: corner(0, 1)}, {From: corner(1, 0), To: corner(1, 1)}} {
		if meet(a, &side) {
			return true
		}
	}
	return false
}

// On a projector's 1,920 by 1,080 the smallest name is at least a forty-fifth
// of the height.
func TestNamesAreReadFromTheLastRow(t *testing.T) {
	for _, z := range Zones {
		for _, l := range Labels(&sim.Snapshot{Crop: crop.Find("wheat")}, Options{Zone: z.Name, Theme: "projector", Width: 1920, Height: 1080}) {
			assert.GreaterOrEqual(t, l.Size, float32(1080)/45, "%s: %s", z.Name, l.Text)
		}
	}
}

// Leads keep out of the flow as far as they can: in the whole view none of a
// part's own ways in is left that would cross less, and few cross any.
func TestLeadsKeepOutOfTheStraw(t *testing.T) {
	opt := Options{Zone: "whole", Width: 1440, Height: 780, Labels: true}
	on := shelf{ways: opt.View().flowWays()}
	for _, l := range Labels(&sim.Snapshot{Crop: crop.Find("wheat")}, opt) {
		assert.LessOrEqual(t, on.crossed(&l), float32(12), "%s crosses the straw on the walkers, or as much", l.Text)
	}
}

// Parts to which a page itself leads take no room among the names.
func TestUnnamedPartsTakeNoRoom(t *testing.T) {
	led := []string{"reel", "cutter-bar", "header-auger", "cylinder", "concave", "fan", "pre-sieve", "upper-sieve", "lower-sieve"}
	for _, w := range []int{1280, 1888} {
		for _, theme := range Themes {
			opt := Options{Zone: "whole", Theme: theme, Width: w, Height: w * 44 / 100, Unnamed: &led}
			labels := Labels(&sim.Snapshot{Crop: crop.Find("wheat")}, opt)
			checkLabels(t, labels, opt)
			for _, l := range labels {
				assert.NotContains(t, led, l.Key)
			}
			all := 0
			for i := range Parts {
				if Parts[i].On(crop.Find("wheat")) {
					all++
				}
			}
			assert.Len(t, labels, all-len(led), "%s %d", theme, w)
		}
	}
}
