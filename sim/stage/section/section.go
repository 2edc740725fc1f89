// Package section is the machine in side section: one geometry for the
// computation and the drawing. Lengths are in metres; x runs to the rear from
// the cylinder axis, y up from the ground. The machine is invented, in the
// proportions common to machines with straw walkers; no maker's.
package section

import "math"

// Point is a place in the side section, m.
type Point struct{ X, Y float64 }

// Line is a straight edge from A to B.
type Line struct{ A, B Point }

// At returns the height of the line, continued both ways, at x.
func (l Line) At(x float64) float64 {
	return l.A.Y + float64((x-l.A.X)*(l.B.Y-l.A.Y)/(l.B.X-l.A.X))
}

// Length returns the length of the line, m.
func (l Line) Length() float64 {
	dx, dy := l.B.X-l.A.X, l.B.Y-l.A.Y
	return math.Sqrt(float64(dx*dx) + float64(dy*dy))
}

// Circle is a round part.
type Circle struct {
	Centre Point
	R      float64
}

// Widths and lengths that the laws use. Geometry of the invented machine, within
// the sizes common to machines with walkers (from memory), unless marked
// otherwise.
const (
	InnerWidth      = 1.30 // m, of cylinder, walkers and shoe
	CylinderD       = 0.60 // m
	RaspBars        = 8
	ConcaveLength   = 0.65 // m along the arc
	ConcaveFrom     = 205  // degrees from the rear, anticlockwise
	ConcaveTo       = 325
	WalkerLength    = 4.0   // m
	CrankThrow      = 0.05  // m, radius
	CrankRPM        = 215.0 // Froude number 2.58
	UpperLength     = 1.5   // m
	LowerLength     = 1.3   // m
	UpperPitch      = 25.0  // mm between louvres
	LowerPitch      = 20.0  // mm
	PrePitch        = 16.0  // mm
	ShakeHz         = 5.0
	ShakeAmplitude  = 0.018 // m
	ShakeAngle      = 30.0  // degrees, up and rearward
	UpperTail       = 1.2   // m from the upper sieve's front: from here it opens wider
	UpperTailWider  = 5.0   // mm by which it opens wider there. Calibrated.
	UpperMouthHigh  = 0.20  // m, of the mouth that blows between the sieves
	LowerMouthHigh  = 0.14  // m, of that under the lower sieve
	BlastAngle      = 30.0  // degrees at which the blast rises to the rear; 20 to 35, from memory
	HoodHolds       = 1.0   // m of mat before the straw hood is full
	RearEdgeWalkers = 4.67  // m, x of the walkers' rear edge
	RearEdgeShoe    = 3.30  // m, x of the upper sieve's rear edge
	Horizon         = -5.3  // m, x from which the standing crop is simulated. Chosen.
)

// The header. Geometry, m.
var (
	CutterBar    = Point{-3.75, 0.12}
	Platform     = []Point{{-3.75, 0.12}, {-2.75, 0.12}, {-2.45, 0.25}}
	HeaderBack   = Line{Point{-2.45, 0.85}, Point{-2.45, 1.05}}
	HeaderAuger  = Circle{Point{-2.85, 0.45}, 0.28}
	Reel         = Circle{Point{-3.55, 1.15}, 0.55}
	SnappingRoll = Line{Point{-3.70, 0.30}, Point{-2.95, 0.62}}
)

// The feeder house. Geometry, m.
var (
	FeederFloor  = Line{Point{-2.45, 0.25}, Point{-0.34, 1.66}}
	FeederRoof   = Line{Point{-2.45, 0.85}, Point{-0.50, 2.15}} // 0.50 m off the floor
	FeederShafts = [2]Circle{{Point{-2.25, 0.60}, 0.16}, {Point{-0.62, 1.70}, 0.14}}
)

// FeedPath is the floor along which the crop is drawn from the cutter bar to
// the mouth of the concave. Geometry, m.
var FeedPath = []Point{{-3.75, 0.12}, {-2.75, 0.12}, {-2.45, 0.25}, {-0.34, 1.66}}

// The threshing unit. Geometry, m.
var (
	Cylinder = Circle{Point{0, 1.80}, CylinderD / 2}
	Beater   = Circle{Point{0.56, 1.92}, 0.17}
	// BeaterPlate is the floor under the beater, from the concave's rear end to
	// the head of the walkers.
	BeaterPlate = Line{Point{0.27, 1.62}, Point{0.80, 1.70}}
)

// The straw walkers: four steps at these slopes, with drops between them.
// Geometry, m.
var (
	WalkerStart  = Point{0.80, 1.72}
	WalkerSlopes = [4]float64{20, 12, 12, 14} // degrees
	WalkerDrop   = 0.14                       // m down between steps
	Cranks       = [2]Circle{{Point{1.35, 1.76}, CrankThrow}, {Point{3.90, 1.97}, CrankThrow}}
	HoodRoof     = []Point{{0.25, 2.40}, {2.20, 2.58}, {4.50, 3.00}, {5.40, 2.85}, {5.55, 1.60}, {5.20, 1.35}}
	Chopper      = Circle{Point{5.05, 1.75}, 0.24}
	// WindrowDoor stands before the chopper while it is off.
	WindrowDoor = Line{Point{4.72, 1.62}, Point{4.88, 2.06}}
)

// The shoe. Geometry, m.
var (
	// WalkerPan catches what falls through the walkers and shakes it forward.
	WalkerPan = Line{Point{0.95, 1.40}, Point{4.67, 1.97}}
	// ConveyorFloor carries what falls through the concave to the shoe.
	ConveyorFloor  = Line{Point{-0.35, 1.24}, Point{1.20, 1.19}}
	ConveyorAugers = Line{Point{-0.20, 1.28}, Point{1.00, 1.28}}
	Fan            = Circle{Point{0.62, 0.52}, 0.32}
	UpperMouth     = Line{Point{0.90, 0.80}, Point{1.00, 0.62}}
	PreSieve       = Line{Point{1.25, 1.04}, Point{1.78, 1.05}}
	UpperSieve     = Line{Point{1.80, 0.95}, Point{3.30, 1.03}}
	// TailPlate carries what leaves over the upper sieve's rear edge across the
	// returns trough and out.
	TailPlate = Line{Point{3.30, 1.02}, Point{3.84, 0.93}}
	// CollectingPan lies under the pre-sieve and leads onto the lower sieve.
	CollectingPan = Line{Point{1.22, 0.84}, Point{1.92, 0.70}}
	LowerSieve    = Line{Point{1.90, 0.64}, Point{3.20, 0.70}}
)

// Grain and returns. Geometry, m.
var (
	GrainTrough     = []Point{{1.55, 0.55}, {2.02, 0.28}, {2.22, 0.28}, {3.18, 0.50}}
	GrainAuger      = Circle{Point{2.12, 0.36}, 0.09}
	GrainElevator   = Line{Point{2.12, 0.36}, Point{0.95, 3.55}}
	ReturnsTrough   = []Point{{3.20, 0.50}, {3.42, 0.30}, {3.60, 0.30}, {3.80, 0.80}}
	ReturnsAuger    = Circle{Point{3.52, 0.38}, 0.09}
	ReturnsElevator = Line{Point{3.52, 0.38}, Point{0.25, 2.36}}
	ReturnsCross    = Line{Point{0.25, 2.36}, Point{-0.15, 2.25}}
	Tank            = []Point{{-0.75, 3.95}, {-0.75, 3.05}, {-0.20, 2.62}, {1.55, 2.62}, {2.15, 3.05}, {2.15, 3.95}}
	FloorAugers     = [2]Point{{0.15, 2.72}, {1.10, 2.72}}
	Sump            = Point{1.45, 2.66}
	UprightTop      = Point{1.45, 4.25}
	CrossAugerEnd   = Point{3.60, 4.45}
	TruckBed        = []Point{{3.05, 2.70}, {3.05, 3.30}, {5.60, 3.30}, {5.60, 2.70}}
)

// Outlines only. Geometry, m.
var (
	FrontWheel = Circle{Point{-0.05, 0.85}, 0.85}
	RearWheel  = Circle{Point{4.40, 0.55}, 0.55}
	Cab        = [2]Point{{-2.3, 2.25}, {-0.8, 3.75}}
)

// HoodOverWalkers is the roof of the straw hood where it lies over the straw.
var HoodOverWalkers = HoodRoof[:4]

// HoodAt returns the height of the hood's roof at x, over beater and walkers.
func HoodAt(x float64) float64 {
	i := 1
	for i < len(HoodOverWalkers)-1 && x >= HoodOverWalkers[i].X {
		i++
	}
	return Line{HoodOverWalkers[i-1], HoodOverWalkers[i]}.At(x)
}

// WalkerHeight returns the height of the walkers' resting face at x: a saw of
// four rising steps with a drop after each of the first three.
func WalkerHeight(x float64) float64 {
	y, x0 := WalkerStart.Y, WalkerStart.X
	for i := range walkerRun {
		if x < x0+walkerRun[i] || i == len(walkerRun)-1 {
			return y + float64((x-x0)*walkerRise[i]/walkerRun[i])
		}
		x0 += walkerRun[i]
		y += walkerRise[i] - WalkerDrop
	}
	return y
}

// Run and rise of each walker step, m: cosine and sine of its slope. Computed.
var (
	walkerRun  = [4]float64{0.9396926207859084, 0.9781476007338057, 0.9781476007338057, 0.9702957262759965}
	walkerRise = [4]float64{0.3420201433256687, 0.20791169081775934, 0.20791169081775934, 0.24192189559966773}
)

// WalkerFaces returns the four resting faces of a walker, front to rear.
func WalkerFaces() [4]Line {
	var faces [4]Line
	p := WalkerStart
	for i := range faces {
		q := Point{p.X + walkerRun[i], p.Y + walkerRise[i]}
		faces[i] = Line{p, q}
		p = Point{q.X, q.Y - WalkerDrop}
	}
	return faces
}
