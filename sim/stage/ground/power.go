package ground

import (
	"riddle/sim/num"
	"riddle/sim/stage/flow"
)

const (
	// machineKg is the mass of the machine with its header and an empty tank, kg.
	// From memory: walker machines with 6 m headers weigh 10 to 13 t.
	machineKg = 11500.0
	// rolling is the resistance of wheels on stubble over their load: 1/55 + 0.04
	// on firm soil (ASAE D497, from memory), with the slip of wheels that pull
	// nothing.
	rolling = 0.06
	// driveEfficiency is the power at the wheels over that which the hydrostatic
	// drive takes: 0.65 to 0.8, from memory.
	driveEfficiency = 0.70
)

// DrivingKW returns the power that driving takes at a ground speed in m/s on a
// fore slope in degrees, uphill above 0, with kg of grain in the tank, kW:
//
//	P = (m + t) g v (0.06 cos α + sin α)/0.7, never below 0
//
// Downhill the machine pushes itself, and its brakes take what is over.
func DrivingKW(speed, slope, tankKg float64) float64 {
	a := float64(slope * degree)
	pull := float64(rolling*num.Cos(a)) + num.Sin(a)
	return num.Positive((machineKg + tankKg) * flow.Gravity * speed * pull / (watts * driveEfficiency))
}

const (
	degree = 3.141592653589793 / 180 // rad; definition
	watts  = 1000.0                  // a kW; definition
)
