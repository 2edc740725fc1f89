package study

import (
	"errors"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"riddle/sim/read/readout"
	"riddle/sim/setup"
)

// bowl stands in for a machine whose cost is known: three valleys, the fan's
// lying aslant of the upper sieve's, and a threshing setting whose best lies
// beyond its usual range. The least is at fan 940, upper 17.5, lower 7 and the
// top of the cylinder's range.
func bowl(s setup.Setup) (readout.Report, error) {
	set := s.Settings
	fan, upper := (set.Fan-940)/100, (set.Upper-17.5)/2
	loss := 1 + (fan+upper)*(fan+upper) + 0.05*(fan-upper)*(fan-upper)
	loss += math.Abs(set.Lower-7) + math.Abs(set.CylinderSpeed-1200)/100
	zero, mog := 0.0, 50.0
	money := readout.Money{LossPerHa: &loss, DiscountHa: &zero, CostPerHa: &loss, CropPerHa: &mog}
	return readout.Report{
		Crop: s.Crop, State: "running", Money: money, Tank: readout.Tank{Broken: &zero, Foreign: &zero}, Returns: readout.Returns{OfGrain: &zero, MOG: &mog}, Feed: readout.Feed{GrainKgS: &mog},
	}, nil
}

// TestTuneFindsTheBottom of a cost whose bottom is known, from a start that
// lies outside the usual ranges.
func TestTuneFindsTheBottom(t *testing.T) {
	base := wheat(t)
	base.Settings.Fan, base.Settings.Upper = 700, 12
	told := 0
	got, err := Tune(Question{Base: base, Ask: OneByOne(bowl), Progress: func(n int) { told = n }})
	require.NoError(t, err)
	require.Equal(t, 940.0, got.Found.Settings.Fan)
	require.Equal(t, 17.5, got.Found.Settings.Upper)
	require.Equal(t, 7.0, got.Found.Settings.Lower)
	require.Equal(t, 960.0, got.Found.Settings.CylinderSpeed, "the top of the usual range")
	require.Equal(t, base.Settings.GroundSpeed, got.Found.Settings.GroundSpeed)
	require.Equal(t, base.Conditions, got.Found.Conditions)
	require.Equal(t, got.Settings["fan_speed_rpm"], 940.0)
	require.Positive(t, told)
	require.LessOrEqual(t, got.Evaluations, 600, "seconds, at 20 ms each")
	t.Log(got.Evaluations)

	// The steps lead from the one to the other, each a single change.
	at := base
	for _, st := range got.Steps {
		f := setup.Find(st.Setting)
		require.Equal(t, st.From, f.Get(&at))
		require.NoError(t, f.Set(&at, st.To))
		r, _ := bowl(at)
		require.Equal(t, *r.Money.LossPerHa, *st.After)
	}
	require.Equal(t, got.Found, at)
	again, err := Tune(Question{Base: base, Ask: OneByOne(bowl)})
	require.NoError(t, err)
	require.Equal(t, got, again)
}

// TestTuneKeepsTheLimits: a machine that slows with the fan above 900 is not
// set there; one that cannot go on anywhere is an error; a reader's error is
// passed on.
func TestTuneKeepsTheLimits(t *testing.T) {
	slows := func(above float64) Reader {
		return func(s setup.Setup) (readout.Report, error) {
			r, err := bowl(s)
			if s.Settings.Fan > above {
				r.State = "slowing"
			}
			return r, err
		}
	}
	got, err := Tune(Question{Base: wheat(t), Ask: OneByOne(slows(900))})
	require.NoError(t, err)
	require.Equal(t, 900.0, got.Found.Settings.Fan)
	require.Nil(t, got.Cost.Before, "the start has the fan at 910")

	held, err := Tune(Question{Base: wheat(t), Hold: []string{"fan-speed", "lower-sieve"}, Ask: OneByOne(bowl)})
	require.NoError(t, err)
	require.Equal(t, 910.0, held.Found.Settings.Fan)
	require.Equal(t, 8.0, held.Found.Settings.Lower)
	require.Equal(t, 960.0, held.Found.Settings.CylinderSpeed)

	_, err = Tune(Question{Base: wheat(t), Ask: OneByOne(slows(0))})
	require.ErrorContains(t, err, "slow down")
	failing := errors.New("no crop")
	_, err = Tune(Question{Base: wheat(t), Ask: OneByOne(func(setup.Setup) (readout.Report, error) { return readout.Report{}, failing })})
	require.ErrorIs(t, err, failing)
}

// TestReturnsFlow: 10 % of 4 kg/s is 0.4 kg/s of grain; with as much other
// material 0.8 kg/s come back.
func TestReturnsFlow(t *testing.T) {
	ten, four, half := 10.0, 4.0, 50.0
	r := readout.Report{State: "running", Returns: readout.Returns{OfGrain: &ten, MOG: &half}, Feed: readout.Feed{GrainKgS: &four}}
	require.InDelta(t, 0.8, *ReturnsKgS(&r), 1e-12)
	require.True(t, Allowed(&r))
	much := 50.0
	r.Returns.OfGrain = &much // 4 kg/s of the 3 that the elevator lifts
	require.False(t, Allowed(&r))
	r.Returns.MOG = nil
	require.Nil(t, ReturnsKgS(&r))
	require.False(t, Allowed(&r))
}

// TestCost: of 45 in all 20 are lost and 5 taken off; 20 are breakage.
func TestCost(t *testing.T) {
	loss, off, all := 20.0, 5.0, 45.0
	r := readout.Report{Money: readout.Money{LossPerHa: &loss, DiscountHa: &off, CostPerHa: &all}}
	c, ok := CostOf(&r)
	require.True(t, ok)
	require.Equal(t, Cost{Loss: 20, Discount: 5, Breakage: 20, Total: 45}, c)
	r.Money.DiscountHa = nil
	_, ok = CostOf(&r)
	require.False(t, ok)
}
