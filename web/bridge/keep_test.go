package bridge

import (
	"encoding/csv"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"riddle/sim"
	"riddle/sim/setup"
	"riddle/web/reading"
	keep "riddle/web/share"
)

// A link opens a machine that then runs to the very same state.
func TestLinkAndFileOpenTheSameMachine(t *testing.T) {
	s := NewSession()
	require.Empty(t, send(t, s, Command{Do: "situation", Name: "wheat-weedy"}).Error)
	require.Empty(t, send(t, s, Command{Do: "seed", Text: "18446744073709551615"}).Error)
	require.Empty(t, send(t, s, Command{Do: "set", Name: "fan-speed", Text: "1003"}).Error)
	k := s.kept()
	send(t, s, Command{Do: "reset"})
	send(t, s, Command{Do: "step", Value: 300})
	for _, c := range []Command{{Do: "open.link", Text: "#" + k.Link()}, {Do: "open.file", Text: string(k.File())}} {
		other := NewSession()
		require.Empty(t, send(t, other, Command{Do: "crop", Name: "corn"}).Error)
		require.Empty(t, send(t, other, c).Error)
		require.Equal(t, s.run.Machine.Setup(), other.run.Machine.Setup())
		require.Equal(t, "wheat-weedy", other.Setup().Scene.Name)
		require.True(t, other.run.Warming(), "it fills at once")
		send(t, other, Command{Do: "step", Value: 300})
		require.Equal(t, s.run.Machine.Digest(), other.run.Machine.Digest())
	}
}

// What is damaged changes nothing, and is said in words of the catalogue.
func TestDamagedLinkLeavesTheMachine(t *testing.T) {
	s := NewSession()
	send(t, s, Command{Do: "set", Name: "fan-speed", Text: "777"})
	send(t, s, Command{Do: "step", Value: 200})
	set, digest, told := s.run.Machine.Setup(), s.run.Machine.Digest(), s.run.Notice.ID
	for _, c := range []struct {
		command Command
		key     string
	}{
		{Command{Do: "open.link", Text: ""}, "keep.fault.foreign"},
		{Command{Do: "open.link", Text: "v=9&crop=wheat&end"}, "keep.fault.newer"},
		{Command{Do: "open.link", Text: "v=1&crop=wheat&seed=1&fan-speed=9"}, "keep.fault.short"},
		{Command{Do: "open.link", Text: "v=1&crop=wheat&seed=1&fan-speed=5000&end"}, "keep.fault.range"},
		{Command{Do: "open.link", Text: "v=1&crop=moss&seed=1&end"}, "keep.fault.value"},
		{Command{Do: "open.file", Text: "dear diary"}, "keep.fault.text"},
		{Command{Do: "open.file", Text: `{"schema":"riddle.setup/9"}`}, "keep.fault.newer"},
		{Command{Do: "open.file", Text: `{"schema":"riddle.scenario/1"}`}, "keep.fault.situation"},
		{Command{Do: "open.file", Text: "\ufffdPNG\r\n\x1a\n"}, "keep.fault.picture"},
		{Command{Do: "open.link", Text: "v=1&crop=corn&seed=1&reel-index=1.2&end"}, "keep.fault.none"},
	} {
		r := send(t, s, c.command)
		require.NotEmpty(t, r.Error)
		require.NotContains(t, r.Error, "\n")
		require.Equal(t, c.key, r.Say.Key)
		require.Equal(t, set, s.run.Machine.Setup())
		require.Equal(t, digest, s.run.Machine.Digest())
		require.Equal(t, told, s.run.Notice.ID)
		require.False(t, s.run.Warming())
	}
}

func TestOtherLawsAreTold(t *testing.T) {
	s := NewSession()
	set, err := setup.Default("wheat")
	require.NoError(t, err)
	k := keep.Kept{Model: "riddle-laws/0", Setup: set}
	require.Empty(t, send(t, s, Command{Do: "open.link", Text: k.Link()}).Error)
	require.Equal(t, "keep.laws", s.State().Notice.Key)
	k.Model = sim.Model
	require.Empty(t, send(t, s, Command{Do: "open.link", Text: k.Link()}).Error)
	require.Nil(t, s.State().Notice)
}

// The file of readings is read by the standard library's reader, has a line a
// second, names columns as a report does, and says what each second was set to.
func TestCSVTellsEverySecond(t *testing.T) {
	s := NewSession()
	send(t, s, Command{Do: "step", Value: 40 * sim.TickHz})
	require.Empty(t, send(t, s, Command{Do: "set", Name: "fan-speed", Text: "1300"}).Error)
	send(t, s, Command{Do: "step", Value: 20 * sim.TickHz})
	text := s.read().CSV()
	require.Contains(t, text, "\r\n")
	lines, err := csv.NewReader(strings.NewReader(text)).ReadAll() // equal lengths too
	require.NoError(t, err)
	require.Len(t, lines, 61)
	at := func(line int, name string) float64 {
		i := slices.Index(lines[0], name)
		require.GreaterOrEqual(t, i, 0, name)
		v, err := strconv.ParseFloat(lines[line][i], 64)
		require.NoError(t, err, "%s in line %d", name, line)
		return v
	}
	for i := 1; i <= 60; i++ {
		require.EqualValues(t, i, at(i, "time_s"))
		switch span := at(i, "window_s"); {
		case i <= 11 || i >= 26: // while nothing comes out, and once it has for longer than the window
			require.EqualValues(t, min(i, reading.ShortWindow), span)
		default:
			require.LessOrEqual(t, span, float64(reading.ShortWindow))
			require.Positive(t, span)
		}
	}
	require.Equal(t, 910.0, at(39, "fan_speed_rpm"))
	require.Equal(t, 1300.0, at(41, "fan_speed_rpm"))
	for i := range setup.Fields {
		at(60, setup.Fields[i].Key)
	}
	w := s.read().Window(reading.ShortWindow)
	require.InDelta(t, *w.Report.Loss.Shoe, at(60, "loss_shoe_pct"), 1e-4)
	require.InDelta(t, *w.Report.Loss.Total, at(60, "loss_total_pct"), 1e-4)

	require.Empty(t, send(t, s, Command{Do: "units", Name: "us"}).Error)
	lines, err = csv.NewReader(strings.NewReader(s.read().CSV())).ReadAll()
	require.NoError(t, err)
	require.InDelta(t, s.run.Machine.Setup().Settings.Upper/25.4, at(60, "upper_sieve_in"), 1e-4)
	require.InDelta(t, s.run.Machine.Setup().Settings.GroundSpeed/1.609344, at(60, "ground_speed_mph"), 1e-4)
}
