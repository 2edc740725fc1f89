package render

import (
	"riddle/sim"
	"riddle/sim/stage/flow"
	"riddle/sim/trade/crop"
)

// tone returns the tone of a kind at the level of detail.
func (k *marker) tone(kind flow.Kind) Tone {
	if k.level == classes {
		switch {
		case kind.IsKernel():
			return GrainTone
		case kind == flow.Piece:
			return PieceTone
		case kind == flow.Chaff:
			return ChaffTone
		}
		return StrawTone
	}
	t := kindTones[kind]
	if t == StrawTone && k.cobs {
		return CobTone
	}
	return t
}

var kindTones = [flow.Kinds]Tone{flow.Sound: GrainTone, flow.Light: GrainTone, flow.Broken: BrokenTone, flow.Piece: PieceTone,
	flow.Chaff: ChaffTone, flow.Short: StrawTone, flow.Straw: StrawTone, flow.Weed: WeedTone}

// speck returns the mark as a round dot, of a size by which grain stays the
// plainest.
func (k *marker) speck(kind flow.Kind, m Glyph) Glyph {
	m.Form, m.DX, m.Alpha = Speck, k.grainR, k.ink(k.small)
	switch {
	case kind == flow.Piece:
		m.DX = max(k.grainR*1.3, float32(k.c.PieceSize/1000*k.v.K)*0.5)
	case kind.IsMOG():
		m.DX, m.Alpha = k.grainR*0.72, k.ink(200)
	}
	return m
}

// figure makes a mark in the true shape and size of its kind.
func (k *marker) figure(d *flow.Dot, m Glyph) {
	m.Form, m.Turn = kindForms[d.Kind], turnOf(d, k.place)
	m.Grade = 1
	if typical := typicalSize(k.c, d.Kind); typical > 0 {
		switch ratio := d.Size / typical; {
		case ratio < 0.91:
			m.Grade = 0
		case ratio > 1.1:
			m.Grade = 2
		}
	}
	*k.out = append(*k.out, m)
}

var kindForms = [flow.Kinds]Form{flow.Sound: KernelForm, flow.Light: LightForm, flow.Broken: HalfForm, flow.Piece: PieceForm,
	flow.Chaff: FlakeForm, flow.Short: BitForm, flow.Straw: Knotty, flow.Weed: WeedForm}

// typicalSize is the limiting dimension of a kind, mm; 0 where all are drawn
// alike.
func typicalSize(c *crop.Crop, k flow.Kind) float32 {
	switch k {
	case flow.Sound:
		return float32(c.Size)
	case flow.Light:
		return float32(c.Size * 0.85)
	case flow.Broken:
		return float32(c.Size * 0.75)
	case flow.Piece:
		return float32(c.PieceSize)
	}
	return 0
}

// straw makes a stroke of the straw's true length. Whole cobs are as thick as
// cobs are.
func (k *marker) straw(d *flow.Dot, m Glyph) {
	m.Form, m.W, m.Alpha = k.form(d.Kind), k.stalkW, weaker(m.Alpha, mix(d.ID))
	length := d.Size / 1000 * float32(k.v.K)
	a := turnOf(d, k.place)
	if k.windrow {
		a = sliding(d, k.place, a)
	}
	m.DX, m.DY = length/2*cosines[a], -length/2*cosines[a-64]
	if k.place == sim.Walking && d.Y > hoodLow {
		k.underHood(&m)
	}
	switch {
	case k.cobs && d.Kind == flow.Straw:
		k.cob(m)
	case !k.bend(d, m):
		*k.out = append(*k.out, m)
	}
}

// form returns the form of a stalk.
func (k *marker) form(kind flow.Kind) Form {
	if k.level == figures && kind == flow.Straw {
		return Knotty
	}
	return Stem
}

// stalkAlpha is the strength of a stalk's ink, of 255.
var stalkAlpha = [...]int{classes: 125, kinds: 170, figures: 230}

// cob makes a whole cob: a rod as thick as cobs are, with its core left open.
func (k *marker) cob(m Glyph) {
	m.Form, m.W, m.Alpha = Stem, max(float32(cobThick*k.v.K), k.thick), max(m.Alpha, k.ink(200))
	*k.out = append(*k.out, m)
	if core := m.W - 2.6*k.thick; core > k.thick {
		short := 1 - 2.6*k.thick/max(abs32(m.DX)+abs32(m.DY), 2.6*k.thick)
		m.DX, m.DY, m.W, m.Tone, m.Alpha = m.DX*short, m.DY*short, core, Inside, k.ink(235)
		*k.out = append(*k.out, m)
		m.W, m.Tone, m.Alpha = k.thick, k.tone(flow.Straw), k.ink(255)
		*k.out = append(*k.out, m)
	}
}

// cobThick is the thickness of a corn cob, m. From memory.
const cobThick = 0.026
