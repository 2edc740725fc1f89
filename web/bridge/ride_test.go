package bridge

import (
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"riddle/sim"
	"riddle/sim/stage/flow"
	"riddle/web/speak"
)

// ran returns a session whose machine has worked for some seconds.
func ran(t *testing.T, seconds int) *Session {
	t.Helper()
	s := NewSession()
	require.Empty(t, reply(t, s.Do(`{"do":"step","value":`+speak.Trim(float64(seconds*sim.TickHz))+`}`)).Error)
	return s
}

func TestARideTellsAndRewinds(t *testing.T) {
	s := ran(t, 25)
	require.Nil(t, s.ride.Tell(s.units()))
	require.Empty(t, reply(t, s.Do(`{"do":"ride","name":"walker"}`)).Error)
	st := s.ride.Tell(s.units())
	require.NotNil(t, st)
	assert.True(t, st.Done)
	require.Greater(t, len(st.Story), 4)
	assert.Equal(t, "story.lost.walker", st.Story[len(st.Story)-1].Text.Key)
	for _, line := range st.Story {
		assert.Contains(t, withForms(speak.Words(), line.Text.Key), line.Text.Key, "every sentence has its words")
		assert.True(t, line.Past)
	}
	middle := (st.From + st.To) / 2
	require.Empty(t, reply(t, s.Do(`{"do":"ride-to","value":`+speak.Trim(float64(middle))+`}`)).Error)
	back := s.ride.Tell(s.units())
	assert.Equal(t, middle, back.At)
	assert.False(t, back.Live)
	assert.False(t, back.Story[len(back.Story)-1].Past)
	trail := s.ride.Trail()
	assert.True(t, trail.Ring)
	assert.Positive(t, trail.Gone)
	assert.Less(t, trail.Gone, len(trail.Way))
	s.Do(`{"do":"ride-off"}`)
	assert.Nil(t, s.ride.Tell(s.units()))
	assert.Nil(t, s.ride.Trail())
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
	before, ok := s.ride.Spot()
	require.True(t, ok)
	s.Do(`{"do":"step","value":240}`)
	s.ride.Trail()
	after, ok := s.ride.Spot()
	require.True(t, ok)
	assert.Greater(t, after.X, before.X+0.3)
}

func TestThePictureInWordsSaysWhatIsWhere(t *testing.T) {
	s := ran(t, 20)
	st := s.State()
	keys := map[string]*speak.Message{}
	for _, m := range st.Twin {
		keys[m.Key] = m
	}
	require.Contains(t, keys, "sight.walkers")
	n := int64(0)
	for _, d := range s.run.Snap.Dots[sim.Walking] {
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
