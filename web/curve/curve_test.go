package curve

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestCurveBeginsWithItsWholeRange(t *testing.T) {
	for _, n := range []int{1, 2, 7, 12} {
		list := coarseFirst(n)
		require.Equal(t, []int{0, n}, list[:2])
		slices.Sort(list)
		for i := range n + 1 {
			require.Equal(t, i, list[i])
		}
	}
}
