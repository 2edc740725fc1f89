package scenarios

import (
	"bytes"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"
	"github.com/stretchr/testify/require"

	"riddle/scenarios/strict"
	"riddle/sim/ask/forecast"
	"riddle/sim/read/readout"
	"riddle/sim/run/trial"
	"riddle/sim/setup"
	"riddle/sim/trade/crop"
)

// claim is what the words of a situation say of its readings: one of them is higher
// or lower than at the crop's start on the flat, or than another of its own.
type claim struct{ reading, is, than string }

const start = "the start" // of a claim, to compare with

// claims are what each text says; a text without an entry does not pass.
var claims = map[string][]claim{
	"canola-set-for-wheat": {
		{"shoe_loss_pct.ridden", "above", start}, {"shoe_loss_pct.blown", "above", start},
		{"shoe_loss_pct.ridden", "above", "shoe_loss_pct.blown"}, {"loss_pct.shoe", "above", "loss_pct.walker"},
	},
	"corn-cylinder-fast":  {{"tank.broken_pct", "above", start}, {"tank.foreign_pct", "above", start}},
	"corn-headland-crawl": {{"loss_pct.processing", "below", start}, {"tank.broken_pct", "above", start}},
	"corn-well-set":       nil, // it is the start; its own readings hold it
	"soybeans-damp-morning": {
		{"loss_pct.unthreshed", "above", start}, {"returns.pct_of_grain", "above", start},
		{"loss_pct.walker", "above", start}, {"loss_pct.walker", "above", "loss_pct.unthreshed"},
	},
	"soybeans-lower-shut":     {{"returns.pct_of_grain", "above", start}, {"returns.free_grain_pct", "above", start}, {"tank.broken_pct", "above", start}},
	"soybeans-rolling-ground": {{"loss_pct.shoe", "above", start}, {"shoe_loss_pct.ridden", "above", start}},
	"soybeans-very-dry":       {{"loss_pct.header", "above", start}, {"tank.broken_pct", "above", start}},
	"soybeans-well-set":       {{"loss_pct.header", "above", "loss_pct.processing"}},
	"wheat-evening-dew":       {{"loss_pct.walker", "above", start}, {"loss_pct.shoe", "above", start}},
	"wheat-fan-too-high":      {{"shoe_loss_pct.blown", "above", start}, {"shoe_loss_pct.blown", "above", "shoe_loss_pct.ridden"}, {"tank.foreign_pct", "below", start}},
	"wheat-green-patch":       {{"loss_pct.walker", "above", start}, {"loss_pct.processing", "above", start}},
	"wheat-overload":          nil, // it plugs, and there is nothing to read
	"wheat-side-slope":        {{"loss_pct.shoe", "above", start}, {"shoe_loss_pct.ridden", "above", "shoe_loss_pct.blown"}},
	"wheat-tough-at-dusk":     {{"loss_pct.walker", "above", start}, {"loss_pct.unthreshed", "above", start}, {"loss_pct.walker", "above", "loss_pct.unthreshed"}},
	"wheat-weedy":             {{"loss_pct.walker", "above", start}, {"tank.foreign_pct", "above", start}, {"loss_pct.shoe", "above", "loss_pct.walker"}},
	"wheat-well-set":          nil, // as corn's
}

func holdClaims(t *testing.T, s *Scenario, got, atStart *readout.Report) {
	list, known := claims[s.Name]
	require.True(t, known, "what %s says is held by nothing", s.Name)
	read := func(r *readout.Report, path string) float64 {
		v, found, err := lookUp(r, path)
		require.NoError(t, err)
		require.True(t, found && v != nil, path)
		return v.(float64)
	}
	for _, c := range list {
		a, b := read(got, c.reading), 0.0
		if c.than == start {
			b = read(atStart, c.reading)
		} else {
			b = read(got, c.than)
		}
		// A tenth, so that it is no matter of chance.
		if c.is == "above" {
			require.Greater(t, a, 1.1*b, "%s is above %s", c.reading, c.than)
		} else {
			require.Less(t, a, 0.9*b, "%s is below %s", c.reading, c.than)
		}
	}
}

// TestSituations runs each situation, and holds its stated readings and what its
// words say of them.
func TestSituations(t *testing.T) {
	for _, s := range All() {
		t.Run(s.Name, func(t *testing.T) {
			t.Parallel()
			m, err := s.Setup()
			require.NoError(t, err)
			_, report, err := trial.Run(m, s.Plan(), nil)
			require.NoError(t, err)
			for i := range s.Expect {
				if err := s.Expect[i].Check(&report); err != nil {
					t.Error(err)
				}
			}
			base, err := setup.Default(s.Crop)
			require.NoError(t, err)
			atStart, err := forecast.Report(base)
			require.NoError(t, err)
			holdClaims(t, s, &report, &atStart)
		})
	}
}

// BenchmarkSituations reports how much faster than the clock each situation
// runs, over ten seconds of it.
func BenchmarkSituations(b *testing.B) {
	for _, s := range All() {
		b.Run(s.Name, func(b *testing.B) {
			m, err := s.Setup()
			require.NoError(b, err)
			simulated := 0.0
			for b.Loop() {
				machine, _, err := trial.Run(m, trial.Plan{Warmup: 20, Seconds: 10}, nil)
				require.NoError(b, err)
				simulated += machine.Seconds()
			}
			b.ReportMetric(simulated/b.Elapsed().Seconds(), "sim-s/s")
		})
	}
}

// TestAll holds what every situation owes: it is listed, on the farm, and no
// other has its name or its field and day.
func TestAll(t *testing.T) {
	require.ElementsMatch(t, fileNames(), Names(), "every file is listed once")
	titles, crops := map[string]bool{}, map[string]int{}
	for i, s := range All() {
		require.Equal(t, Names()[i], s.Name)
		require.Equal(t, "Tarn Hollow", s.Farm)
		require.False(t, titles[s.Title], "%s is told apart by its title", s.Name)
		require.True(t, strings.HasSuffix(s.Shows, "."), "%s says what it shows in a sentence", s.Name)
		require.Same(t, s, Find(s.Name))
		titles[s.Title] = true
		crops[s.Crop]++
	}
	require.GreaterOrEqual(t, len(All()), 8)
	require.Equal(t, []string{"canola", "corn", "soybeans", "wheat"}, slices.Sorted(maps.Keys(crops)))
	require.Nil(t, Find("nothing"))
}

// fileNames lists the embedded situation files.
func fileNames() []string {
	all, err := fs.Glob(files, "*.json")
	if err != nil {
		panic(err)
	}
	names := []string{}
	for _, f := range all {
		if f != schemaFile {
			names = append(names, strings.TrimSuffix(f, ".json"))
		}
	}
	return names
}

// TestOverloadIsThreefold: the overloaded machine gets three times the feed
// that its crop is rated for, by speed, yield and width.
func TestOverloadIsThreefold(t *testing.T) {
	feed := func(s setup.Setup) float64 {
		return s.Settings.GroundSpeed * s.Conditions.Yield * s.Conditions.HeaderWidth
	}
	over, err := Find("wheat-overload").Setup()
	require.NoError(t, err)
	rated, err := setup.Default("wheat")
	require.NoError(t, err)
	require.InDelta(t, 3, feed(over)/feed(rated), 0.05)
}

func schema(t *testing.T) *jsonschema.Schema {
	t.Helper()
	doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(Schema()))
	require.NoError(t, err)
	c := jsonschema.NewCompiler()
	c.DefaultDraft(jsonschema.Draft2020)
	require.NoError(t, c.AddResource("scenario.json", doc))
	s, err := c.Compile("scenario.json")
	require.NoError(t, err)
	return s
}

func text(t *testing.T, name string) string {
	t.Helper()
	b, err := files.ReadFile(name + ".json")
	require.NoError(t, err)
	return string(b)
}

func instance(t *testing.T, s string) any {
	t.Helper()
	v, err := jsonschema.UnmarshalJSON(strings.NewReader(s))
	require.NoError(t, err)
	return v
}

// TestSchema holds every situation against the published schema.
func TestSchema(t *testing.T) {
	s := schema(t)
	for _, name := range Names() {
		require.NoError(t, s.Validate(instance(t, text(t, name))), name)
	}
}

// TestSchemaAgrees: the schema names the crops, fields and ranges of the
// machine, so that the two cannot drift apart.
func TestSchemaAgrees(t *testing.T) {
	doc := instance(t, string(Schema())).(map[string]any)
	props := doc["properties"].(map[string]any)
	var crops []string
	for _, c := range props["crop"].(map[string]any)["enum"].([]any) {
		crops = append(crops, c.(string))
	}
	require.Equal(t, crop.Names(), crops)
	fields := func(key string) map[string]any {
		return props[key].(map[string]any)["properties"].(map[string]any)
	}
	settings, conditions := fields("settings"), fields("conditions")
	require.Len(t, setup.Fields, len(settings)+len(conditions))
	for _, f := range setup.Fields {
		of := settings
		if f.Condition {
			of = conditions
		}
		p, ok := of[f.Key].(map[string]any)
		require.True(t, ok, f.Key)
		if f.Switch() {
			require.Equal(t, "boolean", p["type"], f.Key)
			continue
		}
		require.EqualValues(t, f.From, number(t, p["minimum"]), f.Key)
		require.EqualValues(t, f.To, number(t, p["maximum"]), f.Key)
	}
}

func number(t *testing.T, v any) float64 {
	t.Helper()
	n, ok := v.(interface{ Float64() (float64, error) })
	require.True(t, ok, "%v is a number", v)
	f, err := n.Float64()
	require.NoError(t, err)
	return f
}

// TestRefuses breaks a good file in one place each: the loader names the file,
// the place and the reason, and the schema refuses it too where it can.
func TestRefuses(t *testing.T) {
	good := text(t, "wheat-fan-too-high")
	s := schema(t)
	for name, c := range map[string]struct {
		old, new string
		path     string
		reason   string
		loose    bool // beyond what the schema can say
	}{
		"unknown key":        {`"crop":`, `"engine": 1, "crop":`, "$.engine", "unknown", false},
		"unknown setting":    {`"fan_speed_rpm"`, `"fan_rpm"`, "$.settings.fan_rpm", "unknown", false},
		"condition there":    {`"fan_speed_rpm": 1400`, `"yield_t_ha": 5`, "$.settings.yield_t_ha", "unknown", false},
		"wrong type":         {`"fan_speed_rpm": 1400`, `"fan_speed_rpm": "1400"`, "$.settings.fan_speed_rpm", `the text "1400"`, false},
		"null":               {`"fan_speed_rpm": 1400`, `"fan_speed_rpm": null`, "$.settings.fan_speed_rpm", "nothing", false},
		"out of range":       {`"fan_speed_rpm": 1400`, `"fan_speed_rpm": 1801`, "$.settings.fan_speed_rpm", "200 to 1800", false},
		"no finite number":   {`"fan_speed_rpm": 1400`, `"fan_speed_rpm": 1e999`, "$.settings.fan_speed_rpm", "1e999", true},
		"switch as number":   {`"fan_speed_rpm": 1400`, `"chopper": 1`, "$.settings.chopper", "true or false", false},
		"unknown crop":       {`"crop": "wheat"`, `"crop": "rye"`, "$.crop", "rye", false},
		"missing":            {`"seed": 2,`, ``, "$.seed", "missing", false},
		"seed in parts":      {`"seed": 2,`, `"seed": 2.5,`, "$.seed", "2.5", false},
		"seed below zero":    {`"seed": 2,`, `"seed": -2,`, "$.seed", "-2", false},
		"other form":         {`riddle.scenario/1`, `riddle.scenario/2`, "$.schema", "riddle.scenario/2", false},
		"bad name":           {`"wheat-fan-too-high"`, `"Wheat fan"`, "$.name", "Wheat fan", false},
		"empty title":        {`"Wheat, fan far too high"`, `""`, "$.title", "0 characters", false},
		"twice":              {`"seed": 2,`, `"seed": 2, "seed": 3,`, "$.seed", "twice", true},
		"settings no object": {"\"settings\": {\n    \"fan_speed_rpm\": 1400\n  }", `"settings": []`, "$.settings", "wanted is an object", false},
		"hot":                {`"temperature_c": 26`, `"temperature_c": 260`, "$.weather.temperature_c", "-20 to 50", false},
		"endless window":     {`"seconds": 60`, `"seconds": 86401`, "$.run.seconds", "86401", false},
		"no window":          {`"seconds": 60`, `"seconds": 0`, "$.run.seconds", "0", false},
		"no such reading":    {`"loss_pct.shoe"`, `"loss_pct.sieve"`, "$.expect[1].reading", "loss_pct.sieve", true},
		"not one reading":    {`"loss_pct.shoe"`, `"loss_pct"`, "$.expect[1].reading", "no such reading", true},
		"no bound":           {`"from": 1.5, `, ``, "$.expect[1]", "bound", false},
		"word and bound":     {`"from": 1.5, `, `"from": 1.5, "is": "running", `, "$.expect[1]", "either", false},
		"empty bounds":       {`"from": 1.5, `, `"from": 1.5, "to": 1, `, "$.expect[1]", "above", true},
		"notes no texts":     {`"notes": [`, `"notes": [ 7, `, "$.notes[0]", "the number 7", false},
	} {
		bad := strings.Replace(good, c.old, c.new, 1)
		require.NotEqual(t, good, bad, name)
		_, err := read("bad.json", []byte(bad))
		var e *Error
		require.ErrorAs(t, err, &e, name)
		require.Equal(t, "bad.json", e.File, name)
		require.Equal(t, c.path, e.Path, name)
		require.Contains(t, e.Reason, c.reason, name)
		if !c.loose {
			require.Error(t, s.Validate(instance(t, bad)), "%s: the schema refuses it too", name)
		}
	}
	corn := strings.Replace(text(t, "corn-cylinder-fast"), `"cylinder_speed_rpm": 720`, `"reel_index": 1.2`, 1)
	_, err := read("bad.json", []byte(corn))
	require.ErrorContains(t, err, "$.settings.reel_index")
	require.ErrorContains(t, err, "no such setting")
}

// TestRefusesNoJSON holds the loader against what is no JSON at all.
func TestRefusesNoJSON(t *testing.T) {
	for name, bad := range map[string]string{
		"empty": "", "cut off": `{"schema": "riddle`, "open": `{"schema": 1`, "list": `[1,2]`, "number": `7`, "two": `{} {}`,
		"trailing": text(t, "wheat-weedy") + "x", "deep": strings.Repeat(`{"a":`, 200) + "1" + strings.Repeat("}", 200),
		"no comma": `{"a" 1}`, "long": `{"name":"` + strings.Repeat("x", strict.MaxBytes) + `"}`, "many brackets": strings.Repeat("[", 60000),
	} {
		_, err := read("bad.json", []byte(bad))
		var e *Error
		require.ErrorAs(t, err, &e, name)
		require.True(t, strings.HasPrefix(err.Error(), "bad.json: "), name)
		require.Less(t, len(err.Error()), 400, name)
	}
}

// TestLoad reads a file as the embedded one is read, and names what cannot be
// read.
func TestLoad(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "mine.json")
	require.NoError(t, os.WriteFile(path, []byte(text(t, "corn-well-set")), 0o600))
	got, err := Load(path)
	require.NoError(t, err)
	require.Equal(t, Find("corn-well-set"), got)
	for _, missing := range []string{filepath.Join(dir, "none.json"), dir} {
		_, err := Load(missing)
		var e *Error
		require.ErrorAs(t, err, &e)
		require.Equal(t, missing, e.File)
	}
}

// FuzzRead: whatever a file holds, it is read or refused with file and reason,
// and what is read gives a legal machine.
func FuzzRead(f *testing.F) {
	for _, name := range Names() {
		b, _ := files.ReadFile(name + ".json")
		f.Add(b)
	}
	f.Add([]byte(`{"schema":"riddle.scenario/1","settings":{"fan_speed_rpm":1e308}}`))
	f.Fuzz(func(t *testing.T, b []byte) {
		s, err := read("fuzz.json", b)
		if err != nil {
			if !strings.HasPrefix(err.Error(), "fuzz.json: ") {
				t.Fatal(err)
			}
			return
		}
		m, err := s.Setup()
		if err != nil {
			t.Fatal(err)
		}
		if err := m.Validate(); err != nil {
			t.Fatal(err)
		}
	})
}
