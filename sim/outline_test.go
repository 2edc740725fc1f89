package sim

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"riddle/sim/setup"
	"riddle/sim/stage/flow"
	"riddle/sim/stage/section"
)

// room is what the section leaves to a dot at x: between a floor and a roof, m.
type room func(x float64) (floor, roof float64)

const open = 99.0 // m, where there is no roof

// broken is the height at x of a line through points that run rearward.
func broken(points []section.Point, x float64) float64 {
	for i := 1; i < len(points)-1; i++ {
		if x < points[i].X {
			return section.Line{A: points[i-1], B: points[i]}.At(x)
		}
	}
	return section.Line{A: points[len(points)-2], B: points[len(points)-1]}.At(x)
}

func under(roof float64, floor section.Line) room {
	return func(x float64) (float64, float64) { return floor.At(x), roof }
}

// rooms are those of the places in which crop can pile up: of the section's
// lines alone. Walkers and sieves move by their own throw about where they rest.
var rooms = map[Place]room{
	Feeding: func(x float64) (float64, float64) {
		floor := broken(section.FeedPath, min(x, -0.34))
		switch {
		case x < section.HeaderBack.A.X: // under the reel's axis
			return floor, section.Reel.Centre.Y
		case x > section.FeederRoof.B.X:
			return floor, section.FeederRoof.B.Y
		}
		return floor, section.FeederRoof.At(x)
	},
	Plate: func(x float64) (float64, float64) {
		return section.BeaterPlate.At(x), section.Beater.Centre.Y - section.Beater.R + 0.02
	},
	Walking: func(x float64) (float64, float64) {
		return section.WalkerHeight(x) - section.CrankThrow - 0.16, broken(section.HoodRoof[:4], x)
	},
	UnderWalker: func(x float64) (float64, float64) { // what falls off the end of a step is beside the next
		return section.WalkerPan.At(x), max(section.WalkerHeight(x), section.WalkerHeight(x-0.015), section.WalkerHeight(x-0.06))
	},
	Conveyor:   under(section.Cylinder.Centre.Y-section.CylinderD/2, section.ConveyorFloor),
	Step:       func(x float64) (float64, float64) { return 0.7, section.WalkerPan.At(x) },
	PreSieve:   func(x float64) (float64, float64) { return section.PreSieve.At(x), section.WalkerPan.At(x) },
	Collecting: func(x float64) (float64, float64) { return section.CollectingPan.At(x), section.PreSieve.At(x) + 0.01 },
	Upper: func(x float64) (float64, float64) {
		return section.UpperSieve.At(x) - section.ShakeAmplitude, section.WalkerPan.At(x)
	},
	Between: func(x float64) (float64, float64) {
		switch {
		case x < section.LowerSieve.A.X:
			return section.CollectingPan.At(x), section.PreSieve.At(x)
		case x > section.TailPlate.A.X:
			return broken(section.ReturnsTrough, x), section.TailPlate.At(x)
		case x > section.LowerSieve.B.X:
			return broken(section.ReturnsTrough, x), section.UpperSieve.At(x)
		}
		return section.LowerSieve.At(x) - section.ShakeAmplitude, section.UpperSieve.At(x)
	},
	Lower: func(x float64) (float64, float64) {
		return section.LowerSieve.At(x) - section.ShakeAmplitude, section.UpperSieve.At(x)
	},
	Dropping: func(x float64) (float64, float64) {
		return broken(troughs, x), section.LowerSieve.At(x) + section.ShakeAmplitude
	},
	Trough: func(x float64) (float64, float64) {
		return broken(section.ReturnsTrough, x), section.ReturnsTrough[3].Y + 0.01 // its rim
	},
	Hood: func(x float64) (float64, float64) {
		return section.Chopper.Centre.Y - 0.2, broken(section.HoodRoof[:4], x)
	},
	Filling: func(x float64) (float64, float64) {
		return broken(section.Tank[1:5], x) - 0.2, open
	},
}

// outside tells how far a dot stands out of the room of its place, m.
func outside(p Place, d *flow.Dot) float64 {
	r, ok := rooms[p]
	if !ok {
		return 0
	}
	floor, roof := r(float64(d.X))
	y := float64(d.Y)
	return max(floor-y, y-roof)
}

// troughs are those of grain and returns, side by side.
var troughs = slices.Concat(section.GrainTrough, section.ReturnsTrough)

// nearly is by how much a dot may stand out, m: the size of a kernel or two, and
// what a surface that shakes moves in a tick.
const nearly = 0.012

// ways leads the machine into each way to plug, and into heaps that never do.
var ways = []struct {
	name, crop string
	plugs      int // in Plugs, or noPlug
	alter      func(*setup.Setup)
}{
	{"cylinder", "wheat", CylinderPlug, func(s *setup.Setup) { s.Conditions.MOGRatio, s.Settings.CylinderSpeed = 1.8, 1200 }},
	{"far too much", "wheat", FeederPlug, func(s *setup.Setup) {
		s.Settings.GroundSpeed, s.Conditions.MOGRatio, s.Conditions.Yield, s.Conditions.HeaderWidth = 14, 4, 25, 15
	}},
	{"walkers by ground speed", "wheat", WalkerPlug, func(s *setup.Setup) { s.Settings.GroundSpeed = 14 }},
	{"walkers that stand still", "wheat", WalkerPlug, off(setup.WalkerPart)},
	{"walkers that stand still, rice", "rice", WalkerPlug, off(setup.WalkerPart)},
	{"beater", "wheat", BeaterPlug, off(setup.BeaterPart)},
	{"returns", "wheat", ReturnsPlug, off(setup.LowerPart)},
	{"returns that stand still", "corn", ReturnsPlug, off(setup.ReturnsPart)},
	{"conveyors", "wheat", ConveyorPlug, off(setup.ConveyorPart)},
	{"feeder", "corn", FeederPlug, off(setup.FeederPart)},
	{"elevator", "wheat", ElevatorPlug, off(setup.ElevatorPart)},
	{"tank", "wheat", TankPlug, func(s *setup.Setup) { s.Conditions.Yield, s.Conditions.MOGRatio = 12, 0.3 }},
	{"no air, uphill, weeds", "soybeans", noPlug, func(s *setup.Setup) {
		s.Stopped |= setup.FanPart | setup.UpperPart
		s.Conditions.ForeSlope, s.Conditions.GreenWeeds = 15, 40
	}},
	{"a gale", "canola", noPlug, func(s *setup.Setup) { s.Settings.Fan = 1800 }},
}

const noPlug = -1

// However the machine plugs, what it holds stays within its walls: a mat that
// fills its room is pressed, and does not grow through the roof.
func TestPluggedMatsStayInside(t *testing.T) {
	for _, w := range ways {
		t.Run(w.name, func(t *testing.T) {
			t.Parallel()
			if long := w.plugs == noPlug || w.plugs >= ConveyorPlug && w.plugs != FeederPlug; long && testing.Short() {
				t.Skip("it takes most of a minute of work to fill")
			}
			m := newMachine(t, w.crop, 0, w.alter)
			for i := 0; i < 55*TickHz && m.State().Condition != Plugged; i++ {
				if m.Step(); i%40 == 0 {
					requireInside(t, m)
				}
				if w.plugs == TankPlug && i == 30*TickHz { // all but full
					m.tally.Tank.Grain += int64((0.99 - m.tank.Share(&m.tally)) / m.tank.Share(&m.tally) * float64(m.tally.Tank.Grain))
				}
			}
			requireInside(t, m)
			if w.plugs != noPlug {
				require.Equal(t, Plugged, m.State().Condition)
				require.Equal(t, Plugs[w.plugs].Where, m.State().Where)
			}
		})
	}
}

func requireInside(t *testing.T, m *Machine) {
	t.Helper()
	for p, s := range m.places() {
		for i := range s.Dots {
			if d := &s.Dots[i]; outside(Place(p), d) > nearly {
				t.Fatalf("%.2f s: %v, %v, at (%.3f, %.3f) stands %.3f m out of its room", m.Seconds(), Place(p), d.Kind, d.X, d.Y, outside(Place(p), d))
			}
		}
	}
}
