package share

import (
	"encoding/json"
	"math"
	"math/rand"
	"net/url"
	"reflect"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"testing/quick"

	"github.com/stretchr/testify/require"

	"riddle/scenarios"
	"riddle/sim"
	"riddle/sim/read/readout"
	"riddle/sim/setup"
	"riddle/sim/trade/crop"
)

// anyKept is a machine set up in any way that is legal.
type anyKept struct{ Kept }

func (anyKept) Generate(r *rand.Rand, _ int) reflect.Value {
	k := Kept{Model: []string{"", sim.Model, "riddle-laws/77"}[r.Intn(3)]}
	names := crop.Names()
	k.Setup, _ = setup.Default(names[r.Intn(len(names))])
	if all := scenarios.All(); r.Intn(2) == 0 {
		sc := all[r.Intn(len(all))]
		k.Situation = sc.Name
		k.Setup, _ = sc.Setup()
	}
	k.Setup.Seed = r.Uint64() >> r.Intn(64)
	scatter(r, &k.Setup, false)
	if r.Intn(2) == 0 {
		k.Price = []float64{readout.MaxPrice, 1e-9, math.Round(r.Float64()*1e4) / 100, r.ExpFloat64() * 10}[r.Intn(4)]
		k.Price = max(k.Price, 1e-9)
	}
	if r.Intn(2) == 0 {
		s := k.Setup
		scatter(r, &s, true)
		k.Second = &s.Settings
	}
	return reflect.ValueOf(anyKept{k})
}

// scatter sets each field to an end of its range, to a step or to anything
// between.
func scatter(r *rand.Rand, s *setup.Setup, settingsOnly bool) {
	for _, f := range fieldsOf(s.Crop, settingsOnly) {
		v := []float64{f.From, f.To, f.From + r.Float64()*(f.To-f.From), math.Min(f.To, f.From+float64(r.Intn(40))*f.Step)}[r.Intn(4)]
		if err := f.Set(s, v); err != nil {
			panic(err)
		}
	}
}

var often = &quick.Config{MaxCount: 3000}

func TestLinkBringsBackWhatWasKept(t *testing.T) {
	require.NoError(t, quick.Check(func(a anyKept) bool {
		got, err := ReadLink(a.Link())
		return err == nil && reflect.DeepEqual(a.Kept, got) && got.Link() == a.Link()
	}, often))
}

func TestFileBringsBackWhatWasKept(t *testing.T) {
	require.NoError(t, quick.Check(func(a anyKept) bool {
		got, err := ReadFile(a.File())
		return err == nil && reflect.DeepEqual(a.Kept, got) && string(got.File()) == string(a.File())
	}, often))
}

// The link is read by the standard library's reader of queries as by ours, and
// is made of characters that a fragment may hold (RFC 3986, 3.5).
func TestLinkIsPlain(t *testing.T) {
	fragment := regexp.MustCompile(`^[A-Za-z0-9\-._~!$&'()*+,;=:@/?]*$`)
	require.NoError(t, quick.Check(func(a anyKept) bool {
		text := a.Link()
		query, err := url.ParseQuery(text)
		if err != nil || !fragment.MatchString(text) || len(text) > MaxLink || query.Get("crop") != a.Setup.Crop {
			return false
		}
		for _, f := range fieldsOf(a.Setup.Crop, false) {
			if f.Switch() {
				if query.Get(f.Name) != map[float64]string{0: "off", 1: "on"}[f.Get(&a.Setup)] {
					return false
				}
			} else if v, err := strconv.ParseFloat(query.Get(f.Name), 64); err != nil || v != f.Get(&a.Setup) {
				return false
			}
		}
		return true
	}, often))
}

// Mail and chat programs escape parts of an address.
func TestEscapedLinkReadsTheSame(t *testing.T) {
	require.NoError(t, quick.Check(func(a anyKept) bool {
		for _, text := range []string{"#" + a.Link(), url.PathEscape(a.Link()), url.QueryEscape(a.Link())} {
			if got, err := ReadLink(text); err != nil || !reflect.DeepEqual(a.Kept, got) {
				return false
			}
		}
		return true
	}, often))
}

func TestLinkCanBeWrittenByHand(t *testing.T) {
	k, err := ReadLink("v=1&crop=wheat&seed=7&fan-speed=1100&chopper=off&b.fan-speed=700&end")
	require.NoError(t, err)
	want, err := setup.Default("wheat")
	require.NoError(t, err)
	want.Seed, want.Settings.Fan, want.Settings.Chopper = 7, 1100, false
	require.Equal(t, want, k.Setup)
	want.Settings.Fan = 700
	require.Equal(t, want.Settings, *k.Second, "what is not said of the second machine is as in the first")
}

// Every link that is cut off, wherever, is told from a whole one.
func TestCutLinkIsToldWhereverItIsCut(t *testing.T) {
	require.NoError(t, quick.Check(func(a anyKept) bool {
		whole := a.Link()
		for n := range len(whole) {
			if _, err := ReadLink(whole[:n]); err == nil {
				return false
			}
		}
		return true
	}, &quick.Config{MaxCount: 100}))
}

// faults are damaged links, each with what the message must name.
var faults = []struct {
	name, link string
	code       Code
	says       string
}{
	{"empty", "", Foreign, "not made by Riddle"},
	{"of something else", "section-2", Foreign, "not made by Riddle"},
	{"newer", "v=2&crop=wheat&seed=1&end", Newer, "v is 2"},
	{"cut off", "v=1&crop=wheat&seed=1&fan-speed=9", Short, "fan-speed=9"},
	{"no value", "v=1&crop=wheat&seed=1&fan-speed&end", Broken, "fan-speed"},
	{"bad escape", "v=1&crop=wheat&seed=1&fan-speed=9%zz&end", Broken, "% sign"},
	{"twice", "v=1&crop=wheat&seed=1&fan-speed=900&fan-speed=901&end", Twice, "fan-speed"},
	{"no crop", "v=1&seed=1&end", Missing, "crop"},
	{"no seed", "v=1&crop=wheat&end", Missing, "seed"},
	{"unknown crop", "v=1&crop=moss&seed=1&end", Value, "moss"},
	{"unknown name", "v=1&crop=wheat&seed=1&colour=red&end", Unknown, "colour"},
	{"unknown situation", "v=1&crop=wheat&situation=moon&seed=1&end", Value, "moon"},
	{"situation of another crop", "v=1&crop=corn&situation=wheat-well-set&seed=1&end", Value, "wheat-well-set"},
	{"bad seed", "v=1&crop=wheat&seed=-1&end", Value, "whole number"},
	{"out of range", "v=1&crop=wheat&seed=1&fan-speed=5000&end", Value, "200 to 1800 rpm"},
	{"no number", "v=1&crop=wheat&seed=1&fan-speed=fast&end", Value, "200 to 1800 rpm"},
	{"NaN", "v=1&crop=wheat&seed=1&fan-speed=NaN&end", Value, "200 to 1800 rpm"},
	{"hexadecimal", "v=1&crop=wheat&seed=1&fan-speed=0x384&end", Value, "200 to 1800 rpm"},
	{"no switch", "v=1&crop=wheat&seed=1&chopper=maybe&end", Value, "on or off"},
	{"not of this header", "v=1&crop=corn&seed=1&reel-index=1.2&end", None, "It sets reel-index, but the header for corn has none."},
	{"not of this header, and out of range", "v=1&crop=corn&seed=1&cutting-height=900&end", None, "the header for corn has none"},
	{"not of the second's header", "v=1&crop=corn&seed=1&b.reel-index=1.2&end", None, "reel-index"},
	{"no price", "v=1&crop=wheat&seed=1&price=0&end", Value, "0 for price; it should be a number above 0"},
	{"price below nothing", "v=1&crop=wheat&seed=1&price=-3&end", Value, "-3 for price"},
	{"price beyond all", "v=1&crop=wheat&seed=1&price=1000001&end", Value, "1000001 for price"},
	{"price in words", "v=1&crop=wheat&seed=1&price=dear&end", Value, "dear for price"},
	{"price of NaN", "v=1&crop=wheat&seed=1&price=NaN/t&end", Value, "NaN/t for price"},
	{"price twice", "v=1&crop=wheat&seed=1&price=3&price=4&end", Twice, "price"},
	{"price of its own for the second", "v=1&crop=wheat&seed=1&b.price=4&end", Unknown, "b.price"},
	{"field of its own for the second", "v=1&crop=wheat&seed=1&b.yield=4&end", Unknown, "b.yield"},
	{"second out of range", "v=1&crop=wheat&seed=1&b.fan-speed=1&end", Value, "1 for b.fan-speed"},
	{"script", "v=1&crop=<script>alert(1)</script>&seed=1&end", Value, "crop"},
	{"bad laws", "v=1&laws=//evil&crop=wheat&seed=1&end", Value, "laws"},
	{"too long", "v=1&crop=" + strings.Repeat("x", MaxLink), Long, "4096"},
}

func TestDamagedLinkIsToldInOneSentence(t *testing.T) {
	for _, c := range faults {
		t.Run(c.name, func(t *testing.T) {
			k, err := ReadLink(c.link)
			require.ErrorContains(t, err, c.says)
			require.Equal(t, c.code, err.(*Error).Code)
			require.NotContains(t, err.Error(), "\n")
			require.NotContains(t, err.Error(), "{")
			require.LessOrEqual(t, len(err.Error()), 250)
			require.Equal(t, Kept{}, k, "a fault gives nothing back")
		})
	}
}

func TestDamagedFileIsToldInOneSentence(t *testing.T) {
	start, err := setup.Default("wheat")
	require.NoError(t, err)
	whole := string((&Kept{Model: sim.Model, Setup: start}).File())
	put := func(old, with string) string {
		require.Contains(t, whole, old)
		return strings.Replace(whole, old, with, 1)
	}
	for name, c := range map[string]struct {
		text string
		code Code
		says string
	}{
		"empty":         {"", Empty, "It is empty."},
		"cut off":       {whole[:len(whole)/2], Short, "cut off"},
		"no JSON":       {"dear diary", Text, "Riddle did not write"},
		"two of them":   {whole + whole, Broken, "follows"},
		"a picture":     {"\x89PNG\r\n\x1a\n\x00\x00", Picture, "picture"},
		"other JSON":    {`{"schema":"riddle.report/1"}`, OfReport, "a report"},
		"a list":        {`[1,2]`, Foreign, "not made by Riddle"},
		"newer":         {put(FileForm, "riddle.setup/2"), Newer, "riddle.setup/2"},
		"unknown key":   {put(`"seed"`, `"sead"`), Broken, "sead"},
		"twice":         {put(`"seed": 1`, `"seed": 1, "seed": 2`), Broken, "twice"},
		"out of range":  {put(`"fan_speed_rpm": `, `"fan_speed_rpm": 9`), Broken, "200 to 1800"},
		"text":          {put(`"chopper": true`, `"chopper": "yes"`), Broken, "true or false"},
		"unknown crop":  {put(`"crop": "wheat"`, `"crop": "moss"`), Value, "moss"},
		"too long":      {whole + strings.Repeat(" ", 70000), Long, "64 kB"},
		"deep":          {strings.Repeat(`{"a":`, 9000), Broken, "too deep"},
		"other form":    {`{"schema":"somebody.else/1"}`, Foreign, "riddle.setup/1"},
		"no price":      {put(`"seed": 1`, `"seed": 1, "price_per_bu": 0`), Broken, "above 0"},
		"dear":          {put(`"seed": 1`, `"seed": 1, "price_per_bu": 1e7`), Broken, "0 to 1e+06"},
		"price as text": {put(`"seed": 1`, `"seed": 1, "price_per_bu": "7"`), Broken, "price_per_bu"},
		"half a second": {put(`"settings": {`, `"second": {}, "settings": {`), Broken, "second"},
	} {
		t.Run(name, func(t *testing.T) {
			k, err := ReadFile([]byte(c.text))
			require.ErrorContains(t, err, c.says)
			require.Equal(t, c.code, err.(*Error).Code)
			require.NotContains(t, err.Error(), "\n")
			require.LessOrEqual(t, len(err.Error()), 350)
			require.Equal(t, Kept{}, k)
		})
	}
}

// A file of corn that sets what its header has not is told so, of either machine.
func TestAFileThatSetsAReelForCornIsTold(t *testing.T) {
	s, err := setup.Default("corn")
	require.NoError(t, err)
	whole := string((&Kept{Setup: s, Second: &s.Settings}).File())
	for _, key := range []string{`"reel_index": 1.2`, `"cutting_height_cm": 900`} {
		for _, n := range []int{1, 2} { // the first settings, or those of the second
			parts := strings.SplitN(whole, `"settings": {`, 3)
			require.Len(t, parts, 3)
			parts[n] = key + "," + parts[n]
			_, err := ReadFile([]byte(strings.Join(parts, `"settings": {`)))
			require.ErrorContains(t, err, "but the header for corn has none")
			require.Equal(t, None, err.(*Error).Code)
		}
	}
}

// A link may be pasted as a whole address, and a price may be of a tonne.
func TestALinkIsReadAsItIsPasted(t *testing.T) {
	const inside = "v=1&crop=wheat&seed=7&price=250/t&end"
	want, err := ReadLink(inside)
	require.NoError(t, err)
	require.InDelta(t, 250*0.0272155422, want.Price, 1e-9) // 60 lb are 27.2155422 kg
	for _, text := range []string{"#" + inside, "https://farm.example/riddle/?lang=de#" + inside, "\ufeff#" + inside + "\r\n", " http://127.0.0.1:8321/#" + url.QueryEscape(inside)} {
		got, err := ReadLink(text)
		require.NoError(t, err, text)
		require.Equal(t, want, got)
	}
	_, err = ReadLink("https://farm.example/riddle/")
	require.Equal(t, Foreign, err.(*Error).Code)
}

// A file says each value under the key and in the unit of a report.
func TestFileSpeaksAsTheReportDoes(t *testing.T) {
	s, err := setup.Default("corn")
	require.NoError(t, err)
	s.Settings.Fan = 1234
	var got map[string]any
	require.NoError(t, json.Unmarshal((&Kept{Model: sim.Model, Setup: s}).File(), &got))
	require.Equal(t, FileForm, got["schema"])
	require.Equal(t, 1234.0, got["settings"].(map[string]any)["fan_speed_rpm"])
	require.NotContains(t, got["settings"], "reel_index", "the header for corn has no reel")
}

// Whatever comes in: an error on one line, or a legal setup that is kept
// unchanged from there on.
func FuzzLink(f *testing.F) {
	for _, c := range faults {
		f.Add(c.link)
	}
	f.Add("v=1&laws=riddle-laws/1&crop=wheat&situation=wheat-weedy&seed=18446744073709551615&fan-speed=900.5&b.chopper=off&end")
	f.Fuzz(func(t *testing.T, text string) {
		k, err := ReadLink(text)
		if err != nil {
			require.NotContains(t, err.Error(), "\n")
			require.Equal(t, Kept{}, k)
			return
		}
		whole(t, k)
	})
}

func FuzzFile(f *testing.F) {
	s, _ := setup.Default("wheat")
	f.Add((&Kept{Setup: s}).File())
	f.Add((&Kept{Setup: s, Second: &s.Settings, Situation: "wheat-weedy"}).File())
	f.Add([]byte(`{"schema":"riddle.setup/1","crop":"corn","seed":3,"settings":{},"conditions":{}}`))
	f.Fuzz(func(t *testing.T, text []byte) {
		k, err := ReadFile(text)
		if err != nil {
			require.NotContains(t, err.Error(), "\n")
			require.Equal(t, Kept{}, k)
			return
		}
		whole(t, k)
	})
}

func whole(t *testing.T, k Kept) {
	require.NoError(t, k.Setup.Validate())
	if k.Second != nil {
		s := k.second()
		require.NoError(t, s.Validate())
	}
	again, err := ReadLink(k.Link())
	require.NoError(t, err)
	require.Equal(t, k, again)
	again, err = ReadFile(k.File())
	require.NoError(t, err)
	require.Equal(t, k, again)
}
