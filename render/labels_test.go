package render

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"riddle/sim"
	"riddle/sim/crop"
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

func checkLabels(t *testing.T, ls []Label, opt Options) {
	t.Helper()
	for i, a := range ls {
		require.True(t, a.At.X >= 0 && a.At.Y >= 0 && a.At.X+a.Wide <= float32(opt.Width) && a.At.Y+a.Size <= float32(opt.Height),
			"%v: %s lies outside: %+v", opt, a.Text, a)
		for _, b := range ls[:i] {
			apart := a.At.X+a.Wide <= b.At.X || b.At.X+b.Wide <= a.At.X || a.At.Y+a.Size <= b.At.Y || b.At.Y+b.Size <= a.At.Y
			require.True(t, apart, "%v: %s covers %s", opt, a.Text, b.Text)
			if (a.From.Y < a.To.Y) == (b.From.Y < b.To.Y) { // on the same edge
				require.False(t, meet(&a, &b), "%v: the leads of %s and %s cross", opt, a.Text, b.Text)
			}
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
