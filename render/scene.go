package render

import (
	"math"

	"riddle/sim"
	"riddle/sim/stage/fault"
	"riddle/sim/stage/section"
	"riddle/sim/trade/crop"
)

// Scene is the picture of one snapshot as lists of what to paint, in this
// order: Static, Moving, Marks and Specks of each layer up to Fore, Front, those
// of Fore, Over. It keeps its room from one snapshot to the next.
type Scene struct {
	Theme  *Theme
	View   View
	Static List            // the machine, as far as it stands still
	Moving List            // what turns, shakes, fills
	Marks  [Layers][]Glyph // the dots, by layer
	Specks []Specks        // and those that are but specks, over the others of their layer
	Front  List            // what stands before the near side wall
	Over   List            // air, and the part pointed out

	heap  heap    // of grain in the tank
	rest  []int32 // room for a marker
	opt   Options
	crop  *crop.Crop
	built bool
}

// Set prepares the scene for a view and a crop. It reports whether the static
// part is another one than before.
func (s *Scene) Set(opt Options, c *crop.Crop) bool {
	still := opt
	still.Air, still.Lit, still.Rotors, still.Trail, still.Passes, still.Ways, still.Faults = false, "", 0, nil, nil, false, fault.Set{}
	if s.built && still == s.opt && c == s.crop {
		return false
	}
	s.Theme, _ = FindTheme(opt.Theme)
	s.opt, s.crop, s.built = still, c, true
	s.View = opt.View()
	s.Specks = s.Specks[:0]
	s.Static.Reset()
	p := newPen(&s.Static, s.View, s.Theme)
	p.bodyStill()
	p.headerStill(snaps(c))
	p.feederStill()
	p.threshingStill()
	p.strawStill()
	p.shoeStill()
	p.grainStill()
	p.wheels()
	p.groundLine()
	return true
}

// Update draws a snapshot for the view that was set. An empty snapshot shows
// the machine at a standstill.
func (s *Scene) Update(snap *sim.Snapshot, opt Options) {
	s.Moving.Reset()
	m := &moving{pen: newPen(&s.Moving, s.View, s.Theme), s: snap, front: snap.Front, rear: snap.Rear}
	if m.rotors = opt.Rotors; !(m.rotors > 0) {
		m.rotors = 1
	}
	s.heap = heapOf(snap.TankShare)
	m.grainHeap = s.heap
	m.bad = opt.Faults.State()
	m.shake = section.ShakeAmplitude * math.Sin(snap.ShakePhase)
	m.earth()
	m.stubble()
	m.truck()
	m.heap()
	m.mats()
	m.header()
	m.feeder()
	m.threshing()
	m.straw()
	m.shoe()
	m.grain()
	s.Front.Reset()
	m.pen = newPen(&s.Front, s.View, s.Theme)
	m.grainElevator()
	s.mark(snap)
	s.Over.Reset()
	over := newPen(&s.Over, s.View, s.Theme)
	if opt.Air {
		over.air(snap)
	}
	if opt.Passes != nil {
		over.passes(opt.Passes)
		over.lost(snap)
	}
	if opt.Ways {
		over.ways(snap)
	}
	over.light(opt.Lit)
	over.trail(opt.Trail)
}

// moving draws what depends on the snapshot.
type moving struct {
	pen
	s           *sim.Snapshot
	front, rear float64     // concave gaps, mm
	shake       float64     // travel of the sieves, m
	rotors      float64     // share of their true turning
	grainHeap   heap        // in the tank
	bad         fault.State // what is shown to be wrong
}

// turned returns a fast rotor's angle as it is drawn, degrees.
func (m *moving) turned(angle float64) float64 { return angle * m.rotors * 180 / math.Pi }

func (m *moving) snaps() bool { return snaps(m.s.Crop) }

// snaps reports whether the crop's header snaps ears.
func snaps(c *crop.Crop) bool { return c != nil && c.Header.Snaps }
