package share

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"reflect"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/require"

	"riddle/sim"
	"riddle/sim/run/course"
	"riddle/sim/run/journal"
	"riddle/sim/run/trial"
	"riddle/sim/setup"
	"riddle/sim/trade/weather"
)

// short is a run of a few seconds along a changing field on a day that goes by,
// with changes, one of them at its end, and a release.
var short = sync.OnceValues(func() (Ran, error) {
	s, err := setup.Default("wheat")
	if err != nil {
		return Ran{}, err
	}
	s.Seed = 1<<63 + 11
	from := s
	s.Conditions.StrawMoisture = 17.25
	field := course.Course{
		Stretches: []course.Stretch{{Name: "green <patch>", From: 3, To: 9, Edge: 0.5, Values: []course.Value{{Field: setup.Find("green-weeds"), To: 21.5}, {Field: setup.Find("side-slope"), To: -6}}}},
		Round:     40,
		Day: &course.Day{Start: 19.5, Pace: 60, Day: weather.Day{
			Low: 10, High: 26, Humidity: 55, Clear: 0.5, Sunrise: 6, Sunset: 20, Hours: []weather.Hour{{At: 1, T: 12, Humidity: 80}, {At: 13, T: 25, Humidity: 50}},
		}},
	}
	start := journal.Start{Situation: "dusk", From: from, Setup: s, Course: &field, Held: []string{"side-slope"}}
	j := journal.Journal{Start: start, Commands: []journal.Command{
		{Tick: 0, Field: setup.Find("chopper")}, {Tick: 7, Field: setup.Find("fan-speed"), Value: 1100}, {Tick: 7, Field: setup.Find("fan-speed"), Value: 1033.25},
		{Tick: 200, Field: setup.Find("yield"), Value: 3.1}, {Tick: 222}, {Tick: 360, Field: setup.Find("lower-sieve"), Value: 7.5},
	}}
	w := trial.Window{From: 120, To: 360}
	r, _, err := trial.Play(j, w, nil)
	if err != nil {
		return Ran{}, err
	}
	return RanOf(r, w), nil
})

func shortFile(t testing.TB) string {
	t.Helper()
	r, err := short()
	require.NoError(t, err)
	text, err := r.File()
	require.NoError(t, err)
	return string(text)
}

func verdict(t testing.TB, text string) Replayed {
	t.Helper()
	r, err := Replay([]byte(text), nil)
	require.NoError(t, err)
	require.NotContains(t, r.Reason, "\n")
	require.Less(t, len(r.Reason), 400)
	require.Equal(t, r.Verdict == Same, r.Reason == "")
	return r
}

func TestARunComesBackFromItsFile(t *testing.T) {
	want, err := short()
	require.NoError(t, err)
	text := shortFile(t)
	got, err := ReadRun([]byte(text))
	require.NoError(t, err)
	require.Equal(t, want, got)
	var small bytes.Buffer
	require.NoError(t, json.Compact(&small, []byte(text)))
	for name, same := range map[string]string{
		"as it is": text, "byte order mark": "\ufeff" + text, "other line ends": strings.ReplaceAll(text, "\n", "\r\n"), "no spaces": small.String(),
	} {
		r := verdict(t, same)
		require.Equal(t, Same, r.Verdict, "%s: %s", name, r.Reason)
		require.Equal(t, want.Digest, r.Claimed)
		require.Equal(t, want.Digest, *r.Report.Digest)
		require.Equal(t, 2.0, r.Report.WindowS)
	}
}

// seal puts the checksum under a file that somebody has altered with care. It is
// written apart from the program's own.
func seal(t testing.TB, text string) string {
	t.Helper()
	d := json.NewDecoder(strings.NewReader(text))
	d.UseNumber()
	var top map[string]any
	require.NoError(t, d.Decode(&top))
	under := map[string]any{"start": top["start"], "window": top["window"], "commands": top["commands"], "claimed": top["claimed"]}
	for k, v := range top {
		if k != "schema" && k != "model" && k != "checksum" {
			under[k] = v
		}
	}
	body, err := json.Marshal(under)
	require.NoError(t, err)
	sum := sha256.Sum256(body)
	top["checksum"] = hex.EncodeToString(sum[:])
	out, err := json.Marshal(top)
	require.NoError(t, err)
	return string(out)
}

// Ways in which the file of a run comes to be another. Those that are sealed
// have a checksum that holds.
var alterations = []struct {
	name, old, with string
	sealed          bool
	want            Verdict
	says            string
}{
	{"a setting of the start", `"fan_speed_rpm": 910`, `"fan_speed_rpm": 995`, false, Damaged, "checksum"},
	{"the random number", `9223372036854775819`, `9223372036854775818`, false, Damaged, "checksum"},
	{"the window", `"from_tick": 120`, `"from_tick": 121`, false, Damaged, "checksum"},
	{"a command's value", `1033.25`, `1033.5`, false, Damaged, "checksum"},
	{"the claim", `"tick": 360`, `"tick": 359`, false, Damaged, "checksum"},
	{"other laws", `"` + sim.Model + `"`, `"riddle-laws/1"`, false, OtherVersion, "riddle-laws/1"},
	{"another form", RunForm, "riddle.journal/2", false, OtherVersion, "riddle.journal/2"},
	{"no name of laws", sim.Model, "riddle laws", false, Damaged, "model"},
	{"a setting, sealed", `"fan_speed_rpm": 910`, `"fan_speed_rpm": 995`, true, Altered, "digest"},
	{"the random number, sealed", `9223372036854775819`, `9223372036854775818`, true, Altered, "digest"},
	{"a command left out, sealed", "    [7,\"fan-speed\",1033.25],\n", "", true, Altered, "digest"},
	{"a command later, sealed", `[200,"yield"`, `[201,"yield"`, true, Altered, "digest"},
	{"a command put in, sealed", `    [200,"yield"`, `    [100,"unload",true],` + "\n" + `    [200,"yield"`, true, Altered, "digest"},
	{"the field, sealed", `"from_m": 3`, `"from_m": 4`, true, Altered, "digest"},
	{"what is held, sealed", `"side-slope"`, `"green-weeds"`, true, Altered, "digest"},
	{"another digest, sealed", `"digest": "`, `"digest": "0000000000000000000000000000000000000000000000000000000000000000","x": "`, true, Damaged, "claimed"},
	{"the claim's end, sealed", `"to_tick": 360`, `"to_tick": 480`, true, Altered, "480 ticks"},
	{"out of range, sealed", `1033.25`, `9033.25`, true, Damaged, "200 to 1800 rpm"},
	{"no such setting, sealed", `[7,"fan-speed",1033.25]`, `[7,"fan",1033.25]`, true, Damaged, `"fan"`},
	{"a switch that is a number, sealed", `[0,"chopper",false]`, `[0,"chopper",7]`, true, Damaged, "on or off"},
	{"back in time, sealed", `[200,"yield"`, `[5,"yield"`, true, Damaged, "7 to 360"},
	{"after the end, sealed", `[360,"lower-sieve"`, `[361,"lower-sieve"`, true, Damaged, "222 to 360"},
	{"half a tick, sealed", `[200,"yield"`, `[200.5,"yield"`, true, Damaged, "whole number"},
	{"window turned round, sealed", `"from_tick": 120`, `"from_tick": 361`, true, Damaged, "at most to_tick"},
	{"days of work, sealed", `"to_tick": 360`, `"to_tick": 99999999999`, true, Damaged, "10800000"},
	{"an unknown crop, sealed", `"wheat",`, `"moss",`, true, Damaged, "moss"},
	{"an unknown name, sealed", `"seed": `, `"colour": "red", "seed": `, true, Damaged, "colour"},
	{"a name twice", `"seed": `, `"seed": 1, "seed": `, false, Damaged, "twice"},
	{"a condition missing, sealed", `"bar_wear": 0,`, ``, true, Damaged, "start.conditions.bar_wear: is missing"},
	{"something behind it", "", "{}", false, Damaged, "follows"},
}

// What was done to a file is told in the right word, and in one line that names
// the place.
func TestAlterationsAreToldApart(t *testing.T) {
	whole := shortFile(t)
	for _, c := range alterations {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			text := whole + c.with
			if c.old != "" {
				require.Contains(t, whole, c.old)
				text = strings.Replace(whole, c.old, c.with, 1)
			}
			if c.sealed {
				text = seal(t, text)
			}
			r := verdict(t, text)
			require.Equal(t, c.want, r.Verdict, r.Reason)
			require.Contains(t, r.Reason, c.says)
			require.Equal(t, c.want == Altered, r.Run != nil, "only what can be read and is of these laws is made again")
		})
	}
	digest := strings.Index(whole, `"digest": "`) + len(`"digest": "`)
	forged := seal(t, whole[:digest]+strings.Repeat("0", 64)+whole[digest+64:])
	r := verdict(t, forged)
	require.Equal(t, Altered, r.Verdict)
	require.Equal(t, strings.Repeat("0", 64), r.Claimed)
}

// Wherever a byte is another, or the end is missing, the file is not the same
// any more; and it is damaged, save in the few bytes that name laws and form.
func TestNoByteCanBeChanged(t *testing.T) {
	whole := shortFile(t)
	from, to := strings.Index(whole, `"start"`), len(whole)
	for i := range whole {
		text := []byte(whole)
		if text[i] ^= 1; text[i] == '\t' || strings.TrimSpace(whole[i:i+1]) == "" {
			continue // a blank as another, or a letter for one
		}
		got, err := ReadRun(text)
		if err == nil {
			t.Fatalf("byte %d, %q for %q, makes no difference", i, text[i], whole[i])
		}
		if i > from && i < to {
			require.NotEqual(t, Newer, err.(*Error).Code, "%d %s", i, err)
			require.NotEqual(t, Foreign, err.(*Error).Code, "%d %s", i, err)
			require.Equal(t, Ran{}, got)
		}
	}
	for n := range len(whole) - 1 {
		if strings.TrimSpace(whole[n:]) == "" {
			continue
		}
		_, err := ReadRun([]byte(whole[:n]))
		require.Error(t, err, n)
		if n > 60 {
			require.Equal(t, Broken, err.(*Error).Code, "%d %s", n, err)
		}
	}
}

func TestWhatIsNoRunIsSaidToBeNone(t *testing.T) {
	s, err := setup.Default("wheat")
	require.NoError(t, err)
	k := Kept{Model: sim.Model, Setup: s}
	for name, text := range map[string]string{
		"empty": "", "a setup": string(k.File()), "a picture": "\x89PNG\r\n", "a report": `{"schema":"riddle.report/1","digest":"00"}`, "a list": "[1,2]",
	} {
		_, err := Replay([]byte(text), nil)
		require.ErrorContains(t, err, "not made by Riddle", name)
	}
}

// A file is bounded, and so is what it can ask for.
func TestRunsThatCannotBeKept(t *testing.T) {
	r, err := short()
	require.NoError(t, err)
	many := r
	many.Journal.Commands = make([]journal.Command, MaxCommands+1)
	stopped := r
	stopped.Journal.Start.Setup.Stopped = setup.FanPart
	long := r
	long.Window.To = MaxTicks + 1
	for says, k := range map[string]Ran{"100000": many, "stand still": stopped, "90000 s": long} {
		_, err := k.File()
		require.ErrorContains(t, err, says)
	}
	many.Journal.Commands = nil
	for range MaxCommands {
		many.Journal.Commands = append(many.Journal.Commands, journal.Command{Tick: 300, Field: setup.Find("fan-speed"), Value: 1000.125})
	}
	text, err := many.File()
	require.NoError(t, err, "as many as that fit")
	got, err := ReadRun(text)
	require.NoError(t, err)
	require.Len(t, got.Journal.Commands, MaxCommands)
	_, err = ReadRun(append(text, bytes.Repeat([]byte(" "), MaxRunBytes)...))
	require.ErrorContains(t, err, "4 MB")
}

// Whatever comes in: an error on one line and nothing else, or a run that is
// legal, bounded and written as it was read.
func FuzzRun(f *testing.F) {
	whole := shortFile(f)
	f.Add([]byte(whole))
	for _, c := range alterations {
		f.Add([]byte(strings.Replace(whole, c.old, c.with, 1)))
	}
	f.Add([]byte(`{"schema":"riddle.journal/1","commands":[[]],"claimed":{"tick":1e99},"checksum":0}`))
	f.Fuzz(func(t *testing.T, text []byte) {
		for _, text := range [][]byte{text, sealed(text)} {
			k, err := ReadRun(text)
			if err != nil {
				require.NotContains(t, err.Error(), "\n")
				require.Less(t, len(err.Error()), 400)
				require.Zero(t, k.Journal, "nothing is given back of it")
				continue
			}
			s := k.Journal.Start
			require.NoError(t, s.Setup.Validate())
			require.NoError(t, s.From.Validate())
			require.LessOrEqual(t, k.Ticks, int64(MaxTicks))
			again, err := k.File()
			require.NoError(t, err)
			same, err := ReadRun(again)
			require.NoError(t, err)
			require.True(t, reflect.DeepEqual(k, same))
		}
	})
}

// sealed puts a checksum that holds under whatever can be read, so that the
// fuzzer gets behind it.
func sealed(text []byte) []byte {
	d := json.NewDecoder(bytes.NewReader(text))
	d.UseNumber()
	var top map[string]any
	if d.Decode(&top) != nil || top == nil {
		return text
	}
	top["checksum"] = checksum(top)
	out, err := json.Marshal(top)
	if err != nil {
		return text
	}
	return out
}
