package render

import (
	"math"

	"riddle/sim"
	"riddle/sim/stage/flow"
	"riddle/sim/stage/section"
)

// turnOf returns how a dot lies, in 256 parts of a turn, anticlockwise from
// the rear. Standing crop stands, a mat lies along its way, what flies tumbles.
// It follows from the dot's number and place alone: an attitude is not part of
// what is computed, and this one is only drawn.
func turnOf(d *flow.Dot, p sim.Place) uint8 {
	h := int32(int8(mix(d.ID)))
	long := d.Kind == flow.Straw || d.Kind == flow.Short
	switch {
	case p == sim.Standing:
		return uint8(64 + h>>5)
	case p == sim.Cutting && long: // falls over onto the platform
		lying := min(max((d.X-float32(section.CutterBar.X))/0.8, 0), 1)
		return uint8(64 - int32(58*lying) + h>>5)
	case p == sim.Hood && d.Kind == flow.Straw: // tips over the edge
		over := min(max((2.35-d.Y)/0.6, 0), 1)
		return uint8(10 - int32(50*over) + h>>4)
	case d.Ride == flow.Airborne && !(long && d.Size > 250):
		spin := int32((d.X + d.Y) * (300 + float32(h)))
		return uint8(2*h + spin)
	case long:
		return uint8(wayTurn(p, d) + scatter(h, d.Size))
	case d.Kind == flow.Piece || d.Kind.IsKernel():
		return uint8(wayTurn(p, d) + h>>2)
	}
	return uint8(2 * h)
}

// scatter turns a straw off its way: short bits lie anyhow, long ones cannot.
func scatter(h int32, size float32) int32 {
	if size < 60 {
		size = 60
	}
	return h * min(int32(2500/size), 32) / 180
}

// wayTurn returns the direction of the way at a place.
func wayTurn(p sim.Place, d *flow.Dot) int32 {
	switch p {
	case sim.Feeding:
		switch {
		case d.X < float32(section.Platform[1].X):
			return 0
		case d.X < float32(section.Platform[2].X):
			return platformTurn
		}
		return feederTurn
	case sim.Gap:
		return int32(math.Atan2(float64(d.Y)-section.Cylinder.Centre.Y, float64(d.X)-section.Cylinder.Centre.X)*128/math.Pi) + 64
	case sim.Walking:
		return walkerTurn(d.X)
	}
	return wayTurns[p]
}

// walkerTurn returns the way of a straw on the walkers: half-way between its
// step and the whole of them, since it reaches from step to step.
func walkerTurn(x float32) int32 {
	i := 0
	for i < len(walkerTurns)-1 && x >= walkerEnds[i] {
		i++
	}
	return walkerTurns[i]
}

var (
	walkerFaces  = section.WalkerFaces()
	walkerEnds   [len(walkerFaces)]float32 // of each step, m
	walkerTurns  [len(walkerFaces)]int32
	platformTurn = lineTurn(section.Line{A: section.Platform[1], B: section.Platform[2]})
	feederTurn   = lineTurn(section.FeederFloor)
	wayTurns     = [sim.Places]int32{
		sim.Plate: lineTurn(section.BeaterPlate), sim.UnderWalker: lineTurn(section.WalkerPan), sim.Pan: lineTurn(section.WalkerPan),
		sim.Conveyor: lineTurn(section.ConveyorFloor), sim.Upper: lineTurn(section.UpperSieve), sim.Lower: lineTurn(section.LowerSieve),
		sim.Collecting: lineTurn(section.CollectingPan), sim.Returning: lineTurn(section.ReturnsElevator), sim.Lifting: lineTurn(section.GrainElevator),
	}
)

func init() {
	rise := slope(section.Line{A: section.WalkerStart, B: walkerFaces[3].B})
	for i, f := range walkerFaces {
		walkerEnds[i], walkerTurns[i] = float32(f.B.X), int32((section.WalkerSlopes[i]+rise)/2*128/180)
	}
}

func lineTurn(l section.Line) int32 { return int32(math.Round(slope(l) * 128 / 180)) }

// sliding returns how a long straw lies that slides down before the windrow
// door, and then lies down on the ground; a is how it would lie otherwise.
func sliding(d *flow.Dot, p sim.Place, a uint8) uint8 {
	const steep, door, ground = 60, 2.15, 0.9 // 256 to a turn; m
	tip := int32(mix(d.ID)&7) - 4
	switch {
	case p == sim.Hood && d.Y < door, p == sim.Behind && d.Ride == flow.Airborne && d.Y > ground:
		return uint8(-steep + tip)
	case p == sim.Behind && d.Ride == flow.Airborne:
		return uint8(int32(-steep*d.Y/ground) + tip)
	}
	return a
}
