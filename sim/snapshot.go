package sim

import (
	"riddle/sim/setup"
	"riddle/sim/stage/flow"
	"riddle/sim/trade/crop"
)

// Place is where in the machine a swarm of dots is. The order is that of the
// crop.
type Place uint8

const (
	Standing    Place = iota // crop ahead of the header
	Cutting                  // cut, falling onto the platform
	Feeding                  // in the mat on platform and feeder chain
	Gap                      // between cylinder and concave
	UnderGrate               // falling from the concave to the conveyors
	Plate                    // under the beater
	Walking                  // on the straw walkers
	UnderWalker              // falling from the walkers to their pan
	Pan                      // on the walkers' pan
	Conveyor                 // on the conveyors under the concave
	Step                     // falling onto pre-sieve and upper sieve
	PreSieve                 // on the pre-sieve
	Collecting               // on the pan under the pre-sieve
	Upper                    // on or over the upper sieve
	Between                  // falling from the upper sieve
	Lower                    // on or over the lower sieve
	Dropping                 // falling below the lower sieve
	Trough                   // in the returns trough
	Returning                // in the returns auger and elevator
	Lifting                  // in the clean grain trough, auger and elevator
	Filling                  // falling into the tank
	Unloading                // on the way to the truck
	Hood                     // leaving the walkers: hood, chopper, flight
	Behind                   // lost grain and residue in the air and on the ground
	Places                   // how many there are
)

var placeNames = [Places]string{"standing crop", "at the cutter bar", "platform and feeder", "threshing gap", "under the concave", "under the beater",
	"straw walkers", "under the walkers", "walker pan", "conveyors", "step", "pre-sieve", "pre-sieve pan", "upper sieve", "between the sieves", "lower sieve",
	"under the lower sieve", "returns trough", "returns elevator", "clean grain elevator", "tank mouth", "unloading", "straw hood", "behind the machine"}

// String returns the name of the place in words.
func (p Place) String() string { return placeNames[p] }

// Condition of the machine.
type Condition uint8

const (
	Running Condition = iota
	Slowing           // overloaded, losing speed
	Plugged           // stopped, with a reason
)

// String returns the condition as reports and files name it.
func (c Condition) String() string { return [...]string{"running", "slowing", "plugged"}[c] }

// State is how the machine is doing. Where names the system that plugged and
// Why says it in a sentence; both are empty unless it plugged.
type State struct {
	Condition  Condition
	At         float64 // when it plugged, s after the first tick
	Where, Why string
}

// Cell is one stretch of a mat.
type Cell struct {
	X     float32 // its middle, m
	Thick float32 // thickness of the mat, m
	Load  float32 // MOG on it, kg/m²
	Open  float32 // 0 the mat lies, 1 it is fully open in the air
}

// Snapshot is everything that a view may know of the machine at one tick. Its
// slices belong to the machine: they are to be read only, and only until the
// machine's next step.
type Snapshot struct {
	Tick    int64
	Seconds float64
	Crop    *crop.Crop
	Setup   setup.Setup
	State   State

	Dots [Places][]flow.Dot

	// Angles in radians, growing anticlockwise as seen in the section, and
	// travels of belts in metres.
	CylinderAngle, BeaterAngle, CrankAngle, FanAngle, ReelAngle, ChopperAngle float64
	ShakePhase                                                                float64 // of the sieves, rad
	ChainTravel, ElevatorTravel, GroundTravel                                 float64
	CylinderRPM, CylinderKW                                                   float64
	EngineSpeed                                                               float64 // over its set speed
	Power                                                                     flow.Power
	Front, Rear                                                               float64 // concave gaps, mm
	GapSpeed                                                                  float64 // of the crop between them, m/s

	// Air is the blast under the upper sieve at front, middle and rear, m/s
	// along its direction, which rises to the rear by BlastAngle.
	Air       [3]float64
	FeederMat []Cell
	WalkerMat []Cell
	UpperMat  []Cell
	TankShare float64 // of the tank that is full, 0 to 1
	TankKg    float64 // in the tank now, whole machine
	TruckKg   float64 // unloaded, whole machine
	Tally     flow.Tally
}
