package readout

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// Two readings of 1 ± 0.3 and 1 + d ± 0.4 lie apart beyond three times 0.5, the
// root of the sum of the squares.
func TestApartIsBeyondThreeErrorsOfTheDifference(t *testing.T) {
	v := func(x float64) *float64 { return &x }
	for d, want := range map[float64]bool{0: false, 1.49: false, 1.51: true, -1.49: false, -1.51: true} {
		apart, told := Apart(v(1), v(0.3), v(1+d), v(0.4))
		require.True(t, told)
		require.Equal(t, want, apart, "%v", d)
	}
	for i := range 4 {
		given := [...]*float64{v(1), v(0.1), v(9), v(0.1)}
		given[i] = nil
		apart, told := Apart(given[0], given[1], given[2], given[3])
		require.False(t, apart || told)
	}
}
