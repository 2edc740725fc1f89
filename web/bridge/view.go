package bridge

import (
	"fmt"
	"slices"

	"riddle/render"
	"riddle/sim"
	"riddle/sim/setup"
	"riddle/sim/trade/crop"
)

// Look is how the page wants the machine drawn.
type Look struct {
	Zone   string        `json:"zone"`
	Theme  string        `json:"theme"`
	Air    bool          `json:"air"`
	Lit    string        `json:"lit"`    // part to point out
	Words  *render.Words `json:"words"`  // names of the parts in the language of the page
	Led    *[]string     `json:"led"`    // parts to which the page itself leads, so that they need no name
	Names  bool          `json:"names"`  // margins are kept for the names of the parts
	Passes bool          `json:"passes"` // where grain passes is shown
	Stay   bool          `json:"stay"`   // the view does not go with the kernel that is followed
}

// check refuses a look that names what is not there.
func (l Look) check() error {
	if _, ok := render.FindZone(l.Zone); !ok {
		return &setup.Error{Field: "view", Value: l.Zone, Want: "one of the zones"}
	}
	if !slices.Contains(render.Themes, l.Theme) {
		return &setup.Error{Field: "theme", Value: l.Theme, Want: fmt.Sprint("one of ", render.Themes)}
	}
	return nil
}

// Map says where the parts lie on the picture.
type Map struct {
	Parts  map[string]Spot `json:"parts"`
	Labels []Label         `json:"labels"`
}

// Label is the name of a part beside it, with a lead to it.
type Label struct {
	Part string  `json:"part"`
	Text string  `json:"text"`
	At   Spot    `json:"at"`   // upper left corner of the words
	Size float64 `json:"size"` // of the words, CSS px
	From Spot    `json:"from"` // of the lead
	To   Spot    `json:"to"`
}

// mapper makes maps. Where the names stand costs as much as many steps of the
// machine, so what was found last is held until something else is to be shown.
type mapper struct {
	crop *crop.Crop
	opt  render.Options
	last *Map
}

func (k *mapper) mapOf(snap *sim.Snapshot, opt render.Options) *Map {
	opt.Air, opt.Lit, opt.Ways, opt.Trail, opt.Passes, opt.Rotors = false, "", false, nil, nil, 0 // move no name
	if k.last == nil || k.crop != snap.Crop || k.opt != opt {
		k.crop, k.opt, k.last = snap.Crop, opt, mapOf(snap, opt)
	}
	return k.last
}

func mapOf(snap *sim.Snapshot, opt render.Options) *Map {
	v := opt.View()
	m := Map{Parts: map[string]Spot{}, Labels: []Label{}}
	for i := range render.Parts {
		if p := &render.Parts[i]; p.On(snap.Crop) {
			m.Parts[p.ID] = spot(v, v.Px(p.Anchor))
		}
	}
	for _, l := range render.Labels(snap, opt) {
		m.Labels = append(m.Labels, Label{l.Key, l.Text, spot(v, l.At), float64(l.Size) / v.Scale, spot(v, l.From), spot(v, l.To)})
	}
	return &m
}

// Spot is a place on the picture, as shares of its width and height from the
// upper left corner.
type Spot struct {
	X float64 `json:"x"`
	Y float64 `json:"y"`
}

func spot(v render.View, p render.Pt) Spot { return Spot{float64(p.X / v.W), float64(p.Y / v.H)} }

// touched returns the part at a spot of the picture, or nil.
func touched(c *crop.Crop, v render.View, at Spot) *render.Part {
	return render.PartAt(c, v.Metres(render.Pt{X: float32(at.X) * v.W, Y: float32(at.Y) * v.H}))
}

// Touched is the part that was touched; empty if there is none.
type Touched struct {
	Part    string `json:"part"`
	Setting string `json:"setting"` // that it obeys, or empty
}
