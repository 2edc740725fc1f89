package main

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"errors"
	"image/png"
	"os"
	"strconv"
	"strings"
	"sync/atomic"
	"testing"

	"github.com/stretchr/testify/require"

	"riddle/sim/read/readout"
)

// TestSweepRefuses: each bad input ends with status 2, one line that names it,
// and no file.
func TestSweepRefuses(t *testing.T) {
	t.Chdir(t.TempDir())
	for name, c := range map[string]struct {
		args string
		want []string
	}{
		"nothing to vary":     {"sweep", []string{"vary", "NAME=FROM:TO:POINTS"}},
		"no range":            {"sweep --vary fan-speed=900", []string{"vary", "NAME=FROM:TO:POINTS"}},
		"unknown field":       {"sweep --vary fan=700:900:3", []string{"vary", `"fan"`, "fan-speed", "grain-moisture"}},
		"a switch":            {"sweep --vary chopper=0:1:2", []string{"vary", `"chopper"`, "no range"}},
		"corn has no reel":    {"sweep --crop corn --vary reel-index=1:1.5:3", []string{"reel-index", "corn"}},
		"from too low":        {"sweep --vary fan-speed=100:900:3", []string{"fan-speed", `"100"`, "200 to 1800 rpm"}},
		"to too high":         {"sweep --vary fan-speed=900:1900rpm:3", []string{"fan-speed", `"1900rpm"`, "200 to 1800 rpm"}},
		"wrong unit":          {"sweep --vary fan-speed=900mm:1000:3", []string{"fan-speed", `"900mm"`, "rpm"}},
		"not a number":        {"sweep --vary fan-speed=900:NaN:3", []string{"fan-speed", `"NaN"`, "rpm"}},
		"one point":           {"sweep --vary fan-speed=900:1000:1", []string{"vary", "2 to 1000 points"}},
		"too many points":     {"sweep --vary fan-speed=900:1000:1001", []string{"vary", "2 to 1000 points"}},
		"half a point":        {"sweep --vary fan-speed=900:1000:2.5", []string{"vary", `"2.5"`, "2 to 1000 points"}},
		"no width":            {"sweep --vary fan-speed=900:900:3", []string{"vary", "two different ends"}},
		"both forms":          {"sweep --vary fan-speed=900:1000:3 --json --csv", []string{"csv", "left out when --json is given"}},
		"not a png":           {"sweep --vary fan-speed=900:1000:3 --plot x.svg", []string{"plot", `"x.svg"`, ".png"}},
		"theme without plot":  {"sweep --vary fan-speed=900:1000:3 --theme night", []string{"theme", `"night"`, "--plot"}},
		"unknown theme":       {"sweep --vary fan-speed=900:1000:3 --plot x.png --theme dusk", []string{"theme", `"dusk"`, "projector"}},
		"too narrow":          {"sweep --vary fan-speed=900:1000:3 --plot x.png --width 100", []string{"width", `"100"`, "640 to 7680 px"}},
		"window of forecast":  {"sweep --vary fan-speed=900:1000:3 --forecast --seconds 9", []string{"seconds", `"9"`, "--forecast"}},
		"tune takes no range": {"tune --vary fan-speed=900:1000:3", []string{"option", "vary", "--crop"}},
		"tune on bad input":   {"tune --set fan-speed=1900", []string{"fan-speed", `"1900"`, "200 to 1800 rpm"}},
		"tune holds a field":  {"tune --hold yield", []string{"hold", `"yield"`, "fan-speed"}},
		"forecast bad input":  {"forecast --condition yield=26", []string{"yield", `"26"`, "0.3 to 25 t/ha"}},
	} {
		t.Run(name, func(t *testing.T) {
			code, out, errs := riddle(strings.Fields(c.args)...)
			require.Equal(t, 2, code, errs)
			require.Empty(t, out)
			require.Equal(t, 1, strings.Count(errs, "\n"), errs)
			for _, w := range c.want {
				require.Contains(t, errs, w)
			}
		})
	}
	files, err := os.ReadDir(".")
	require.NoError(t, err)
	require.Empty(t, files)
}

// TestSweep: values in a unit of their own, in order, each the very run that
// the run command makes; the chart is a picture of the asked size.
func TestSweep(t *testing.T) {
	t.Chdir(t.TempDir())
	args := strings.Fields("sweep --crop soybeans --vary upper-sieve=1/2in:16mm:3 --seconds 1 --warmup 12 --plot upper.png --width 800")
	code, out, errs := riddle(append(args, "--json")...)
	require.Zero(t, code, errs)
	var got struct {
		Vary, Unit string
		Points     []struct {
			Value  float64
			Report readout.Report
		}
	}
	d := json.NewDecoder(strings.NewReader(out))
	d.DisallowUnknownFields()
	require.NoError(t, d.Decode(&got))
	require.Equal(t, "upper-sieve", got.Vary)
	require.Equal(t, "mm", got.Unit)
	require.Len(t, got.Points, 3)
	for i, want := range []float64{12.7, 14.35, 16} {
		require.InDelta(t, want, got.Points[i].Value, 1e-9)
		require.InDelta(t, want, got.Points[i].Report.Settings["upper_sieve_mm"], 1e-9)
	}
	code, out, _ = riddle(strings.Fields("run --crop soybeans --set upper-sieve=16 --seconds 1 --warmup 12 --json")...)
	require.Zero(t, code)
	var alone readout.Report
	require.NoError(t, json.Unmarshal([]byte(out), &alone))
	require.Equal(t, alone.Digest, got.Points[2].Report.Digest)

	picture, err := os.ReadFile("upper.png")
	require.NoError(t, err)
	img, err := png.Decode(bytes.NewReader(picture))
	require.NoError(t, err)
	require.Equal(t, 800, img.Bounds().Dx())
	require.Equal(t, 500, img.Bounds().Dy())

	args = strings.Fields("sweep --crop soybeans --vary upper-sieve=1/2in:16mm:3 --forecast --csv")
	code, out, errs = riddle(args...)
	require.Zero(t, code, errs)
	rows, err := csv.NewReader(strings.NewReader(out)).ReadAll()
	require.NoError(t, err)
	require.Len(t, rows, 4)
	require.Equal(t, "upper_sieve_mm", rows[0][0])
	code, out, _ = riddle(strings.Fields("forecast --crop soybeans --set upper-sieve=16 --json")...)
	require.Zero(t, code)
	require.NoError(t, json.Unmarshal([]byte(out), &alone))
	for i, name := range rows[0] {
		if name == "loss_pct.shoe" {
			v, err := strconv.ParseFloat(rows[3][i], 64)
			require.NoError(t, err)
			require.InEpsilon(t, *alone.Loss.Shoe, v, 1e-6)
		}
	}
}

// TestSweepNamesNoWorst: oats cut at up to a metre, which leaves every panicle
// standing (they hang at 70 cm), are never best cut there.
func TestSweepNamesNoWorst(t *testing.T) {
	code, out, errs := riddle(strings.Fields("sweep --crop oats --vary cutting-height=20:100:5 --forecast")...)
	require.Zero(t, code, errs)
	require.Regexp(t, `Lowest cost: \d+\.\d\d per hectare at [24]0 cm`, out)
	require.NotContains(t, out, "at 100 cm")
}

// TestEach does every piece of work once and gives the error of the lowest.
func TestEach(t *testing.T) {
	var done [50]atomic.Int32
	require.NoError(t, each(len(done), func(i int) error { done[i].Add(1); return nil }))
	for i := range done {
		require.EqualValues(t, 1, done[i].Load())
	}
	require.NoError(t, each(0, nil))
	first, second := errors.New("first"), errors.New("second")
	err := each(4, func(i int) error {
		switch i {
		case 0:
			return first
		case 1:
			return second
		}
		return nil
	})
	require.ErrorIs(t, err, first)
}
