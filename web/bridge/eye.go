package bridge

import (
	"math"

	"riddle/render"
	"riddle/sim/setup"
	"riddle/sim/stage/section"
	"riddle/sim/trade/crop"
)

// eye is where the user has moved the view to; while its frame is empty, the
// zone is shown.
type eye struct{ frame render.Rect }

// Move is how the user moves the view.
type Move struct {
	Zoom float64 `json:"zoom"` // how much closer; 0 leaves it
	At   *Spot   `json:"at"`   // the spot that stays where it is while zooming; the middle if nil
	DX   float64 `json:"dx"`   // to the right, as a share of the picture's width
	DY   float64 `json:"dy"`   // down, as a share of its height
	Home bool    `json:"home"` // back to the zone
}

// Narrowest and widest view, m across.
const nearest, farthest = 0.04, 16.0

// move changes the frame. W and h are the picture's size in px.
func (e *eye) move(m Move, now render.Rect) error {
	if m.Home {
		e.frame = render.Rect{}
		return nil
	}
	for _, v := range [...]float64{m.Zoom, m.DX, m.DY} {
		if math.IsNaN(v) || math.IsInf(v, 0) || math.Abs(v) > 100 {
			return &setup.Error{Field: "view", Value: trim(v), Want: "a step of the view"}
		}
	}
	wide, high := now.X1-now.X0, now.Y1-now.Y0
	at := Spot{0.5, 0.5}
	if m.At != nil {
		at = *m.At
	}
	k := 1.0
	if m.Zoom > 0 {
		k = min(max(wide/m.Zoom, nearest), farthest) / wide
	}
	x0 := now.X0 + at.X*wide*(1-k) + m.DX*wide
	y1 := now.Y1 - at.Y*high*(1-k) - m.DY*high
	wide, high = wide*k, high*k
	whole := render.Zones[0].Rect // its middle must stay within the machine
	x0 = min(max(x0, whole.X0-wide/2), whole.X1-wide/2)
	y1 = min(max(y1, whole.Y0+high/2), whole.Y1+high/2)
	e.frame = render.Rect{X0: x0, Y0: y1 - high, X1: x0 + wide, Y1: y1}
	return nil
}

// lensWide is how much of the machine a lens that follows a kernel shows, m.
const lensWide = 0.9

// follow moves the frame so that a spot lies within its middle. It goes in
// steps, and reports whether it made one.
func (e *eye) follow(q section.Point, aspect float64) bool {
	r := e.frame
	wide, high := r.X1-r.X0, r.Y1-r.Y0
	if r.Empty() || wide > 2 {
		wide, high = lensWide, lensWide/aspect
	} else {
		mx, my := wide*0.22, high*0.22
		if (render.Rect{X0: r.X0 + mx, Y0: r.Y0 + my, X1: r.X1 - mx, Y1: r.Y1 - my}).Contains(q) {
			return false
		}
	}
	e.frame = render.Rect{X0: q.X - wide/2, Y0: q.Y - high/2, X1: q.X + wide/2, Y1: q.Y + high/2}
	return true
}

// rotorShare is how much of their true turning the fast rotors are drawn with
// while the machine runs at a speed: at 60 pictures a second a cylinder of
// 900 rpm would go on by two bars exactly, and seem to stand. Half of what 60
// pictures a second allow is right for 30 as well.
func rotorShare(speed float64) float64 { return min(1, 1/(16*max(speed, 0.05))) }

// rotors says it, where it is not 1.
func rotors(speed float64) *Message {
	share := rotorShare(speed)
	if share >= 1 {
		return nil
	}
	return say("rotors", With{"n": math.Round(1 / share)})
}

// PartChoice is a part of the machine to point out.
type PartChoice struct {
	ID      string `json:"id"`
	Zone    string `json:"zone"` // the closest in which it is seen
	Setting string `json:"setting"`
}

// partChoices lists the parts of the machine in the order of the crop.
func partChoices(c *crop.Crop) []PartChoice {
	var list []PartChoice
	for i := range render.Parts {
		if p := &render.Parts[i]; p.On(c) {
			list = append(list, PartChoice{p.ID, zoneOf(p), settingOf(p)})
		}
	}
	return list
}

// zoneOf returns the zone that shows the greatest share of a part closest, if
// it shows more than half of it.
func zoneOf(p *render.Part) string {
	best, least := "whole", math.Inf(1)
	for _, z := range render.Zones[1:] {
		r, a := z.Rect, p.Area
		w, h := min(r.X1, a.X1)-max(r.X0, a.X0), min(r.Y1, a.Y1)-max(r.Y0, a.Y0)
		if w <= 0 || h <= 0 || w*h < 0.6*(a.X1-a.X0)*(a.Y1-a.Y0) {
			continue
		}
		if size := (r.X1 - r.X0) * (r.Y1 - r.Y0); size < least {
			best, least = z.Name, size
		}
	}
	return best
}
