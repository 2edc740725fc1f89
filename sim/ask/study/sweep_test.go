package study

import (
	"errors"
	"testing"

	"github.com/stretchr/testify/require"

	"riddle/sim/read/readout"
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

// TestBestIsNeverTheWorst: a cutter bar that leaves more and more heads standing
// lets less and less into the machine, which then loses next to nothing of it.
// The best height is that of the least cost, or of the least of all losses;
// never where it plugs, and never where nothing came in. Costs by hand: what is
// lost of a crop worth 1,000.
func TestBestIsNeverTheWorst(t *testing.T) {
	missed := map[float64]float64{20: 3, 40: 2, 60: 30, 80: 99.9, 100: 100}
	read := func(priced bool) Reader {
		return func(s setup.Setup) (readout.Report, error) {
			h := s.Settings.CuttingHeight
			header := missed[h]
			processing := (100 - header) / 100
			total := header + processing*(100-header)/100
			r := readout.Report{Crop: s.Crop, State: "running", Loss: readout.Loss{Header: &header, Processing: &processing, Total: &total}}
			if cost := total * 10; priced {
				if h == 20 { // the straw that comes in makes a poorer sample
					cost += 30
				}
				if h == 80 {
					cost = 0 // a price on nothing
				}
				r.Money.WholeHa = &cost
			}
			return r, nil
		}
	}
	height := setup.Find("cutting-height")
	w := Sweep{wheat(t), height, 20, 100, 5}
	for _, priced := range []bool{true, false} {
		c, err := w.Run(read(priced))
		require.NoError(t, err)
		worst, _ := c.Least(Processing.Get)
		require.Equal(t, 100.0, worst.At, "of what came in, the least is lost where nothing does")
		best, ok := c.Best(height)
		require.True(t, ok)
		require.Equal(t, 40.0, best.At)
		require.Equal(t, priced, best.ByCost)
		require.Equal(t, 1, best.Point)
		require.True(t, best.Inside)

		c.Points[1].Report.State = "plugged"
		best, _ = c.Best(height)
		require.Equal(t, 20.0, best.At, "a machine that plugs is not the best")
		c.Points = c.Points[3:]
		_, ok = c.Best(height)
		require.False(t, ok, "nothing came into the tank")
	}

	// A thin crop has the least to lose, which does not make it the best: where
	// a condition is varied losses are shares.
	yield := Sweep{wheat(t), setup.Find("yield"), 2, 8, 4}
	c, err := yield.Run(func(s setup.Setup) (readout.Report, error) {
		loss, cost := 10-s.Conditions.Yield, s.Conditions.Yield
		return readout.Report{Crop: s.Crop, Loss: readout.Loss{Total: &loss}, Money: readout.Money{WholeHa: &cost}}, nil
	})
	require.NoError(t, err)
	best, _ := c.Best(yield.Field)
	require.Equal(t, 8.0, best.At)
	require.False(t, best.ByCost)
}

// TestBestNamesWhatIsAsGood: of a crop worth 1,000 a hectare half a thousandth
// is 0.5, so that 100.4 is as good as 100 and 100.6 is not; of shares it is half
// a thousandth of the grain. What lies behind a worse value is no part of it.
func TestBestNamesWhatIsAsGood(t *testing.T) {
	costs := map[float64]float64{700: 100.1, 750: 103, 800: 100.4, 850: 100, 900: 100.3, 950: 100.6, 1000: 101}
	read := func(priced bool) Reader {
		return func(s setup.Setup) (readout.Report, error) {
			cost, worth := costs[s.Settings.Fan], 1000.0
			loss := cost / 10
			r := readout.Report{Crop: s.Crop, Loss: readout.Loss{Total: &loss}}
			if priced {
				r.Money = readout.Money{WholeHa: &cost, CropPerHa: &worth}
			}
			return r, nil
		}
	}
	fan := setup.Find("fan-speed")
	for _, w := range []Sweep{{wheat(t), fan, 700, 1000, 7}, {wheat(t), fan, 1000, 700, 7}} {
		for _, priced := range []bool{true, false} {
			c, err := w.Run(read(priced))
			require.NoError(t, err)
			best, ok := c.Best(fan)
			require.True(t, ok)
			require.Equal(t, 850.0, best.At)
			require.Equal(t, 800.0, best.From)
			require.Equal(t, 900.0, best.To)
		}
	}
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
