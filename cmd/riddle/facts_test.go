package main

import (
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/require"
)

// Programs read of every check its class, one of four; people read first what
// comes out of the machine.
func TestFactsSayTheirClass(t *testing.T) {
	if testing.Short() {
		t.Skip("computes every check")
	}
	code, out, errs := riddle("facts", "--json")
	require.Zero(t, code, errs)
	var list []struct{ ID, Class string }
	require.NoError(t, json.Unmarshal([]byte(out), &list))
	found := map[string]int{}
	for _, f := range list {
		require.Contains(t, []string{"arithmetic", "input", "calibrated", "emergent"}, f.Class, f.ID)
		found[f.Class]++
	}
	require.Len(t, found, 4)
	require.GreaterOrEqual(t, found["emergent"], 120)
}
