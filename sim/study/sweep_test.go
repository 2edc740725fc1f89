package study

import (
	"errors"
	"testing"

	"github.com/stretchr/testify/require"

	"riddle/sim/readout"
	"riddle/sim/setup"
)

func wheat(t *testing.T) setup.Setup {
	t.Helper()
	s, err := setup.Default("wheat")
	require.NoError(t, err)
	return s
}

// TestValues: 700 to 1,100 in nine steps of fifty, as a hand would write them,
// and down again; tenths stay tenths.
func TestValues(t *testing.T) {
	up := Sweep{wheat(t), setup.Find("fan-speed"), 700, 1100, 9}
	require.Equal(t, []float64{700, 750, 800, 850, 900, 950, 1000, 1050, 1100}, values(up))
	down := Sweep{wheat(t), setup.Find("fan-speed"), 900, 700, 3}
	require.Equal(t, []float64{900, 800, 700}, values(down))
	tenths := Sweep{wheat(t), setup.Find("ground-speed"), 5, 5.6, 7}
	require.Equal(t, []float64{5, 5.1, 5.2, 5.3, 5.4, 5.5, 5.6}, values(tenths))
}

func values(w Sweep) []float64 {
	list := []float64{}
	for i := range w.Points {
		list = append(list, w.Value(i))
	}
	return list
}

// parabola stands in for a machine whose shoe loss is known: (fan − 900)².
func parabola(s setup.Setup) (readout.Report, error) {
	off := s.Settings.Fan - 900
	loss := off * off
	return readout.Report{Crop: s.Crop, Loss: readout.Loss{Shoe: &loss}}, nil
}

// TestCurve asks in order, changes nothing else, and finds the bottom of a
// parabola.
func TestCurve(t *testing.T) {
	w := Sweep{wheat(t), setup.Find("fan-speed"), 700, 1100, 5}
	c, err := w.Run(func(s setup.Setup) (readout.Report, error) {
		same := wheat(t)
		same.Settings.Fan = s.Settings.Fan
		require.Equal(t, same, s)
		return parabola(s)
	})
	require.NoError(t, err)
	require.Equal(t, "fan-speed", c.Vary)
	require.Equal(t, "rpm", c.Unit)
	for i, want := range []float64{40000, 10000, 0, 10000, 40000} {
		require.Equal(t, want, *c.Points[i].Report.Loss.Shoe)
	}
	least, ok := c.Least(Shoe.Get)
	require.True(t, ok)
	require.Equal(t, Lowest{At: 900, Value: 0, Inside: true}, least)
	_, ok = c.Least(Walker.Get)
	require.False(t, ok, "nothing was read of the walkers")

	failing := errors.New("out of straw")
	_, err = w.Run(func(setup.Setup) (readout.Report, error) { return readout.Report{}, failing })
	require.ErrorIs(t, err, failing)
}

// TestSweepRefuses names what cannot be varied.
func TestSweepRefuses(t *testing.T) {
	corn, err := setup.Default("corn")
	require.NoError(t, err)
	fan := setup.Find("fan-speed")
	for name, w := range map[string]Sweep{
		"a switch":         {wheat(t), setup.Find("chopper"), 0, 1, 2},
		"no such part":     {corn, setup.Find("reel-index"), 1, 1.5, 3},
		"one value":        {wheat(t), fan, 800, 800, 3},
		"one point":        {wheat(t), fan, 800, 900, 1},
		"too many points":  {wheat(t), fan, 800, 900, 1001},
		"below its range":  {wheat(t), fan, 100, 900, 3},
		"above its range":  {wheat(t), fan, 900, 1801, 3},
		"below from above": {wheat(t), fan, 900, 199, 3},
	} {
		var bad *setup.Error
		require.ErrorAs(t, w.Validate(), &bad, name)
		_, err := w.Run(parabola)
		require.Error(t, err, name)
	}
}
