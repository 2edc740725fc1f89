package bridge

import (
	"testing"

	"github.com/stretchr/testify/require"

	"riddle/sim"
	"riddle/web/speak"
)

func slope(s *Session) float64 { return s.run.Machine.Setup().Conditions.SideSlope }

// A situation with a field changes conditions as the machine drives: the side
// hill begins 30 to 50 m on, and a machine at 6.2 km/h has its wheels there
// after some 25 s. The page is told, and what the user sets stays.
func TestConditionsFollowTheField(t *testing.T) {
	s := NewSession()
	require.Empty(t, send(t, s, Command{Do: "situation", Name: "soybeans-rolling-ground"}).Error)
	require.Equal(t, "weather.way", s.Setup().Weather.Key)
	require.Zero(t, slope(s))
	told := s.State().Revision
	send(t, s, Command{Do: "step", Value: 27 * sim.TickHz})
	require.Greater(t, slope(s), 2.0)
	require.Greater(t, s.State().Revision, told, "the page is told")
	shown := 0.0
	for _, c := range s.Setup().Controls {
		if c.Name == "side-slope" {
			shown = c.Value
		}
	}
	require.Equal(t, slope(s), shown)

	require.Empty(t, send(t, s, Command{Do: "set", Name: "side-slope", Text: "-1"}).Error)
	send(t, s, Command{Do: "step", Value: 2 * sim.TickHz})
	require.Equal(t, -1.0, slope(s), "a hand wins")

	send(t, s, Command{Do: "reset"})
	require.Equal(t, -1.0, slope(s))
	require.Zero(t, s.run.Machine.Travelled(), "a new machine at the edge of the field")

	send(t, s, Command{Do: "restore"})
	send(t, s, Command{Do: "step"})
	require.Zero(t, slope(s), "the field takes its own up again")
}

// What the course moves by less than a step makes no other curve of the
// response.
func TestSmallMovesKeepTheCurve(t *testing.T) {
	s := NewSession()
	send(t, s, Command{Do: "situation", Name: "wheat-evening-dew"})
	base := s.run.Machine.Setup()
	send(t, s, Command{Do: "step", Value: 6 * sim.TickHz})
	require.NotEqual(t, base, s.run.Machine.Setup())
	require.Equal(t, base, s.run.Near(base))
	base.Conditions.StrawMoisture += 5
	require.NotEqual(t, base, s.run.Near(base), "this much does")
}

// Reset brings back what the field has changed, not what it has become.
func TestResetGoesBackToTheEdgeOfTheField(t *testing.T) {
	s := NewSession()
	send(t, s, Command{Do: "situation", Name: "soybeans-rolling-ground"})
	send(t, s, Command{Do: "step", Value: 27 * sim.TickHz})
	require.Positive(t, slope(s))
	send(t, s, Command{Do: "reset"})
	require.Zero(t, slope(s))
}

// The evening goes by on the page as in a run, and the page says the hour.
func TestTheDayGoesByOnThePage(t *testing.T) {
	s := NewSession()
	send(t, s, Command{Do: "situation", Name: "wheat-evening-dew"})
	now := func() string {
		return s.Setup().Weather.With["now"].([]*speak.Message)[0].With["time"].(string)
	}
	require.Equal(t, "20:00", now())
	send(t, s, Command{Do: "step", Value: 10 * sim.TickHz})
	require.Equal(t, "20:10", now(), "sixty to one")
	require.Empty(t, s.words().changes(), "what the day does is no change of the user's")
	send(t, s, Command{Do: "crop", Name: "corn"})
	require.Nil(t, s.Setup().Weather)
}
