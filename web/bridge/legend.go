package bridge

import (
	"strconv"
	"strings"

	"riddle/render"
	"riddle/sim/stage/flow"
	"riddle/sim/trade/crop"
)

// Kind is one kind of material in the legend: its shape as it is drawn, its
// name, and what one dot of it stands for.
type Kind struct {
	ID     string   `json:"id"`
	Label  string   `json:"label"` // key of its name
	Dot    *Message `json:"dot"`
	Tone   string   `json:"tone"`
	Size   float32  `json:"size"` // greatest extent of the shape, mm
	Stroke []Stroke `json:"shape"`
}

// Stroke is a part of a shape: a path in mm about the middle of the shape.
type Stroke struct {
	Path  string  `json:"path"`
	Width float32 `json:"width"` // mm; 0 is filled
	Erase bool    `json:"erase"` // shows the paper
}

// legend says what each dot of the crop looks like and stands for.
func legend(c *crop.Crop) []Kind {
	straw, bit, tone := "stem", "bit", "straw"
	if c.Header.Snaps {
		straw, bit, tone = "cob", "cob-bit", "cob"
	}
	list := []Kind{
		{Tone: "grain", Dot: say("dot.kernel")},
		{Tone: "grain", Dot: say("dot.light")},
		{Tone: "broken", Dot: say("dot.broken")},
		{Tone: "piece", Dot: say("dot.holds", With{"n": c.PieceKernels})},
		{Tone: "chaff", Dot: stands(c.Chaff.Pieces, "piece")},
		{Tone: tone, Dot: stands(c.Short.Pieces, bit)},
		{Tone: tone, Dot: stands(c.Straw.Pieces, straw)},
		{Tone: "weed", Dot: stands(c.Weed.Pieces, "piece")},
	}
	for i := range list {
		kind := flow.Kind(i)
		list[i].ID, list[i].Label = kindID(kind), "kind."+kindID(kind)
		if c.Header.Snaps && kind == flow.Straw {
			list[i].Label = "kind.cob"
		} else if c.Header.Snaps && kind == flow.Short {
			list[i].Label = "kind.cob-bit"
		}
		list[i].Stroke, list[i].Size = shape(c, kind)
	}
	return list
}

// stands says how many real pieces one dot is.
func stands(n int, what string) *Message { return say("dot."+what, With{"n": n}) }

var forms = [flow.Kinds]render.Form{
	flow.Sound: render.KernelForm, flow.Light: render.LightForm, flow.Broken: render.HalfForm, flow.Piece: render.PieceForm,
	flow.Chaff: render.FlakeForm, flow.Short: render.BitForm, flow.Weed: render.WeedForm,
}

// shape returns the shape of a kind and its greatest extent, mm. Straw has no
// figure: it is a stroke, with the tick of a node if it is long.
func shape(c *crop.Crop, k flow.Kind) (strokes []Stroke, size float32) {
	switch {
	case k == flow.Straw && c.Header.Snaps:
		return cob()
	case k == flow.Straw || k == flow.Short && !c.Header.Snaps:
		return stem(k == flow.Straw)
	}
	for _, p := range render.Figure(c, forms[k]) {
		strokes = append(strokes, Stroke{Path: path(p), Width: p.Width, Erase: p.Erase})
		for _, q := range p.Points {
			size = max(size, 2*q.X+p.Width, -2*q.X+p.Width, 2*q.Y+p.Width, -2*q.Y+p.Width)
		}
	}
	return strokes, size
}

func stem(long bool) ([]Stroke, float32) {
	if long {
		return []Stroke{{Path: "M-11 0H11M1 -2V2", Width: 1.3}}, 24
	}
	return []Stroke{{Path: "M-5 0H5", Width: 1.3}}, 24
}

// cob is a whole cob: a rod with its core left open.
func cob() ([]Stroke, float32) {
	return []Stroke{{Path: "M-10 0H10", Width: 5}, {Path: "M-9 0H9", Width: 2.4, Erase: true}, {Path: "M-9 0H9", Width: 0.6}}, 26
}

// path writes the points of a patch as a path of a drawing, y downwards.
func path(p render.Patch) string {
	var b strings.Builder
	for i, q := range p.Points {
		b.WriteByte("ML"[min(i, 1)])
		b.WriteString(strconv.FormatFloat(float64(q.X), 'f', 2, 32) + " " + strconv.FormatFloat(float64(-q.Y), 'f', 2, 32))
	}
	if p.Closed || p.Width == 0 {
		b.WriteByte('Z')
	}
	return b.String()
}
