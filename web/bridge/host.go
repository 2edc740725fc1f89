package bridge

import (
	"bytes"
	"fmt"
	"image"
	"image/png"
	"math"

	"riddle/render"
	"riddle/render/raster"
	"riddle/sim/read/story"
	keep "riddle/web/share"
	"riddle/web/speak"
	"riddle/web/view"
)

// Host answers the page: it has one machine, or two, and the view of them.
type Host struct {
	*Session       // the machine, or the first of two
	pair     *Pair // nil where there is one machine

	look   view.Look
	names  *render.Words // of the parts, in the language of the page
	eye    view.Eye
	maps   view.Mapper
	width  int // of the picture, px
	height int
	scale  float64

	stale bool // the picture no longer shows the machine
	moved bool // the parts now lie elsewhere on the picture
}

// newHost returns a host of one standing machine.
func newHost() *Host {
	return &Host{Session: NewSession(), look: view.Look{Zone: "whole", Theme: "paper"}, scale: 1}
}

// Ask answers a message of the page; a picture is answered by its bytes.
func (h *Host) Ask(text string) (answer string, file []byte) {
	m, err := read(text)
	if err != nil {
		return encode(Reply{Error: err.Error()}), nil
	}
	if still, is := m.(*Still); is {
		file, err = h.still(*still)
		if err != nil {
			return encode(Reply{Error: err.Error()}), nil
		}
		return encode(Reply{}), file
	}
	if v, is := h.tell(m); is {
		return encode(v), nil
	}
	before := h.run.Revision
	begun := h.run
	err = h.order(m)
	h.stale, h.moved = true, true
	switch {
	case err != nil:
		return encode(h.refusal(err)), nil
	case h.run.Revision != before || h.run != begun || paired(m):
		return encode(Reply{Setup: h.Setup()}), nil
	}
	return encode(Reply{}), nil
}

// tell answers a question.
func (h *Host) tell(m any) (answer any, is bool) {
	switch m := m.(type) {
	case *AskDescription:
		return Describe(), true
	case *AskSetup:
		return h.Setup(), true
	case *AskSecond:
		if h.pair == nil {
			return nil, true
		}
		return h.pair.Second.Setup(), true
	case *AskState:
		return h.state(), true
	case *AskReadings:
		return h.Readings(), true
	case *AskChart:
		return h.Chart(m.After), true
	case *AskCurve:
		return h.Curve(m.Name), true
	case *AskMap:
		return h.maps.Map(h.Snapshot(), h.options()), true
	case *Touch:
		return h.touch(view.Spot(*m)), true
	case *AskLink:
		k := h.kept()
		return k.Link(), true
	case *AskStanding:
		st := h.standing(h.pair)
		st.Zone, st.Frame = h.look.Zone, h.eye.Frame
		return st, true
	case *AskFile:
		k := h.kept()
		return string(k.File()), true
	case *AskRun:
		return h.runText(m.Second), true
	case *AskCSV:
		return h.read().CSV(), true
	}
	return nil, false
}

// order carries out a command.
func (h *Host) order(m any) error {
	switch m := m.(type) {
	case *Look:
		return h.setLook(view.Look(*m))
	case *NameParts:
		h.names = m.Words
		return nil
	case *Move:
		return h.eye.Move(view.Move(*m), h.options().View().Rect)
	case *Grasp:
		return h.grasp(view.Spot(*m))
	case *SecondSet:
		return h.doSecond((*Set)(m))
	case *SecondNudge:
		return h.doSecond((*Nudge)(m))
	case *ComeBack:
		return h.comeTo(Standing(*m))
	case command:
		return h.do(m)
	}
	return h.doPair(m)
}

// do carries out a command, to both machines where there are two. A link or a
// file that holds a second machine brings it along.
func (h *Host) do(c command) (err error) {
	if h.pair != nil {
		err = h.pair.do(c)
	} else {
		err = c.do(h.Session)
	}
	if h.run.Playing() {
		h.pair = nil // a run that is played is one machine's
	}
	if settings := h.brought; settings != nil {
		h.brought = nil
		if p, err := NewPair(h.Session, settings); err == nil {
			h.pair = p
		}
	}
	return err
}

// comeTo comes back to how the machines stood and were looked at.
func (h *Host) comeTo(st Standing) (err error) {
	h.pair, err = h.comeBack(st)
	if _, is := render.FindZone(st.Zone); is {
		h.look.Zone, h.eye.Frame = st.Zone, st.Frame
	}
	return err
}

// doSecond carries out a command to the second machine.
func (h *Host) doSecond(c command) error {
	if h.pair == nil {
		return fmt.Errorf("there is one machine")
	}
	return h.pair.doSecond(c)
}

// paired reports whether a message may have made one machine two, or the other
// way round.
func paired(m any) bool {
	switch m.(type) {
	case *PairBegin, *PairFork, *PairEnd, *PairSwap, *PairCopy:
		return true
	}
	return false
}

// doPair puts a second machine beside the first, takes it away, or does what
// concerns both.
func (h *Host) doPair(m any) (err error) {
	switch m := m.(type) {
	case *PairBegin:
		if h.pair == nil {
			h.pair, err = NewPair(h.Session, nil)
		}
	case *PairFork:
		if h.pair == nil {
			h.pair = Fork(h.Session)
		}
	case *PairEnd:
		h.pair = nil
	case *PairSwap:
		if h.pair != nil {
			h.pair.Swap()
			h.Session = h.pair.First
		}
	case *PairCopy:
		if h.pair != nil {
			err = h.pair.Copy(m.To == "first")
		}
	default:
		panic(fmt.Sprintf("nobody answers a %T", m))
	}
	return err
}

// advance makes the steps that are due.
func (h *Host) advance(spent func() bool) int {
	if h.pair != nil {
		return h.pair.Update(spent)
	}
	return h.Session.Update(spent)
}

// kept is what a link or a file holds of what is shown.
func (h *Host) kept() keep.Kept {
	if h.pair != nil {
		return h.pair.kept()
	}
	return h.Session.kept()
}

// runText is the file of a run; empty where it cannot be kept.
func (h *Host) runText(second bool) string {
	s := h.Session
	if second {
		if h.pair == nil {
			return ""
		}
		s = h.pair.Second
	}
	text, err := s.keptRun()
	if err != nil {
		return ""
	}
	return string(text)
}

// state reads the machine, and where there are two compares both.
func (h *Host) state() State {
	st := h.State()
	if h.pair != nil {
		compare := h.pair.Compare()
		compare.Stacked = h.stacked()
		st.Compare = &compare
	}
	return st
}

// setLook changes how the machine is drawn.
func (h *Host) setLook(look view.Look) error {
	if err := look.Check(); err != nil {
		return err
	}
	if look.Zone != h.look.Zone {
		h.eye = view.Eye{}
	}
	h.look = look
	return nil
}

// touch says which part is at a spot of the picture.
func (h *Host) touch(at view.Spot) view.Touched {
	at, _ = h.inHalf(at)
	p := view.PartAt(h.run.Snap.Crop, h.options().View(), at)
	if p == nil {
		return view.Touched{}
	}
	return view.Touched{Part: p.ID, Setting: view.SettingOf(p)}
}

// graspWithin is how near to a dot it must be pointed, px at scale 1.
const graspWithin = 14

// grasp takes up the dot at a spot of the picture.
func (h *Host) grasp(at view.Spot) error {
	at, second := h.inHalf(at)
	if second > 0 {
		return &nothing{"kernels of the first machine can be followed"}
	}
	v := h.options().View()
	q := v.Metres(render.Pt{X: float32(at.X) * v.W, Y: float32(at.Y) * v.H})
	id, ok := story.Nearest(&h.run.Snap, q.X, q.Y, graspWithin*v.Scale/v.K)
	if !ok {
		return &nothing{"no dot lies there"}
	}
	h.ride.On(id)
	return nil
}

// nothing is why there is nothing to follow.
type nothing struct{ why string }

func (n *nothing) Error() string { return n.why }

func (n *nothing) words() *speak.Message { return speak.Say("ride.nothing") }

// options are how a picture is drawn.
func (h *Host) options() render.Options {
	size := h.half(0)
	opt := render.Options{
		Zone: h.look.Zone, Theme: h.look.Theme, Air: h.look.Air, Lit: h.look.Lit, Words: h.names, Unnamed: h.look.Led,
		Width: size.Dx(), Height: size.Dy(), Scale: h.scale,
		Labels: h.look.Names, Rect: h.eye.Frame, Trail: h.ride.Trail(), Rotors: view.RotorShare(h.run.Speed),
	}
	if h.look.Passes {
		opt.Passes = h.run.Story.Passes()
	}
	return opt
}

// stacked reports whether two machines stand one above the other: where they
// are larger so.
func (h *Host) stacked() bool {
	z, _ := render.FindZone("whole")
	shape := (z.Rect.X1 - z.Rect.X0) / (z.Rect.Y1 - z.Rect.Y0)
	wide, high := float64(h.width), float64(h.height)
	return math.Min(wide, high/2*shape) > math.Min(wide/2, high*shape)
}

// half is the part of the frame in which a machine is shown.
func (h *Host) half(i int) image.Rectangle {
	whole := image.Rect(0, 0, h.width, h.height)
	if h.pair == nil {
		return whole
	}
	if h.stacked() {
		return image.Rect(0, h.height/2*i, h.width, h.height/2*(i+1))
	}
	return image.Rect(h.width/2*i, 0, h.width/2*(i+1), h.height)
}

// inHalf turns a spot of the frame into one of the part that shows the machine
// there.
func (h *Host) inHalf(at view.Spot) (view.Spot, int) {
	if h.pair == nil {
		return at, 0
	}
	v := &at.X
	if h.stacked() {
		v = &at.Y
	}
	which := 0
	if *v >= 0.5 {
		which = 1
	}
	*v = 2**v - float64(which)
	return at, which
}

// narrowest is the least width of a picture that is saved, px.
const narrowest = 1440

// Still asks for a picture of the machine, apart from how it is shown, as the
// bytes of a PNG file.
type Still struct {
	Theme  string `json:"theme"`  // as on the page if empty
	Whole  bool   `json:"whole"`  // the whole machine, whatever the page shows
	Labels bool   `json:"labels"` // names of the parts
	Second bool   `json:"second"` // the second machine, where there are two
}

// still paints the machine as the page shows it, large enough for paper.
func (h *Host) still(want Still) ([]byte, error) {
	opt := h.options()
	opt.Unnamed = nil // no page leads to them there
	if want.Theme != "" {
		opt.Theme = want.Theme
	}
	if want.Whole {
		opt.Zone, opt.Lit, opt.Rect, opt.Trail, opt.Passes = "whole", "", render.Rect{}, nil, nil
		opt.Width, opt.Height = 2, 1 // about the machine's own shape
	}
	opt.Labels, opt.Ways = want.Labels, want.Labels
	if k := float64(narrowest) / float64(max(opt.Width, 1)); k > 1 || want.Whole {
		opt.Height, opt.Width = int(float64(opt.Height)*k), narrowest
		opt.Scale = float64(narrowest) / 1000
	}
	snap := h.Snapshot()
	if want.Second && h.pair != nil {
		snap = h.pair.Second.Snapshot()
	}
	img, err := raster.Picture(snap, opt)
	if err != nil {
		return nil, err
	}
	var file bytes.Buffer
	encoder := png.Encoder{CompressionLevel: png.BestSpeed}
	err = encoder.Encode(&file, img)
	return file.Bytes(), err
}
