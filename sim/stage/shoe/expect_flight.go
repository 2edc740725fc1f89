package shoe

import (
	"riddle/sim/stage/flow"
)

// flights are what comes of a dot that sets out from each of the starts of a
// sieve: how far it goes and where it ends.
type flights struct {
	dx  [starts]float64
	end [starts]landing
}

// at returns how far a flight from a place goes, m.
func (f *flights) at(s *stands) float64 {
	a, b := s.from, s.from+1
	return f.dx[a] + s.weight*(f.dx[b]-f.dx[a])
}

// way is one way that a flight from a place may go: where it ends, how far it
// goes, m, and the share that goes it.
type way struct {
	end       landing
	dx, share float64
}

// ways parts a flight from a place: in one way, or in two where the starts
// around the place end differently; then n is 2.
func (f *flights) ways(s *stands) (w [2]way, n int) {
	a, b := s.from, s.from+1
	if f.end[a] == f.end[b] {
		return [2]way{{f.end[a], f.at(s), 1}}, 1
	}
	return [2]way{{f.end[a], f.dx[a], 1 - s.weight}, {f.end[b], f.dx[b], s.weight}}, 2
}

// wellPast is how far behind the rear edge of the upper sieve a flight is followed,
// m. Chosen.
const wellPast = 0.2

// hopUpper follows a kernel thrown up from the upper sieve until it meets it
// again and waits for its next contact. The sieve is thought to go on behind
// its rear edge.
func (t *Twin) hopUpper(d flow.Dot) (dx float64) {
	from := d.X
	for range longest {
		if t.s.glideUpper(&d, &t.s.upper[t.s.UpperMat.Cell(d.X)], twinTick) || d.X > t.s.upperFace.To+wellPast {
			break
		}
	}
	return float64(d.X-from) + t.rest(&d)
}

// rest returns how far a kernel that has come down rides until its next
// contact, m.
func (t *Twin) rest(d *flow.Dot) float64 {
	return float64(t.s.carry * max(t.s.period-d.Since, twinTick))
}

// hopLower does the same on the lower sieve. A kernel that crosses the rear
// edge goes on falling behind it.
func (t *Twin) hopLower(d flow.Dot) (dx float64, end landing) {
	from := d.X
	for range longest {
		if t.s.glideLower(&d, t.s.lowerAt(d.X), twinTick) {
			break
		}
		if d.X >= t.s.lowerFace.To {
			return float64(d.X - from), t.fall(&d)
		}
	}
	return float64(d.X-from) + t.rest(&d), onLower
}

// lift follows MOG that the air takes out of the mat on the upper sieve until
// it comes down or is well past the rear edge.
func (t *Twin) lift(d flow.Dot) (dx float64) {
	from := d.X
	for range longest {
		if t.s.glideUpper(&d, &t.s.upper[t.s.UpperMat.Cell(d.X)], twinTick) || d.X > t.s.upperFace.To+wellPast {
			break
		}
	}
	return float64(d.X - from)
}

// liftLower follows MOG that the air takes off the lower sieve.
func (t *Twin) liftLower(d flow.Dot) (dx float64, end landing) {
	from := d.X
	for range longest {
		if t.s.glideLower(&d, t.s.lowerAt(d.X), twinTick) {
			return float64(d.X - from), onLower
		}
		if d.X >= t.s.lowerFace.To {
			return float64(d.X - from), t.fall(&d)
		}
	}
	return float64(d.X - from), overBack
}

// fall follows a dot between the sieves to where it lands.
func (t *Twin) fall(d *flow.Dot) landing {
	for range longest {
		if end := t.s.glideBetween(d, twinTick); end != flying {
			return end
		}
	}
	return overBack
}

// falls is where what falls through the upper sieve at each of its places comes
// to, at one spot or at two, and where what leaves the pan under the pre-sieve.
type falls struct {
	through [upperMost][2]spot
	offPan  spot
}

// spot is where a share of a fall ends: where from on the lower sieve, in
// places, if it ends there.
type spot struct {
	end       landing
	at, share float64
}

// fallFrom lets a dot of terminal velocity vt fall through the upper sieve at
// each of its starts, and lays out the falls from every place.
func (t *Twin) fallFrom(kind flow.Kind, vt float32, to *falls) {
	var f flights
	for k := range starts {
		x := t.upperStart(k)
		d := flow.Dot{Kind: kind, Vt: vt, X: x, Y: t.s.upperFace.At(x) - fallUnder, VX: t.s.carry, Ride: flow.Airborne}
		f.end[k] = t.fall(&d)
		f.dx[k] = float64(d.X - x)
	}
	for i := range t.uppers {
		ways, _ := f.ways(&t.upperStands[i])
		for k, w := range ways {
			to.through[i][k] = t.spotOf(w.end, t.from+(float64(i)+0.5)*grid+w.dx, w.share)
		}
	}
	to.offPan = t.offPan(kind, vt)
}

// behind is where what goes over the lower sieve's rear edge ends.
func (t *Twin) behind() landing {
	if t.s.crop.Plan.Returns == nil {
		return onGround
	}
	return inTrough
}

// spotOf returns the spot of a share that ends at x.
func (t *Twin) spotOf(end landing, x, share float64) spot {
	at := (x - t.s.crop.Plan.LowerSieve.A.X) / lowerStep
	if end == onLower && at >= float64(t.lowers) {
		end = t.behind()
	}
	return spot{end, max(at, 0), share}
}

// panMiddle and conveyorMiddle are how high the middle of the layer lies over the
// pan and over the conveyors, m. Computed.
const panMiddle, conveyorMiddle = lying + panLayer/2, lying + conveyorLayer/2

// offPan lets a dot of terminal velocity vt leave the pan under the pre-sieve
// from the middle of the layer on it.
func (t *Twin) offPan(kind flow.Kind, vt float32) spot {
	x := t.s.panFace.To
	d := flow.Dot{Kind: kind, Vt: vt, X: x, Y: t.s.panFace.At(x) + panMiddle}
	t.s.offPan(&d)
	return t.spotOf(t.fall(&d), float64(d.X), 1)
}

// land brings what falls from place i of the upper sieve to where it ends.
func (fs *falls) land(i int, share float64, lower *[lowerMost + 1]float64, f *Shares) {
	for k := range fs.through[i] {
		fs.put(&fs.through[i][k], share, lower, f)
	}
}

// fromPan brings what leaves the pan to where it ends.
func (fs *falls) fromPan(share float64, lower *[lowerMost + 1]float64, f *Shares) {
	fs.put(&fs.offPan, share, lower, f)
}

func (fs *falls) put(s *spot, share float64, lower *[lowerMost + 1]float64, f *Shares) {
	part := share * s.share
	switch s.end {
	case onLower:
		n := int(s.at)
		next := part * (s.at - float64(n))
		lower[n] += part - next
		lower[n+1] += next
	case onPan:
		fs.fromPan(part, lower, f)
	case inTrough:
		f.Back += part
	case overBack:
		f.Blown += part
	case onGround:
		f.Ridden += part
	}
}

// offRear lets a dot of terminal velocity vt leave the lower sieve's rear edge
// from its face.
func (t *Twin) offRear(kind flow.Kind, vt float32) landing {
	x := t.s.lowerFace.To
	d := flow.Dot{Kind: kind, Vt: vt, X: x, Y: t.s.lowerFace.At(x), VX: t.s.carry, Ride: flow.Airborne}
	return t.fall(&d)
}

// arrival is where a dot that falls over the step comes to the sieves.
type arrival struct {
	over bool    // past the pre-sieve: in the air over the upper sieve
	pan  bool    // on the pan under the step, in a machine without a pre-sieve
	x    float64 // where it comes down
}

// tipped lets a dot fall over the end of the conveyors through the blast.
func (t *Twin) tipped(kind flow.Kind, vt float32, clump bool) arrival {
	x := t.s.floor.To
	d := flow.Dot{Kind: kind, Vt: vt, X: x, Y: t.s.floor.At(x) + conveyorMiddle, VX: conveyorSpeed}
	for range longest {
		if clump {
			d.Fly(0, 0, twinTick, t.s.pull)
		} else {
			t.s.fly(&d, twinTick)
		}
		over, down := t.s.beneath(&d)
		if over {
			break
		}
		if down {
			return arrival{pan: t.s.crop.Plan.PreSieve == nil, x: float64(max(d.X, t.s.preFace.From))}
		}
	}
	for range longest {
		if t.s.glideUpper(&d, &t.s.upper[t.s.UpperMat.Cell(d.X)], twinTick) || d.X >= t.s.upperFace.To {
			break
		}
	}
	return arrival{over: true, x: float64(d.X)}
}
