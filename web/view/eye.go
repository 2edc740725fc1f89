package view

import (
	"math"

	"riddle/render"
	"riddle/sim/setup"
	"riddle/sim/stage/section"
	"riddle/web/speak"
)

// Eye is where the user has moved the view to; while its frame is empty, the
// zone is shown.
type Eye struct{ Frame render.Rect }

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

// Move changes the frame. W and h are the picture's size in px.
func (e *Eye) Move(m Move, now render.Rect) error {
	if m.Home {
		e.Frame = render.Rect{}
		return nil
	}
	for _, v := range [...]float64{m.Zoom, m.DX, m.DY} {
		if math.IsNaN(v) || math.IsInf(v, 0) || math.Abs(v) > 100 {
			return &setup.Error{Field: "view", Value: speak.Trim(v), Want: "a step of the view"}
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
	e.Frame = render.Rect{X0: x0, Y0: y1 - high, X1: x0 + wide, Y1: y1}
	return nil
}

// lensWide is how much of the machine a lens that follows a kernel shows, m.
const lensWide = 0.9

// Follow moves the frame so that a spot lies within its middle. It goes in
// steps, and reports whether it made one.
func (e *Eye) Follow(q section.Point, aspect float64) bool {
	r := e.Frame
	wide, high := r.X1-r.X0, r.Y1-r.Y0
	if r.Empty() || wide > 2 {
		wide, high = lensWide, lensWide/aspect
	} else {
		mx, my := wide*0.22, high*0.22
		if (render.Rect{X0: r.X0 + mx, Y0: r.Y0 + my, X1: r.X1 - mx, Y1: r.Y1 - my}).Contains(q) {
			return false
		}
	}
	e.Frame = render.Rect{X0: q.X - wide/2, Y0: q.Y - high/2, X1: q.X + wide/2, Y1: q.Y + high/2}
	return true
}

// RotorShare is how much of their true turning the fast rotors are drawn with
// while the machine runs at a speed: at 60 pictures a second a cylinder of
// 900 rpm would go on by two bars exactly, and seem to stand. Half of what 60
// pictures a second allow is right for 30 as well.
func RotorShare(speed float64) float64 { return min(1, 1/(16*max(speed, 0.05))) }

// Rotors says it, where it is not 1.
func Rotors(speed float64) *speak.Message {
	share := RotorShare(speed)
	if share >= 1 {
		return nil
	}
	return speak.Say("rotors", speak.With{"n": math.Round(1 / share)})
}
