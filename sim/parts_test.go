package sim

import (
	"testing"

	"github.com/stretchr/testify/require"

	"riddle/sim/setup"
	"riddle/sim/stage/flow"
)

// Every system of the machine does something: with each switched off in turn,
// the reading that it moves is named.
func TestEachSystemMovesItsReading(t *testing.T) {
	share := func(over, under int64) float64 { return float64(over) / float64(max(under, 1)) }
	unthreshed := func(t *flow.Tally) float64 { return share(t.Cylinder.Through+t.Cylinder.Over, t.Cylinder.Grain) }
	separated := func(t *flow.Tally) float64 { return share(t.Cylinder.Separated, t.Cylinder.Grain) }
	shoeLoss := func(t *flow.Tally) float64 { return share(t.Lost[flow.Blown]+t.Lost[flow.Ridden], t.Shoe.Grain) }
	for _, c := range []struct {
		system, reading string
		crop            string
		alter           func(*setup.Setup)
		read            func(*flow.Tally) float64
		sign            int    // of the reading with the system off, less with it on
		plugs           string // where the machine plugs for want of it
	}{
		{"header", "grain that comes in", "wheat", off(setup.HeaderPart), func(t *flow.Tally) float64 { return float64(t.In) }, -1, ""},
		{"feeder chain", "grain at the cylinder", "wheat", off(setup.FeederPart), func(t *flow.Tally) float64 { return float64(t.Cylinder.Grain) }, -1, "feeder"},
		{"cylinder", "unthreshed grain off the cylinder", "wheat", off(setup.CylinderPart), unthreshed, 1, ""},
		{"concave", "grain separated at the concave", "wheat", off(setup.ConcavePart), separated, -1, ""},
		{"beater", "straw off the walkers", "wheat", off(setup.BeaterPart), func(t *flow.Tally) float64 { return float64(t.Walkers.MOGOver) }, -1, "beater"},
		{"straw walkers", "straw off the walkers", "wheat", off(setup.WalkerPart), func(t *flow.Tally) float64 { return float64(t.Walkers.MOGOver) }, -1, "walkers"},
		{"straw chopper", "straw in a windrow", "wheat", func(s *setup.Setup) { s.Settings.Chopper = false }, func(t *flow.Tally) float64 { return float64(t.Ground.Windrow) }, 1, ""},
		{"conveyors", "grain at the shoe", "wheat", off(setup.ConveyorPart), func(t *flow.Tally) float64 { return float64(t.Shoe.Grain) }, -1, "conveyors"},
		{"pre-sieve", "grain through the pre-sieve", "corn", off(setup.PreSievePart), func(t *flow.Tally) float64 { return float64(t.Shoe.PreSieve) }, -1, ""},
		{"fan", "shoe loss", "wheat", off(setup.FanPart), shoeLoss, 1, ""},
		{"upper sieve", "shoe loss", "wheat", off(setup.UpperPart), shoeLoss, 1, ""},
		{"lower sieve", "grain in the returns", "wheat", off(setup.LowerPart), func(t *flow.Tally) float64 { return share(t.Returns.Free, t.Shoe.Grain) }, 1, "returns"},
		{"returns", "grain brought back to the cylinder", "wheat", off(setup.ReturnsPart), func(t *flow.Tally) float64 { return float64(t.Returns.Back) }, -1, "returns"},
		{"clean grain elevator", "grain in the tank", "wheat", off(setup.ElevatorPart), func(t *flow.Tally) float64 { return float64(t.Tank.Grain) }, -1, ""},
		{"unloading", "grain in the truck", "wheat", func(s *setup.Setup) { s.Settings.Unload = true }, func(t *flow.Tally) float64 { return float64(t.Unloaded) }, 1, ""},
		{"crop condition: wet grain", "unthreshed grain off the cylinder", "wheat", func(s *setup.Setup) { s.Conditions.GrainMoisture += 8 }, unthreshed, 1, ""},
		{"crop condition: tough straw", "walker loss", "wheat", func(s *setup.Setup) { s.Conditions.StrawMoisture += 12 }, func(t *flow.Tally) float64 { return share(t.Lost[flow.Walker], t.Walkers.Free) }, 1, ""},
	} {
		t.Run(c.system, func(t *testing.T) {
			t.Parallel()
			const seconds = 45
			on, without := newMachine(t, c.crop, seconds, nil).Tally(), newMachine(t, c.crop, 0, c.alter)
			run(without, seconds)
			requireBalance(t, without)
			tally := without.Tally()
			a, b := c.read(&on), c.read(&tally)
			t.Logf("%s: %.4g with, %.4g without", c.reading, a, b)
			if c.sign > 0 {
				require.Greater(t, b, 1.5*a, c.reading)
			} else {
				require.Less(t, b, 0.67*a, c.reading)
			}
			if c.plugs != "" {
				require.Equal(t, Plugged, without.State().Condition)
				require.Equal(t, c.plugs, without.State().Where)
			}
		})
	}
}

func off(p setup.Parts) func(*setup.Setup) { return func(s *setup.Setup) { s.Stopped |= p } }
