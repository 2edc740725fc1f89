package main

import (
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/require"

	"riddle/sim/read/readout"
)

// A run of a situation with a field follows it, says so beside the report, and
// leaves what is given by hand. The wheels are on the side hill of the rolling
// ground after some 27 s.
func TestRunFollowsTheField(t *testing.T) {
	slope := func(args ...string) (float64, string) {
		code, out, errs := riddle(append([]string{"run", "--scenario", "soybeans-rolling-ground", "--warmup", "26", "--seconds", "2", "--json"}, args...)...)
		require.Zero(t, code, errs)
		var r readout.Report
		require.NoError(t, json.Unmarshal([]byte(out), &r))
		return r.Conditions["side_slope_deg"].(float64), errs
	}
	on, said := slope()
	require.Greater(t, on, 3.0)
	require.Contains(t, said, "change on the way")
	by, _ := slope("--condition", "side-slope=-2")
	require.Equal(t, -2.0, by)
}
