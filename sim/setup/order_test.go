package setup

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// The crop meets each setting that works on it once; what it does not meet on
// its way keeps the order of the table.
func TestInCropOrderTellsEveryFieldOnce(t *testing.T) {
	list := InCropOrder()
	require.Len(t, list, len(Fields))
	seen, last := map[string]bool{}, 0
	for i, f := range list {
		require.False(t, seen[f.Name], f.Name)
		seen[f.Name] = true
		if f.Meets != 0 {
			require.Equal(t, last+1, f.Meets, f.Name)
			require.Equal(t, i, last, f.Name)
			last = f.Meets
		}
		require.False(t, f.Condition && f.Meets != 0, "%s is no setting", f.Name)
	}
	require.Equal(t, "reel-index", list[0].Name, "the header is what the crop meets first")
	require.Equal(t, "header-width", list[len(list)-1].Name)
}

// Whatever a setting has to be judged with is a setting too, and not itself.
func TestCouplesAreSettings(t *testing.T) {
	for i := range Fields {
		for _, name := range Fields[i].Couples {
			other := Find(name)
			require.NotNil(t, other, "%s: %s", Fields[i].Name, name)
			require.False(t, other.Condition || other == &Fields[i], name)
		}
	}
}
