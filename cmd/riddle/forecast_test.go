package main

import (
	"encoding/json"
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"riddle/sim/read/readout"
)

// TestForecast gives the keys of a run, null where nothing was counted.
func TestForecast(t *testing.T) {
	t.Parallel()
	code, out, errs := riddle(strings.Fields("forecast --crop soybeans --set fan-speed=1050 --json")...)
	require.Zero(t, code, errs)
	var got map[string]any
	require.NoError(t, json.Unmarshal([]byte(out), &got))
	for _, key := range []string{"ledger", "digest", "particles_peak", "tick_hz", "sim_s_per_wall_s"} {
		v, there := got[key]
		require.True(t, there, key)
		require.Nil(t, v, key)
	}
	require.Equal(t, "riddle.report/1", got["schema"])
	require.Equal(t, 1050.0, got["settings"].(map[string]any)["fan_speed_rpm"])
	require.Positive(t, got["loss_pct"].(map[string]any)["walker"])
	code, out, _ = riddle(strings.Fields("forecast --crop soybeans")...)
	require.Zero(t, code)
	require.Contains(t, out, "Soybeans")
}

// TestSweepByForecast: the table for people names its columns' sense and the
// least loss; each point is the forecast of its setup.
func TestSweepByForecast(t *testing.T) {
	t.Parallel()
	args := "sweep --crop corn --vary fan-speed=950:1150:3 --forecast"
	code, out, errs := riddle(strings.Fields(args + " --json")...)
	require.Zero(t, code, errs)
	var curve struct {
		Points []struct{ Report json.RawMessage }
	}
	require.NoError(t, json.Unmarshal([]byte(out), &curve))
	require.Len(t, curve.Points, 3)
	code, alone, _ := riddle(strings.Fields("forecast --crop corn --set fan-speed=1050 --json")...)
	require.Zero(t, code)
	require.JSONEq(t, alone, string(curve.Points[1].Report))
	code, out, _ = riddle(strings.Fields(args)...)
	require.Zero(t, code)
	for _, words := range []string{"forecast", "rpm", "950", "1150", "processing", "% of the tank sample", "Least cost: "} {
		require.Contains(t, out, words)
	}
}

// TestTune: one setting free, the rest held. What it found is what the
// forecast gives at the settings it names, and not dearer than before.
func TestTune(t *testing.T) {
	t.Parallel()
	args := strings.Fields("tune --crop wheat --set fan-speed=1000 --price 5")
	for _, name := range []string{"cylinder-speed", "concave-clearance", "pre-sieve", "upper-sieve", "lower-sieve", "reel-index", "cutting-height"} {
		args = append(args, "--hold", name)
	}
	code, out, errs := riddle(append(args, "--json")...)
	require.Zero(t, code, errs)
	var got struct {
		Before, After json.RawMessage
		Settings      map[string]any
		Cost          struct {
			Unit          string
			Before, After struct{ Loss, Discount, Breakage, Total float64 }
		}
		Steps []struct {
			Setting, Unit, Why string
			From, To           float64
			Before             float64 `json:"cost_before"`
			After              float64 `json:"cost_after"`
		}
		Evaluations int
	}
	d := json.NewDecoder(strings.NewReader(out))
	d.DisallowUnknownFields()
	require.NoError(t, d.Decode(&got))
	require.Less(t, got.Cost.After.Total, got.Cost.Before.Total)
	require.InDelta(t, got.Cost.After.Total, got.Cost.After.Loss+got.Cost.After.Discount+got.Cost.After.Breakage, 1e-9)
	require.Len(t, got.Steps, 1)
	require.Equal(t, "fan-speed", got.Steps[0].Setting)
	require.Equal(t, 1000.0, got.Steps[0].From)
	require.Equal(t, got.Steps[0].To, got.Settings["fan_speed_rpm"])
	require.Equal(t, 860.0, got.Settings["cylinder_speed_rpm"])
	require.NotEmpty(t, got.Steps[0].Why)
	require.Positive(t, got.Evaluations)
	code, alone, _ := riddle("forecast", "--price", "5", "--set", fmt.Sprintf("fan-speed=%v", got.Steps[0].To), "--json")
	require.Zero(t, code)
	require.JSONEq(t, alone, string(got.After))
	var after readout.Report
	require.NoError(t, json.Unmarshal(got.After, &after))
	require.Equal(t, *after.Money.CostPerHa, got.Cost.After.Total, "the cost of the report, and no other")

	code, out, _ = riddle(args...)
	require.Zero(t, code)
	for _, words := range []string{"Fan speed", "1000 rpm to", "before", "after", "One change at a time", "as given", "Ground speed stays"} {
		require.Contains(t, out, words)
	}
}

// TestForecastOfACourse: a situation whose field and day change is forecast as
// it starts, and that is said beside the result.
func TestForecastOfACourse(t *testing.T) {
	t.Parallel()
	code, out, errs := riddle(strings.Fields("forecast --scenario wheat-evening-dew --json")...)
	require.Zero(t, code, errs)
	require.Contains(t, errs, "conditions at its start")
	require.Equal(t, 1, strings.Count(out, "\n"))
	code, _, errs = riddle(strings.Fields("forecast --scenario wheat-well-set --json")...)
	require.Zero(t, code)
	require.Empty(t, errs)
}
