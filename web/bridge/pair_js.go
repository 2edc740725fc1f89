package bridge

import (
	"encoding/json"
	"image"
	"math"
	"syscall/js"

	"github.com/hajimehoshi/ebiten/v2"

	"riddle/render"
	keep "riddle/web/share"
)

// pairers are the functions of the port that have to do with two machines.
func (g *game) pairers(function func(func(string) string) js.Func) map[string]any {
	changed := func(reply string) string {
		g.stale, g.port.moved = true, true
		return reply
	}
	return map[string]any{
		"pair":   function(func(text string) string { return changed(g.setPair(text)) }),
		"second": function(func(string) string { return g.second() }),
		"doSecond": function(func(text string) string {
			if g.pair == nil {
				return encode(Reply{Error: "there is one machine"})
			}
			return changed(g.pair.DoSecond(text))
		}),
	}
}

// setPair puts a second machine beside the first, takes it away, or does what
// concerns both.
func (g *game) setPair(text string) string {
	var c Command
	if err := json.Unmarshal([]byte(text), &c); err != nil {
		return encode(Reply{Error: err.Error()})
	}
	var err error
	switch {
	case c.Do == "begin" && g.pair == nil:
		g.pair, err = NewPair(g.Session, nil)
	case c.Do == "fork" && g.pair == nil:
		g.pair = Fork(g.Session)
	case g.pair == nil:
	case c.Do == "end":
		g.pair = nil
	case c.Do == "swap":
		g.pair.Swap()
		g.Session = g.pair.First
	case c.Do == "copy":
		err = g.pair.Copy(c.Name == "first")
	}
	if err != nil {
		return encode(g.refusal(err))
	}
	return encode(Reply{Setup: g.Setup()})
}

// second is the setup of the second machine, or null.
func (g *game) second() string {
	if g.pair == nil {
		return "null"
	}
	return encode(g.pair.Second.Setup())
}

// do carries out a command, to both machines where there are two. A link or a
// file that holds a second machine brings it along.
func (g *game) do(text string) (reply string) {
	if g.pair != nil {
		reply = g.pair.Do(text)
	} else {
		reply = g.Session.Do(text)
	}
	if g.claimed != nil {
		g.pair = nil // a run that is played is one machine's
	}
	if settings := g.brought; settings != nil {
		g.brought = nil
		if p, err := NewPair(g.Session, settings); err == nil {
			g.pair = p
		}
	}
	return reply
}

// advance makes the steps that are due.
func (g *game) advance(spent func() bool) int {
	if g.pair != nil {
		return g.pair.Update(spent)
	}
	return g.Session.Update(spent)
}

// kept is what a link or a file holds of what is shown.
func (g *game) kept() keep.Kept {
	if g.pair != nil {
		return g.pair.kept()
	}
	return g.Session.kept()
}

// stacked reports whether two machines stand one above the other: where they
// are larger so.
func (g *game) stacked() bool {
	z, _ := render.FindZone("whole")
	shape := (z.Rect.X1 - z.Rect.X0) / (z.Rect.Y1 - z.Rect.Y0)
	w, h := float64(g.width), float64(g.height)
	return math.Min(w, h/2*shape) > math.Min(w/2, h*shape)
}

// half is the part of the frame in which a machine is shown.
func (g *game) half(i int) image.Rectangle {
	whole := image.Rect(0, 0, g.width, g.height)
	if g.pair == nil {
		return whole
	}
	if g.stacked() {
		return image.Rect(0, g.height/2*i, g.width, g.height/2*(i+1))
	}
	return image.Rect(g.width/2*i, 0, g.width/2*(i+1), g.height)
}

// inHalf turns a spot of the frame into one of the part that shows the machine
// there.
func (g *game) inHalf(at Spot) (Spot, int) {
	if g.pair == nil {
		return at, 0
	}
	v := &at.X
	if g.stacked() {
		v = &at.Y
	}
	which := 0
	if *v >= 0.5 {
		which = 1
	}
	*v = 2**v - float64(which)
	return at, which
}

// drawBoth paints both machines, each in its half.
func (g *game) drawBoth(to *ebiten.Image) {
	for i, s := range [...]*Session{g.pair.First, g.pair.Second} {
		opt := g.options()
		if i == 1 {
			opt.Trail, opt.Passes = nil, nil // those of the first
		}
		part := to.SubImage(g.half(i)).(*ebiten.Image)
		g.views[i].Draw(part, s.Snapshot(), opt)
	}
}

// state reads the machine, and where there are two compares both.
func (g *game) state() State {
	st := g.State()
	if g.pair != nil {
		compare := g.pair.Compare()
		compare.Stacked = g.stacked()
		st.Compare = &compare
	}
	return st
}
