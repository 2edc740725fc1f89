package story

import (
	"math"

	"riddle/sim"
	"riddle/sim/num"
	"riddle/sim/stage/section"
)

// Spot is where a dot was at a tick; between events it is interpolated along the
// way that the place prescribes.
type Spot struct {
	Tick int64
	X, Y float64
}

// bends are the corners of the way through a place, in the order of the flow.
var bends = [sim.Places][]section.Point{
	sim.Feeding:   section.FeedPath[1:],
	sim.Gap:       arc(),
	sim.Returning: {section.ReturnsElevator.A, section.ReturnsElevator.B, section.ReturnsCross.B, {X: -0.36, Y: 2.0}, {X: -0.30, Y: 1.68}},
	sim.Lifting:   {section.GrainElevator.A, section.GrainElevator.B},
	sim.Step:      {section.ConveyorFloor.B},
}

// arc is the middle of the gap as a line of points.
func arc() []section.Point {
	const steps = 12
	var way []section.Point
	for i := range steps + 1 {
		a := (section.ConcaveFrom + float64(float64(i)*(section.ConcaveTo-section.ConcaveFrom)/steps)) * radian
		r := section.Cylinder.R + 0.005
		way = append(way, section.Point{X: section.Cylinder.Centre.X + float64(r*num.Cos(a)), Y: section.Cylinder.Centre.Y + float64(r*num.Sin(a))})
	}
	return way
}

// Path returns the way of a dot, from the cutter bar on as far as the record
// goes: the places of its events, what lies between them, and, since it is
// watched, where it was seen.
func (r *Recorder) Path(id uint32) []Spot {
	events, _ := r.lineage(id)
	var way []Spot
	for i := range events {
		e := &events[i]
		if e.What == Broke || e.What == Opened {
			continue
		}
		to := Spot{e.Tick, e.X, e.Y}
		if n := len(way); n > 0 && i > 0 {
			way = between(way, way[n-1], to, events[i-1].Place)
		}
		way = append(way, to)
	}
	if r.watch.on && r.watch.id == id {
		way = r.watch.onto(way)
	}
	return way
}

// onto puts what was seen of the watched dot in the place of what was computed.
func (w *watch) onto(way []Spot) []Spot {
	if w.n == 0 {
		return way
	}
	n := len(way)
	for n > 0 && way[n-1].Tick >= w.way[0].tick {
		n--
	}
	way = way[:n]
	for _, p := range w.way[:w.n] {
		way = append(way, Spot{p.tick, float64(p.x), float64(p.y)})
	}
	return way
}

// slowStart is how much slower a dot goes to the first corner of a place than
// from there on: grain is shaken along its trough and then lifted.
var slowStart = [sim.Places]float64{sim.Lifting: 2.0} // 1.62 over 0.8 m/s, package tank

// between adds the corners of a place that lie between two spots, at the times
// at which an even speed brings the dot there.
func between(way []Spot, a, b Spot, p sim.Place) []Spot {
	corners := bends[p]
	if len(corners) == 0 {
		return way
	}
	from, to := nearest(corners, a), nearest(corners, b)
	if from > to {
		return way
	}
	run := append([]section.Point{{X: a.X, Y: a.Y}}, corners[from:to+1]...)
	run = append(run, section.Point{X: b.X, Y: b.Y})
	long := func(i int) float64 { // of the leg that ends at a corner, in the time that it takes
		n := section.Line{A: run[i-1], B: run[i]}.Length()
		if i == 1 && from == 0 && slowStart[p] > 0 {
			n *= slowStart[p]
		}
		return n
	}
	all := 0.0
	for i := 1; i < len(run); i++ {
		all += long(i)
	}
	gone := 0.0
	for i := 1; i < len(run)-1; i++ {
		gone += long(i)
		way = append(way, Spot{a.Tick + int64(float64(b.Tick-a.Tick)*gone/max(all, 1e-9)), run[i].X, run[i].Y})
	}
	return way
}

// nearest returns the index of the corner nearest to a spot.
func nearest(corners []section.Point, s Spot) int {
	best, at := math.Inf(1), 0
	for i, c := range corners {
		dx, dy := c.X-s.X, c.Y-s.Y
		if d := float64(dx*dx) + float64(dy*dy); d < best {
			best, at = d, i
		}
	}
	return at
}

// At returns where a dot was at a tick.
func At(way []Spot, tick int64) (s Spot, ok bool) {
	if len(way) == 0 || tick < way[0].Tick {
		return Spot{}, false
	}
	for i := 1; i < len(way); i++ {
		if b := way[i]; b.Tick >= tick {
			a := way[i-1]
			t := float64(tick-a.Tick) / float64(max(b.Tick-a.Tick, 1))
			return Spot{tick, a.X + float64(t*(b.X-a.X)), a.Y + float64(t*(b.Y-a.Y))}, true
		}
	}
	last := way[len(way)-1]
	return Spot{tick, last.X, last.Y}, tick == last.Tick
}
