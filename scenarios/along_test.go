package scenarios

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"riddle/sim/run/course"
	"riddle/sim/setup"
)

// TestDaysAgreeWithTheirWeather: the weather that is told at the start is that
// of the day at its hour.
func TestDaysAgreeWithTheirWeather(t *testing.T) {
	days := 0
	for _, s := range All() {
		if s.Day == nil {
			continue
		}
		days++
		c := s.Course()
		air := c.Day.At(c.Day.Start)
		require.InDelta(t, s.Weather.Temperature, air.T, 1, s.Name)
		require.InDelta(t, s.Weather.Humidity, 100*air.RH, 5, s.Name)
	}
	require.Positive(t, days)
}

// TestCoursesCanBeDriven: every situation's way and day suit its machine.
func TestCoursesCanBeDriven(t *testing.T) {
	along := 0
	for _, s := range All() {
		m, err := s.Setup()
		require.NoError(t, err)
		d, err := s.Course().On(m)
		require.NoError(t, err, s.Name)
		if len(s.Along) > 0 {
			along++
			require.NotNil(t, d)
			require.Equal(t, s.Course(), s.Plan().Course)
		}
	}
	require.GreaterOrEqual(t, along, 2)
}

// TestAlongSchemaAgrees: the schema's stretches know the conditions that can
// change along the way, and no others, with their ranges.
func TestAlongSchemaAgrees(t *testing.T) {
	doc := instance(t, string(Schema())).(map[string]any)
	at := func(v any, keys ...string) map[string]any {
		for _, k := range keys {
			v = v.(map[string]any)[k]
		}
		return v.(map[string]any)
	}
	of := at(doc, "properties", "along", "items", "properties", "conditions", "properties")
	n := 0
	for i := range setup.Fields {
		f := &setup.Fields[i]
		if !course.Varies(f.Name) {
			continue
		}
		n++
		p, ok := of[f.Key].(map[string]any)
		require.True(t, ok, f.Key)
		require.EqualValues(t, f.From, number(t, p["minimum"]), f.Key)
		require.EqualValues(t, f.To, number(t, p["maximum"]), f.Key)
	}
	require.Len(t, of, n)
}

// TestRefusesBadWays breaks a way and a day in one place each.
func TestRefusesBadWays(t *testing.T) {
	s := schema(t)
	patch, evening := text(t, "wheat-green-patch"), text(t, "wheat-evening-dew")
	for name, c := range map[string]struct {
		good, old, new string
		path, reason   string
		loose          bool
	}{
		"unknown key":      {patch, `"edge_m"`, `"width_m"`, "$.along[0].width_m", "unknown", false},
		"no name":          {patch, `"name": "wet hollow with green weeds", `, ``, "$.along[0].name", "missing", false},
		"setting there":    {patch, `"yield_t_ha": 4.5`, `"fan_speed_rpm": 900`, "$.along[0].conditions.fan_speed_rpm", "unknown", false},
		"width of header":  {patch, `"yield_t_ha": 4.5`, `"header_width_m": 6`, "$.along[0].conditions.header_width_m", "does not change", false},
		"out of range":     {patch, `"yield_t_ha": 4.5`, `"yield_t_ha": 26`, "$.along[0].conditions.yield_t_ha", "0.3 to 25", false},
		"backwards":        {patch, `"to_m": 140`, `"to_m": 40`, "$.along[0]", "run forward", true},
		"edge too long":    {patch, `"edge_m": 15`, `"edge_m": 150`, "$.along[0]", "edge", true},
		"no list":          {evening, `"day":`, `"along": 3, "day":`, "$.along", "a list", false},
		"round of nothing": {patch, `"round_m": 260`, `"round_m": 0`, "$.round_m", "1 to 20000", false},
		"late start":       {evening, `"start_h": 20`, `"start_h": 24`, "$.day.start_h", "0 to 23.99", false},
		"too fast a day":   {evening, `"pace": 60`, `"pace": 500`, "$.day.pace", "1 to 120", false},
		"upside down":      {evening, `"high_c": 27`, `"high_c": 5`, "$.day.high_c", "at least the low", true},
		"no humidity":      {evening, `"humidity_pct": 52, `, ``, "$.day.humidity_pct", "missing", false},
		"hours back":       {evening, `"clear": 1`, `"hours": [{"at_h": 9, "temperature_c": 9, "humidity_pct": 90}, {"at_h": 8, "temperature_c": 9, "humidity_pct": 90}]`, "$.day.hours[1].at_h", "later", true},
	} {
		bad := strings.Replace(c.good, c.old, c.new, 1)
		require.NotEqual(t, c.good, bad, name)
		_, err := Read("bad.json", []byte(bad))
		var e *Error
		require.ErrorAs(t, err, &e, name)
		require.Equal(t, c.path, e.Path, name)
		require.Contains(t, e.Reason, c.reason, name)
		if !c.loose {
			require.Error(t, s.Validate(instance(t, bad)), "%s: the schema refuses it too", name)
		}
	}
}

// TestGivenHoursAreTaken: a day may be given hour by hour.
func TestGivenHoursAreTaken(t *testing.T) {
	given := strings.Replace(text(t, "wheat-evening-dew"), `"clear": 1`,
		`"clear": 1, "hours": [{"at_h": 8, "temperature_c": 12, "humidity_pct": 90}, {"at_h": 14, "temperature_c": 24, "humidity_pct": 50}]`, 1)
	s, err := Read("given.json", []byte(given))
	require.NoError(t, err)
	require.NoError(t, schema(t).Validate(instance(t, given)))
	air := s.Course().Day.At(11)
	require.InDelta(t, 18, air.T, 1e-9)
	require.InDelta(t, 0.7, math.Round(air.RH*1e9)/1e9, 1e-9)
}
