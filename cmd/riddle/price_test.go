package main

import (
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/require"

	"riddle/sim/read/readout"
)

// TestPrice: a bushel of 60 lb is 27.2155 kg, so 8 a bushel are 293.95 a tonne,
// and the price a tonne is read back the same; what loss costs follows it.
func TestPrice(t *testing.T) {
	run := func(args ...string) readout.Money {
		code, out, errs := riddle(append([]string{"run", "--crop", "wheat", "--warmup", "14", "--seconds", "1", "--json"}, args...)...)
		require.Zero(t, code, errs)
		var r readout.Report
		require.NoError(t, json.Unmarshal([]byte(out), &r))
		return r.Money
	}
	usual, dear, tonne := run(), run("--price", "8"), run("--price", "293.95/t")
	require.InDelta(t, 293.95, *dear.PerTonne, 0.01)
	require.InDelta(t, 8, *tonne.PerBushel, 0.001)
	require.Equal(t, "as given", dear.AsOf)
	require.InEpsilon(t, *usual.LossPerHa*8 / *usual.PerBushel, *dear.LossPerHa, 1e-9)
	require.InEpsilon(t, *dear.LossPerHa, *tonne.LossPerHa, 1e-4)
}
