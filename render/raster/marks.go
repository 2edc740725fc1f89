package raster

import "riddle/render"

// marks paints the dots, and before the last of them what they stand before.
func (p *Painter) marks() {
	for i := range p.scene.Marks {
		if i == render.Fore {
			p.list(&p.frame, &p.scene.Front)
		}
		p.layer(i)
	}
}

func (p *Painter) layer(n int) {
	marks := p.scene.Marks[n]
	stem := stylus{pix: p.frame.pix, w: p.frame.w, h: p.frame.h}
	for i := range marks {
		m := &marks[i]
		c := p.inks[m.Tone]
		switch m.Form {
		case render.Stem, render.Knotty:
			stem.ink, stem.width = c, m.W
			stem.stroke(m.X, m.Y, m.DX, m.DY, uint32(m.Alpha))
			if m.Form == render.Knotty {
				p.knots(m, c)
			}
		case render.Speck:
			p.stamps.round(m.DX, m.Alpha, c).press(&p.frame, []render.Pt{{X: m.X, Y: m.Y}})
		default:
			st, x, y := p.stamps.figure(m, c)
			st.lay(&p.frame, x, y)
		}
	}
	for i := range p.scene.Specks {
		if k := &p.scene.Specks[i]; k.Layer == n && len(k.At) > 0 {
			p.stamps.round(k.R, k.Alpha, p.inks[k.Tone]).press(&p.frame, k.At)
		}
	}
}

// knots paints the two nodes of a straw that is long enough to show them.
func (p *Painter) knots(m *render.Glyph, c ink) {
	n := abs(m.DX) + abs(m.DY)
	if n < 4*m.W {
		return
	}
	tx, ty := -m.DY/n*m.W*2, m.DX/n*m.W*2
	for _, t := range [...]float32{-0.36, 0.30} {
		x, y := m.X+t*m.DX, m.Y+t*m.DY
		line(&p.frame, render.Pt{X: x - tx, Y: y - ty}, render.Pt{X: x + tx, Y: y + ty}, m.W, c, uint32(m.Alpha))
	}
}
