package readout

import (
	"bytes"
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/require"

	"riddle/sim/stage/flow"
	"riddle/sim/trade/grade"
)

// A machine that plugged before there was a window says where and why, and
// gives no reading: in JSON every one is null, in print there is no table.
func TestNothingIsReadOfWhatWasNotReached(t *testing.T) {
	r := Make(Masses{Scale: 1}, Span{Setup: start(t, "wheat"), State: "plugged", Plug: &Plug{Where: "cylinder", Why: "It stalled."}})
	text, err := json.Marshal(r)
	require.NoError(t, err)
	var all map[string]any
	require.NoError(t, json.Unmarshal(text, &all))
	for _, group := range []string{"feed", "loss_pct", "shoe_loss_pct", "loss_kg_ha", "loss_bu_ac", "loss_kernels_m2", "concave", "returns", "cylinder"} {
		for key, v := range all[group].(map[string]any) {
			require.Nil(t, v, "%s.%s", group, key)
		}
	}
	for key, v := range all["power"].(map[string]any) {
		require.Equal(t, key == "limit_kw", v != nil, key)
	}
	tank := all["tank"].(map[string]any)
	require.Equal(t, "the machine plugged before there was a sample", tank["graded_by"])
	for key, v := range tank {
		if key != "graded_by" && key != "grade_factors" {
			require.Nil(t, v, key)
		}
	}
	for key, v := range tank["grade_factors"].(map[string]any) {
		require.Nil(t, v, key)
	}
	require.Nil(t, r.Money.CostPerHa)
	var b bytes.Buffer
	require.NoError(t, Print(&b, &r))
	for _, words := range []string{"It plugs: cylinder. It stalled.", "engine off", "Ground speed"} {
		require.Contains(t, b.String(), words)
	}
	for _, words := range []string{"–", "rpm,", " kW", "Grain lost", "sound", "Money"} {
		require.NotContains(t, b.String(), words)
	}
}

// What a plugged machine came to is read; its sample is graded only if the
// window was long and the grain came into the tank.
func TestASampleOfAPluggedMachine(t *testing.T) {
	m := Masses{Scale: 1, In: 100, TankGrain: 80, Walker: 20, TankForeign: 20, Sample: grade.Sample{Loose: 80, Chaff: 20}}
	over := Span{Setup: start(t, "wheat"), Seconds: 60, State: "plugged", Plug: &Plug{At: 120, Where: "walkers", Why: "The hood was full."}}
	long := Make(m, over)
	require.NotNil(t, long.Tank.Grade)
	require.NotNil(t, long.Money.CostPerHa)

	over.Seconds = 4
	short := Make(m, over)
	near(t, 20, short.Loss.Walker, "what was lost up to the plug")
	require.Nil(t, short.Tank.Grade)
	require.Equal(t, "the machine plugged 4 s into the window, too soon for a sample", *short.Tank.GradedBy)
	require.Nil(t, short.Tank.GradeFactors["dockage_pct"])
	require.NotNil(t, short.Money.LossPerHa)
	require.Nil(t, short.Money.CostPerHa)

	over.Seconds, m.TankGrain, m.Sample.Loose = 60, 30, 30
	choked := Make(m, over)
	require.Nil(t, choked.Tank.Grade)
	require.Equal(t, "only 30 % of the grain fed came into the tank before the machine plugged", *choked.Tank.GradedBy)
	var b bytes.Buffer
	require.NoError(t, Print(&b, &choked))
	require.Contains(t, b.String(), "no grade: only 30 %")
}

// Where next to nothing came out before the plug, no loss is a share of
// anything: not the whole header loss of a machine that only filled.
func TestAMachineThatPlugsWhileItFills(t *testing.T) {
	m := Masses{Scale: 1, In: 101, LostHeader: 1, ToCylinder: 60, Separated: 30, TankGrain: 2, Walker: 1}
	r := Make(m, Span{Setup: start(t, "wheat"), Seconds: 4, State: "plugged", Plug: &Plug{At: 4, Where: "cylinder", Why: "It stalled."},
		CylinderRPM: 700, Power: flow.Power{Cylinder: 60, Driving: 20}})
	for name, v := range map[string]*float64{
		"header": r.Loss.Header, "total": r.Loss.Total, "kg/ha": r.LossKgHa.Header, "kernels": r.LossPerM2.Header, "blown": r.ShoeLoss.Blown,
		"sound": r.Tank.Sound, "returns": r.Returns.OfGrain, "cost": r.Money.LossPerHa,
	} {
		require.Nil(t, v, name)
	}
	near(t, 60, r.Cylinder.PowerKW, "the cylinder was read")
	var b bytes.Buffer
	require.NoError(t, Print(&b, &r))
	require.Contains(t, b.String(), "Too little grain came out before the machine plugged")
	require.Contains(t, b.String(), "700 rpm and took 60.0 kW")
	require.NotContains(t, b.String(), "–")
}

// Means of a window are what was summed over its ticks, divided by them.
func TestMeansOfTheWindow(t *testing.T) {
	var before, after flow.Tally
	before.Work.Ticks, before.Work.RPM, before.Work.Power = 10, 8000, flow.Power{Cylinder: 300, Driving: 100}
	after.Work.Ticks, after.Work.RPM, after.Work.Power = 14, 11400, flow.Power{Cylinder: 460, Chopper: 60, Driving: 140}
	r := Window(before, after, Span{Setup: start(t, "wheat"), Seconds: 1})
	near(t, 850, r.Cylinder.SpeedRPM, "rpm")
	near(t, 40, r.Cylinder.PowerKW, "cylinder")
	near(t, 15, r.Power.Chopper, "chopper")
	near(t, 10, r.Power.Driving, "driving")
	near(t, 65, r.Power.Total, "in all")
	require.Nil(t, Window(after, after, Span{Setup: start(t, "wheat")}).Power.Total)
}
