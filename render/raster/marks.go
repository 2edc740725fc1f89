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

// A figure that is drawn in full has a seam of paper round it.
const rimFrom, rimAlpha = 200, 170

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
			st, x, y := p.stamps.figure(m)
			if st.rim != nil && m.Alpha > rimFrom {
				rim := stamp{x: st.x, y: st.y, w: st.w, h: st.h, cover: st.rim}
				press(&p.frame, &rim, x, y, p.inks[render.Inside], rimAlpha)
			}
			press(&p.frame, st, x, y, c, uint32(m.Alpha))
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

// press lays a stamp over the picture, about the pixel x, y.
func press(dst *canvas, st *stamp, x, y int, c ink, alpha uint32) {
	x, y = x+st.x, y+st.y
	x0, x1 := max(x, 0), min(x+st.w, dst.w)
	y0, y1 := max(y, 0), min(y+st.h, dst.h)
	if x0 >= x1 {
		return
	}
	full := uint64(alpha + alpha>>7) // 255 becomes 256
	for j := y0; j < y1; j++ {
		row := st.cover[(j-y)*st.w+x0-x : (j-y)*st.w+x1-x]
		pix := dst.pix[j*dst.w+x0:][:len(row)]
		for i, cover := range row {
			if cover == 0 {
				continue
			}
			pix[i] = c.over(pix[i], uint64(cover)*full>>8+uint64(cover)>>7)
		}
	}
}
