package render

import (
	"riddle/sim/setup"
	"riddle/sim/stage/section"
	"riddle/sim/trade/crop"
)

// Part is a part of the machine that has a name.
type Part struct {
	ID      string
	Name    string
	Purpose string          // in a sentence
	Anchor  section.Point   // where a lead to it ends, m
	Also    []section.Point // where else one may end
	Area    Rect            // around it, m
	Below   bool            // its name stands under the machine, not over it
	Header  Header          // with which header it is there
}

// Header is a kind of header.
type Header uint8

const (
	AnyHeader Header = iota
	Cuts             // with reel and cutter bar
	Snaps            // with snapping rolls, for corn
)

// Parts lists the parts in the order in which the crop meets them.
var Parts = []Part{
	{ID: "reel", Name: "Reel", Purpose: "Leans the standing crop over the knife and lays it on the platform.",
		Anchor: pt(-3.55, 1.62), Area: Rect{-4.12, 0.45, -2.98, 1.72}, Header: Cuts},
	{ID: "cutter-bar", Name: "Cutter bar", Purpose: "Cuts the stalks at the height you set.",
		Anchor: pt(-3.78, 0.11), Area: Rect{-3.92, 0.03, -3.60, 0.24}, Below: true, Header: Cuts},
	{ID: "snapping-rolls", Name: "Snapping rolls", Purpose: "Pull the stalks down so that the ears snap off on the deck plates above.",
		Anchor: pt(-3.40, 0.43), Area: Rect{-3.80, 0.20, -2.90, 0.72}, Below: true, Header: Snaps},
	{ID: "gathering-chains", Name: "Gathering chains", Purpose: "Guide the stalks into the rolls and carry the ears to the auger.",
		Anchor: pt(-3.55, 0.70), Area: Rect{-4.15, 0.28, -2.98, 0.90}, Header: Snaps},
	{ID: "header-auger", Name: "Header auger", Purpose: "Brings the cut crop in from both sides to the middle.",
		Anchor: pt(-2.85, 0.20), Area: Rect{-3.15, 0.15, -2.55, 0.75}, Below: true},
	{ID: "feeder-house", Name: "Feeder house", Purpose: "Its chain brings the crop up to the cylinder in an even mat.",
		Anchor: pt(-1.40, 0.94), Also: []section.Point{pt(-1.90, 0.61), pt(-0.90, 1.27), pt(-0.62, 2.05), pt(-2.38, 0.92)}, Area: Rect{-2.45, 0.30, -0.42, 1.95}, Below: true},
	{ID: "cylinder", Name: "Cylinder", Purpose: "Its rasp bars strike and rub the grain out of the heads, pods or ears.",
		Anchor: pt(-0.08, 2.03), Also: []section.Point{pt(-0.26, 1.94), pt(0.08, 2.03)}, Area: Rect{-0.32, 1.48, 0.32, 2.12}},
	{ID: "concave", Name: "Concave", Purpose: "The grate against which the crop is threshed; most of the grain falls through here.",
		Anchor: pt(0.02, 1.45), Also: []section.Point{pt(-0.32, 1.62), pt(0.27, 1.56)}, Area: Rect{-0.38, 1.38, 0.36, 1.74}, Below: true},
	{ID: "beater", Name: "Beater", Purpose: "Strips the straw off the cylinder and lays it on the walkers.",
		Anchor: pt(0.60, 2.06), Also: []section.Point{pt(0.66, 1.78)}, Area: Rect{0.36, 1.60, 0.82, 2.10}},
	{ID: "straw-walkers", Name: "Straw walkers", Purpose: "Toss the straw rearward so that the grain in it falls through.",
		Anchor: pt(3.20, 2.11), Also: []section.Point{pt(4.64, 2.12), pt(0.84, 1.62)}, Area: Rect{0.78, 1.55, 4.74, 2.40}},
	{ID: "straw-hood", Name: "Straw hood", Purpose: "The space above the walkers, where the straw loosens up.",
		Anchor: pt(3.75, 2.84), Also: []section.Point{pt(2.00, 2.55), pt(5.32, 2.66), pt(4.90, 2.93)}, Area: Rect{0.80, 2.30, 5.50, 3.00}},
	{ID: "chopper", Name: "Straw chopper", Purpose: "Cuts the straw short and spreads it; off, the straw drops in a windrow.",
		Anchor: pt(5.10, 1.90), Also: []section.Point{pt(5.26, 1.84), pt(5.10, 1.55)}, Area: Rect{4.72, 1.34, 5.50, 2.05}},
	{ID: "walker-pan", Name: "Walker pan", Purpose: "Shakes what fell through the walkers forward to the conveyors.",
		Anchor: pt(4.10, 1.88), Also: []section.Point{pt(4.60, 1.95), pt(3.00, 1.71)}, Area: Rect{0.92, 1.36, 4.72, 2.00}, Below: true},
	{ID: "conveyors", Name: "Conveyors", Purpose: "Carry what fell through the concave to the shoe.",
		Anchor: pt(0.12, 1.25), Also: []section.Point{pt(-0.18, 1.26), pt(0.22, 1.25)}, Area: Rect{-0.38, 1.16, 1.24, 1.36}, Below: true},
	{ID: "fan", Name: "Fan", Purpose: "Blows through the sieves and lifts the chaff off the grain.",
		Anchor: pt(0.52, 0.30), Area: Rect{0.24, 0.14, 1.14, 0.92}, Below: true},
	{ID: "pre-sieve", Name: "Pre-sieve", Purpose: "Lets some of the grain through ahead of the upper sieve.",
		Anchor: pt(1.28, 1.02), Also: []section.Point{pt(1.50, 1.03)}, Area: Rect{1.20, 0.98, 1.80, 1.12}, Below: true},
	{ID: "collecting-pan", Name: "Pre-sieve pan", Purpose: "Carries grain from the pre-sieve, under the upper sieve, to the lower one.",
		Anchor: pt(1.66, 0.75), Also: []section.Point{pt(1.45, 0.79)}, Area: Rect{1.18, 0.66, 1.94, 0.88}, Below: true},
	{ID: "upper-sieve", Name: "Upper sieve", Purpose: "Also called the chaffer. Lets all the grain and the unthreshed pieces through while the air carries the chaff over it.",
		Anchor: pt(2.60, 0.98), Also: []section.Point{pt(3.12, 1.00)}, Area: Rect{1.78, 0.90, 3.34, 1.12}, Below: true},
	{ID: "lower-sieve", Name: "Lower sieve", Purpose: "Also called the cleaning sieve. Lets clean grain through; whatever rides over it goes to the returns.",
		Anchor: pt(2.85, 0.67), Also: []section.Point{pt(3.12, 0.68), pt(2.50, 0.65)}, Area: Rect{1.88, 0.58, 3.24, 0.78}, Below: true},
	{ID: "clean-grain-auger", Name: "Clean grain auger", Purpose: "Takes the clean grain across to its elevator.",
		Anchor: pt(2.12, 0.30), Area: Rect{1.95, 0.24, 2.30, 0.48}, Below: true},
	{ID: "clean-grain-elevator", Name: "Clean grain elevator", Purpose: "Lifts the clean grain into the tank. It stands outside the near side wall.",
		Anchor: pt(1.46, 2.50), Also: []section.Point{pt(0.95, 3.66), pt(1.02, 3.55), pt(1.82, 1.18)}, Area: Rect{0.80, 0.30, 2.26, 3.70}},
	{ID: "grain-tank", Name: "Grain tank", Purpose: "Holds the grain until it is unloaded.",
		Anchor: pt(-0.35, 3.60), Also: []section.Point{pt(1.85, 3.60), pt(-0.60, 3.50)}, Area: Rect{-0.80, 2.58, 2.20, 4.00}},
	{ID: "unloading-augers", Name: "Unloading augers", Purpose: "Empty the tank into a truck.",
		Anchor: pt(1.50, 4.12), Area: Rect{0.02, 2.62, 3.78, 4.58}},
	{ID: "returns-auger", Name: "Returns auger", Purpose: "Collects the returns (tailings): what rode over the lower sieve or fell through the tail of the upper one.",
		Anchor: pt(3.55, 0.31), Also: []section.Point{pt(3.46, 0.32)}, Area: Rect{3.36, 0.26, 3.68, 0.50}, Below: true},
	{ID: "returns-elevator", Name: "Returns elevator", Purpose: "Takes the returns back to the cylinder. It stands outside the far side wall.",
		Anchor: pt(2.15, 1.21), Also: []section.Point{pt(3.30, 0.52), pt(2.86, 0.86), pt(0.30, 2.46)}, Area: Rect{-0.20, 0.30, 3.66, 2.50}},
	{ID: "wheels", Name: "Wheels", Purpose: "Carry and drive the machine.",
		Anchor: pt(4.55, 0.05), Also: []section.Point{pt(-0.05, 0.06)}, Area: Rect{3.85, 0, 4.95, 1.10}, Below: true},
	{ID: "cab", Name: "Cab", Purpose: "From here the operator sets and watches the machine.",
		Anchor: pt(-1.55, 3.70), Area: Rect{-2.36, 2.25, -0.80, 3.75}},
}

// sets is 1 where the part obeys a setting, else 0.
func (p *Part) sets() int {
	if setup.SetsPart(p.ID) != nil {
		return 1
	}
	return 0
}

// anchors returns the places at which a lead to the part may end.
func (p *Part) anchors() []section.Point { return append([]section.Point{p.Anchor}, p.Also...) }

// On reports whether the part is there with the crop's header.
func (p *Part) On(c *crop.Crop) bool {
	switch p.Header {
	case Cuts:
		return !snaps(c)
	case Snaps:
		return snaps(c)
	}
	return true
}

// FindPart returns the part of the given ID, or nil.
func FindPart(id string) *Part {
	for i := range Parts {
		if Parts[i].ID == id {
			return &Parts[i]
		}
	}
	return nil
}

// PartAt returns the part at a point of the section, or nil: of those whose
// area holds the point, the smallest.
func PartAt(c *crop.Crop, q section.Point) *Part {
	var best *Part
	for i := range Parts {
		p := &Parts[i]
		if p.On(c) && p.Area.Contains(q) && (best == nil || area(p.Area) < area(best.Area)) {
			best = p
		}
	}
	return best
}

func area(r Rect) float64 { return (r.X1 - r.X0) * (r.Y1 - r.Y0) }

// light points out the part of the given ID: a bracket at each corner of its
// area.
func (p *pen) light(id string) {
	part := FindPart(id)
	if part == nil {
		return
	}
	a := part.Area
	z := min(a.X1-a.X0, a.Y1-a.Y0) * 0.3
	for _, q := range [...]struct{ x, y, dx, dy float64 }{{a.X0, a.Y0, z, z}, {a.X1, a.Y0, -z, z}, {a.X1, a.Y1, -z, -z}, {a.X0, a.Y1, z, -z}} {
		p.line(heavy, Ink, pt(q.x+q.dx, q.y), pt(q.x, q.y), pt(q.x, q.y+q.dy))
	}
}
