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
	for i := range marks {
		m := &marks[i]
		c := p.inks[m.Tone]
		switch m.Form {
		case render.Stem, render.Knotty:
			p.stem(m, c)
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

// stem paints a straw and, if it is to have them, two nodes.
func (p *Painter) stem(m *render.Mark, c ink) {
	a, b := render.Pt{X: m.X - m.DX, Y: m.Y - m.DY}, render.Pt{X: m.X + m.DX, Y: m.Y + m.DY}
	line(&p.frame, a, b, m.W, c, uint32(m.Alpha))
	n := abs(m.DX) + abs(m.DY)
	if m.Form != render.Knotty || n < 4*m.W {
		return
	}
	tx, ty := -m.DY/n*m.W*2, m.DX/n*m.W*2
	for _, t := range [...]float32{-0.36, 0.30} {
		x, y := m.X+t*m.DX, m.Y+t*m.DY
		line(&p.frame, render.Pt{X: x - tx, Y: y - ty}, render.Pt{X: x + tx, Y: y + ty}, m.W, c, uint32(m.Alpha))
	}
}
