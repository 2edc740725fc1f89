package bridge

import (
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/require"

	"riddle/sim"
	"riddle/sim/setup"
)

// ask sends a message to a host and reads the answer into a value of its type.
func ask[T any](t *testing.T, h *Host, text string) (answer T) {
	t.Helper()
	got, _ := h.Ask(text)
	require.NoError(t, json.Unmarshal([]byte(got), &answer), got)
	return answer
}

// shownHost is a host whose picture has a size.
func shownHost() *Host {
	h := newHost()
	h.width, h.height = 1200, 560
	return h
}

// Every kind of message is read from its own name and answered in JSON, with one
// machine and with two; commands are answered by a Reply.
func TestEveryMessageIsAnswered(t *testing.T) {
	parts := map[string]string{
		"speed": `,"value":2`, "seed": `,"text":"7"`, "crop": `,"name":"oats"`, "set": `,"name":"fan-speed","text":"700"`, "nudge": `,"name":"fan-speed","up":true`,
		"units": `,"name":"us"`, "price": `,"value":6`, "second.set": `,"name":"fan-speed","text":"800"`, "second.nudge": `,"name":"fan-speed"`,
		"look": `,"zone":"upper","theme":"night"`, "names": `,"words":{"fan":"Ventilator"}`, "touch": `,"x":0.5,"y":0.5`, "curve": `,"name":"fan-speed"`, "chart": `,"after":1`,
		"move": `,"zoom":2`, "pair.copy": `,"name":"first"`,
	}
	refused := map[string]bool{"open.link": true, "open.file": true, "ride": true, "ride-to": true, "undo": true, "grasp": true} // without what they ask for
	for _, two := range []bool{false, true} {
		for _, kind := range Kinds() {
			h := shownHost()
			if two {
				ask[Reply](t, h, `{"do":"pair.begin"}`)
			}
			got, file := h.Ask(`{"do":"` + kind + `"` + parts[kind] + `}`)
			require.True(t, json.Valid([]byte(got)), kind)
			require.Equal(t, kind == "picture", len(file) > 0, kind)
			m, err := read(`{"do":"` + kind + `"` + parts[kind] + `}`)
			require.NoError(t, err, kind)
			if _, question := h.tell(m); question {
				continue
			}
			var r Reply
			require.NoError(t, json.Unmarshal([]byte(got), &r), kind)
			bad := refused[kind] || !two && (kind == "second.set" || kind == "second.nudge")
			require.Equal(t, bad, r.Error != "", "%s: %s", kind, r.Error)
		}
	}
}

// What is no message changes nothing and is said so.
func TestWhatIsNoMessageIsRefused(t *testing.T) {
	h := shownHost()
	before := h.run.Machine.Digest()
	for _, text := range []string{
		``, `null`, `[]`, `{}`, `{"do":"harvest"}`, `{"do":"set","name":"fan-speed","value":900}`, `{"do":"step","value":"ten"}`, `{"do":"start","now":true}`, `{"do":"look","words":{}}`,
	} {
		require.NotEmpty(t, ask[Reply](t, h, text).Error, text)
	}
	require.Equal(t, before, h.run.Machine.Digest())
	require.False(t, h.run.Running)
}

// A machine that had to start anew comes back by messages, with the second one
// and the view.
func TestAMachineComesBackByMessages(t *testing.T) {
	old := shownHost()
	for _, text := range []string{
		`{"do":"situation","name":"wheat-green-patch"}`, `{"do":"pair.begin"}`, `{"do":"set","name":"fan-speed","text":"777"}`,
		`{"do":"second.set","name":"lower-sieve","text":"5"}`, `{"do":"units","name":"us"}`, `{"do":"speed","value":4}`, `{"do":"look","zone":"upper","theme":"paper"}`,
	} {
		require.Empty(t, ask[Reply](t, old, text).Error, text)
	}
	text, _ := old.Ask(`{"do":"standing"}`)
	fresh := shownHost()
	require.Empty(t, ask[Reply](t, fresh, `{"do":"comeback",`+text[1:]).Error)
	was, is := old.Setup(), fresh.Setup()
	require.Equal(t, was.Scene.Name, is.Scene.Name)
	require.Equal(t, []any{"us", 4.0, was.Seed, "upper"}, []any{is.Units, is.Speed, is.Seed, fresh.look.Zone})
	for fresh.run.Playing() || fresh.pair.Second.run.Playing() {
		fresh.advance(never)
	}
	require.Equal(t, old.Setup().Controls, fresh.Setup().Controls)
	require.Equal(t, old.pair.Second.run.Machine.Setup(), fresh.pair.Second.run.Machine.Setup())
	require.Equal(t, old.run.Machine.Digest(), fresh.run.Machine.Digest())
}

// A step of a control goes to the next value of the units in hand, in the machine
// that is meant, and no farther than is legal.
func TestNudgesGoByTheStepsOfTheUnits(t *testing.T) {
	h := shownHost()
	fan := func(s *Session) float64 { return s.run.Machine.Setup().Settings.Fan }
	require.Equal(t, 910.0, fan(h.Session))
	ask[Reply](t, h, `{"do":"nudge","name":"fan-speed","up":true}`)
	require.Equal(t, 920.0, fan(h.Session))
	ask[Reply](t, h, `{"do":"set","name":"fan-speed","text":"923"}`)
	ask[Reply](t, h, `{"do":"nudge","name":"fan-speed"}`)
	require.Equal(t, 920.0, fan(h.Session), "from between two steps to the next")
	ask[Reply](t, h, `{"do":"set","name":"fan-speed","text":"1800"}`)
	require.Empty(t, ask[Reply](t, h, `{"do":"nudge","name":"fan-speed","up":true}`).Error)
	require.Equal(t, setup.Find("fan-speed").To, fan(h.Session))

	ask[Reply](t, h, `{"do":"units","name":"us"}`)
	ask[Reply](t, h, `{"do":"set","name":"upper-sieve","text":"5/8"}`)
	ask[Reply](t, h, `{"do":"nudge","name":"upper-sieve","up":true}`)
	require.InDelta(t, 25.4*21/32, h.run.Machine.Setup().Settings.Upper, 1e-9)

	ask[Reply](t, h, `{"do":"pair.begin"}`)
	ask[Reply](t, h, `{"do":"second.nudge","name":"fan-speed"}`)
	require.Equal(t, 1800.0, fan(h.pair.First))
	require.Equal(t, 1790.0, fan(h.pair.Second))
	require.NotEmpty(t, ask[Reply](t, h, `{"do":"second.nudge","name":"yield","up":true}`).Error, "that is one for both")
	require.NotEmpty(t, ask[Reply](t, h, `{"do":"nudge","name":"chopper"}`).Error)
}

// A spot of the picture is a question for the part that lies there, and for the
// kernel.
func TestSpotsOfThePicture(t *testing.T) {
	h := shownHost()
	fan := h.maps.Map(h.Snapshot(), h.options()).Parts["fan"]
	at := `,"x":` + encode(fan.X) + `,"y":` + encode(fan.Y) + `}`
	require.JSONEq(t, `{"part":"fan","setting":"fan-speed"}`, encode(ask[any](t, h, `{"do":"touch"`+at)))
	r := ask[Reply](t, h, `{"do":"grasp"`+at)
	require.Equal(t, "ride.nothing", r.Say.Key)
	ask[Reply](t, h, `{"do":"step","value":`+encode(15*sim.TickHz)+`}`)
	v := h.options().View()
	d := h.run.Snap.Dots[sim.Walking][0]
	x, y := (float64(d.X)-v.Rect.X0)/(v.Rect.X1-v.Rect.X0), (v.Rect.Y1-float64(d.Y))/(v.Rect.Y1-v.Rect.Y0)
	require.Empty(t, ask[Reply](t, h, `{"do":"grasp","x":`+encode(x)+`,"y":`+encode(y)+`}`).Error)
	require.NotNil(t, h.State().Ride)
}
