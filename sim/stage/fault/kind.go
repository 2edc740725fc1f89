package fault

import (
	"slices"
	"strings"

	"riddle/sim/setup"
)

// Kind is what is wrong.
type Kind uint8

// The kinds, in the order in which the crop meets them within each system.
const (
	None Kind = iota
	ConcaveBlocked
	ConcaveTilted
	BarsWorn
	WalkerSlow
	CurtainGone
	FanSlip
	WindBoardBent
	SieveBlind
	LouvresBent
	ScaleOff
	ReturnsSlack
	ElevatorWorn
	FeederSlack
	TrapFull
	ChopperBlunt
	KnifeDull
	DividerGone
	Stopped // a part stands still: for lessons and tests, none that a command takes
	kinds
)

// Where is the place of a fault.
type Where uint8

// The places: across the machine, along the way of the crop, by lane from left
// to right in the direction of travel, and the parts that can stand still.
const (
	Whole Where = iota
	Left
	Right
	Front
	Rear
	Lane1
	Lane2
	Lane3
	Lane4
	firstPart
)

// partNames are the parts that can stand still, in the order of setup.Parts.
var partNames = []struct {
	part setup.Parts
	name string
}{
	{setup.HeaderPart, "header"}, {setup.FeederPart, "feeder"}, {setup.CylinderPart, "cylinder"}, {setup.BeaterPart, "beater"},
	{setup.WalkerPart, "walkers"}, {setup.ConveyorPart, "conveyors"}, {setup.PreSievePart, "pre-sieve"}, {setup.FanPart, "fan"},
	{setup.UpperPart, "upper sieve"}, {setup.LowerPart, "lower sieve"}, {setup.ReturnsPart, "returns"}, {setup.ElevatorPart, "clean grain elevator"},
}

var (
	placeNames = []string{"whole", "left", "right", "front", "rear", "lane 1", "lane 2", "lane 3", "lane 4"}
	wheres     = firstPart + Where(len(partNames))
)

func partAt(w Where) setup.Parts { return partNames[w-firstPart].part }

// PartAt returns the place of a part that stands still.
func PartAt(p setup.Parts) Where {
	for i := range partNames {
		if partNames[i].part == p {
			return firstPart + Where(i)
		}
	}
	panic("no part that can stand still")
}

// String returns the place as it is written.
func (w Where) String() string {
	switch {
	case w < firstPart:
		return placeNames[w]
	case w < wheres:
		return partNames[w-firstPart].name
	}
	return "nowhere"
}

// findWhere finds a place by its name; a lane also as lane-2 and lane2.
func findWhere(name string) (Where, bool) {
	name = strings.TrimSpace(name)
	if n, ok := strings.CutPrefix(name, "lane"); ok {
		name = "lane " + strings.TrimLeft(n, " -")
	}
	for w := Whole; w < wheres; w++ {
		if w.String() == name {
			return w, true
		}
	}
	return Whole, false
}

// About is what is to be known of a kind.
type About struct {
	Kind  Kind
	Name  string
	Most  string // what degree 1 is
	Built bool   // has laws of its own
	where []Where
}

var (
	along  = []Where{Front, Rear}
	across = []Where{Left, Right, Lane1, Lane2, Lane3, Lane4}
	sides  = []Where{Left, Right}
	all    = slices.Concat(along, across)
)

// abouts are the kinds in their order.
var abouts = []About{
	{ConcaveBlocked, "concave-blocked", "all wires of the stretch closed", true, all},
	{ConcaveTilted, "concave-tilted", "one side twice the gap of the other", false, sides},
	{BarsWorn, "bars-worn", "as bar-wear 1", false, nil},
	{WalkerSlow, "walker-slow", "walkers at half their speed", true, nil},
	{CurtainGone, "curtain-gone", "no walker curtain", false, nil},
	{FanSlip, "fan-slip", "fan at half the speed set", false, nil},
	{WindBoardBent, "wind-board-bent", "no air in that place", false, all},
	{SieveBlind, "sieve-blind", "the patch passes nothing", false, all},
	{LouvresBent, "louvres-bent", "the patch stands twice as open", false, all},
	{ScaleOff, "scale-off", "sieve stands a third narrower than its scale says", false, nil},
	{ReturnsSlack, "returns-slack", "returns carry half", false, nil},
	{ElevatorWorn, "elevator-worn", "clean grain elevator cracks as much as the cylinder", false, nil},
	{FeederSlack, "feeder-slack", "feeds in slugs of a second", false, nil},
	{TrapFull, "trap-full", "stones and earth come in", false, nil},
	{ChopperBlunt, "chopper-blunt", "twice the power, long straw", false, nil},
	{KnifeDull, "knife-dull", "header loss trebled", false, nil},
	{DividerGone, "divider-gone", "load runs freely to the low side", false, nil},
	{Stopped, "stopped", "the part stands still", true, nil},
}

// All lists the kinds that can be named, with what is to be known of each.
func All() []About { return abouts[:len(abouts)-1] }

// Names lists the kinds that can be named.
func Names() []string {
	list := []string{}
	for _, a := range All() {
		list = append(list, a.Name)
	}
	return list
}

// built lists those of them that have laws.
func built() []string {
	list := []string{}
	for _, a := range All() {
		if a.Built {
			list = append(list, a.Name)
		}
	}
	return list
}

func (k Kind) about() *About {
	if k == None || k >= kinds {
		return nil
	}
	return &abouts[k-1]
}

// String returns the name of the kind.
func (k Kind) String() string {
	if a := k.about(); a != nil {
		return a.Name
	}
	return "none"
}

func find(name string) Kind {
	for _, a := range abouts {
		if a.Name == name {
			return a.Kind
		}
	}
	return None
}

// has reports whether the kind can be at a place.
func (a *About) has(w Where) bool {
	if a.Kind == Stopped {
		return w >= firstPart
	}
	return w == Whole || slices.Contains(a.where, w)
}

func (a *About) wantsPlace() string {
	names := []string{}
	list := a.where
	if a.Kind == Stopped {
		for w := firstPart; w < wheres; w++ {
			list = append(list, w)
		}
	}
	for _, w := range list {
		names = append(names, w.String())
	}
	if len(names) == 0 {
		return "left out: " + a.Name + " has no place"
	}
	return "a place for " + a.Name + ": one of " + strings.Join(names, ", ")
}
