package bridge

import (
	"encoding/json"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"riddle/render"
	"riddle/sim"
	"riddle/sim/stage/flow"
	"riddle/sim/stage/section"
)

// ran returns a session whose machine has worked for some seconds.
func ran(t *testing.T, seconds int) *Session {
	t.Helper()
	s := NewSession()
	require.Empty(t, reply(t, s.Do(`{"do":"step","value":`+trim(float64(seconds*sim.TickHz))+`}`)).Error)
	return s
}

func TestARideTellsAndRewinds(t *testing.T) {
	s := ran(t, 25)
	require.Nil(t, s.rideState())
	require.Empty(t, reply(t, s.Do(`{"do":"ride","name":"walker"}`)).Error)
	st := s.rideState()
	require.NotNil(t, st)
	assert.True(t, st.Done)
	require.Greater(t, len(st.Story), 4)
	assert.Equal(t, "story.lost.walker", st.Story[len(st.Story)-1].Text.Key)
	for _, line := range st.Story {
		assert.Contains(t, withForms(Words(), line.Text.Key), line.Text.Key, "every sentence has its words")
		assert.True(t, line.Past)
	}
	middle := (st.From + st.To) / 2
	require.Empty(t, reply(t, s.Do(`{"do":"ride-to","value":`+trim(float64(middle))+`}`)).Error)
	back := s.rideState()
	assert.Equal(t, middle, back.At)
	assert.False(t, back.Live)
	assert.False(t, back.Story[len(back.Story)-1].Past)
	trail := s.trail()
	assert.True(t, trail.Ring)
	assert.Positive(t, trail.Gone)
	assert.Less(t, trail.Gone, len(trail.Way))
	s.Do(`{"do":"ride-off"}`)
	assert.Nil(t, s.rideState())
	assert.Nil(t, s.trail())
}

// withForms returns the keys of a catalogue, with those that a count decides.
func withForms(words map[string]string, key string) map[string]bool {
	have := map[string]bool{}
	for _, k := range [...]string{key, key + ".other"} {
		if words[k] != "" {
			have[key] = true
		}
	}
	return have
}

func TestARideThatCannotBeIsRefused(t *testing.T) {
	s := NewSession()
	for _, c := range []string{`{"do":"ride","name":"walker"}`, `{"do":"ride","name":"next"}`, `{"do":"ride","name":"nowhere"}`, `{"do":"ride-to","value":5}`} {
		assert.NotEmpty(t, reply(t, s.Do(c)).Error, c)
	}
}

func TestAPieceIsFollowedIntoTheMachine(t *testing.T) {
	s := ran(t, 8)
	require.Empty(t, reply(t, s.Do(`{"do":"ride","name":"next"}`)).Error)
	before, ok := s.rideSpot()
	require.True(t, ok)
	s.Do(`{"do":"step","value":240}`)
	s.trail()
	after, ok := s.rideSpot()
	require.True(t, ok)
	assert.Greater(t, after.X, before.X+0.3)
}

func TestTheEyeKeepsItsMiddleInTheMachine(t *testing.T) {
	var e eye
	now := render.Zones[0].Rect
	for range 30 {
		require.NoError(t, e.move(Move{Zoom: 1.5, At: &Spot{0.9, 0.1}, DX: 0.4, DY: 0.3}, now))
		now = e.frame
		whole, x, y := render.Zones[0].Rect, (now.X0+now.X1)/2, (now.Y0+now.Y1)/2
		require.True(t, x > whole.X0-1e-9 && x < whole.X1+1e-9 && y > whole.Y0-1e-9 && y < whole.Y1+1e-9, "%v", now)
		assert.GreaterOrEqual(t, now.X1-now.X0, nearest-1e-9)
	}
	// The spot under the pointer stays where it is while zooming.
	before := render.Rect{X0: 0, Y0: 1, X1: 2, Y1: 2}
	require.NoError(t, e.move(Move{Zoom: 2, At: &Spot{0.25, 0.5}}, before))
	assert.InDelta(t, 0.5, e.frame.X0+0.25*(e.frame.X1-e.frame.X0), 1e-9)
	for _, bad := range []float64{math.NaN(), math.Inf(1), 1e9} {
		assert.Error(t, e.move(Move{DX: bad}, before))
	}
	require.NoError(t, e.move(Move{Home: true}, before))
	assert.True(t, e.frame.Empty())
}

func TestTheLensGoesWithTheKernel(t *testing.T) {
	var e eye
	assert.True(t, e.follow(section.Point{X: 1, Y: 1}, 2))
	assert.False(t, e.follow(section.Point{X: 1.1, Y: 1}, 2), "it stays while the kernel is in its middle")
	assert.True(t, e.follow(section.Point{X: 1.5, Y: 1}, 2))
	assert.True(t, e.frame.Contains(section.Point{X: 1.5, Y: 1}))
}

// A rotor that is drawn at a share of its turning goes on by less than a
// quarter of the way between two bars from picture to picture.
func TestRotorsDoNotStrobe(t *testing.T) {
	for _, speed := range Speeds {
		const rpm, bars, pictures = 1000.0, section.RaspBars, 30.0
		turned := rpm / 60 * speed * rotorShare(speed) / pictures * bars // of the way between two bars
		assert.LessOrEqual(t, turned, 0.3, "×%v", speed)
		assert.Equal(t, rotorShare(speed) < 1, rotors(speed) != nil, "it is said")
	}
}

func TestThePictureInWordsSaysWhatIsWhere(t *testing.T) {
	s := ran(t, 20)
	st := s.State()
	keys := map[string]*Message{}
	for _, m := range st.Twin {
		keys[m.Key] = m
	}
	require.Contains(t, keys, "sight.walkers")
	n := int64(0)
	for _, d := range s.snap.Dots[sim.Walking] {
		n += int64(d.Grain)
	}
	assert.Equal(t, n/flow.Kernel, keys["sight.walkers"].With["n"])
	assert.Contains(t, keys, "sight.upper")
}

func reply(t *testing.T, text string) (r Reply) {
	t.Helper()
	require.NoError(t, json.Unmarshal([]byte(text), &r))
	return r
}
