package design

import (
	"math"

	"riddle/sim/stage/section"
)

// WithWalkers is the machine with straw walkers, as package section draws it.
// Geometry.
var WithWalkers = &Plan{
	Name:   "straw walkers",
	Intake: Intake{CutterBar: section.CutterBar, FeedPath: section.FeedPath},
	Threshing: Threshing{
		Cylinder: section.Cylinder, RaspBars: section.RaspBars, ConcaveLength: section.ConcaveLength,
		ArcFrom: section.ConcaveFrom * math.Pi / 180, Arc: (section.ConcaveTo - section.ConcaveFrom) * math.Pi / 180,
		ConveyorFloor: section.ConveyorFloor, ConveyorFront: -0.33, ConveyorTo: 1.12,
	},
	Walkers: Walkers{
		BeaterPlate: section.BeaterPlate, Start: section.WalkerStart.X, Rear: section.RearEdgeWalkers,
		WalkerRun: section.RearEdgeWalkers - 0.80, WalkerFace: section.WalkerLength, Height: section.WalkerHeight,
		WalkerPan: section.WalkerPan, HoodRoof: section.HoodOverWalkers, HoodHolds: section.HoodHolds,
	},
	Shoe: Shoe{
		PreSieve: &section.PreSieve, CollectingPan: section.CollectingPan,
		UpperSieve: section.UpperSieve, UpperLength: section.UpperLength, UpperTail: section.UpperTail, TailPlate: section.TailPlate,
		LowerSieve: section.LowerSieve, LowerLength: section.LowerLength, LowerBehind: 0.1,
	},
	Grain: Grain{GrainTrough: section.GrainTrough, GrainAuger: section.GrainAuger, GrainElevator: section.GrainElevator},
	Returns: &Returns{
		Trough: section.ReturnsTrough, Auger: section.ReturnsAuger,
		Path: []section.Point{
			section.ReturnsElevator.A, section.ReturnsElevator.B, section.ReturnsCross.B,
			{X: -0.36, Y: 2.0}, {X: -0.30, Y: 1.68}, // the chute to the cylinder
		},
	},
	Calibration: walkers,
}
