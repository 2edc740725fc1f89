package raster

import (
	"image"
	"math"

	"golang.org/x/image/vector"

	"riddle/render"
	"riddle/sim/crop"
)

const (
	turns    = 32            // directions in which a figure is kept
	phases   = 2             // places within a pixel, each way
	fine     = 1 << fineBits // the same for specks
	fineBits = 2
)

// stamp is a figure as coverage: w by h pixels, the first of them at x, y off
// the pixel of its dot.
type stamp struct {
	x, y, w, h int
	cover      []uint8
	rim        []uint8 // coverage of the figure and a seam round it, by which it is told from its like
	made       bool
}

// stamps keeps the figures of a crop in a view. A figure is made when it is
// first wanted.
type stamps struct {
	crop   *crop.Crop
	view   render.View
	forms  [render.Forms][render.Grades][turns][phases * phases]stamp
	specks []specks
	z      vector.Rasterizer
	mask   image.Alpha
	pts    []render.Pt
}

// prepare empties the store for another crop or view.
func (s *stamps) prepare(c *crop.Crop, v render.View) {
	s.crop, s.view = c, v
	s.forms = [render.Forms][render.Grades][turns][phases * phases]stamp{}
	s.specks = s.specks[:0]
}

// figure returns the stamp of a mark and the pixel that it is about.
func (s *stamps) figure(m *render.Mark) (*stamp, int, int) {
	x, y := floor(m.X), floor(m.Y)
	px := min(int((m.X-float32(x))*phases), phases-1)
	py := min(int((m.Y-float32(y))*phases), phases-1)
	turn := int(m.Turn+256/turns/2) % 256 / (256 / turns)
	st := &s.forms[m.Form][m.Grade][turn][py*phases+px]
	if !st.made {
		s.draw(st, m, turn, (float32(px)+0.5)/phases, (float32(py)+0.5)/phases)
	}
	return st, x, y
}

// draw makes the stamp of a figure turned by turn, its middle at fx, fy in its
// pixel.
func (s *stamps) draw(st *stamp, m *render.Mark, turn int, fx, fy float32) {
	st.made = true
	if s.crop == nil {
		return
	}
	patches := render.Figure(s.crop, m.Form)
	k := float32(s.view.K/1000) * render.GradeSize[m.Grade]
	sin, cos := math.Sincos(float64(turn) * 2 * math.Pi / turns)
	t := turner{k * float32(cos), k * float32(sin), fx, fy}
	r := s.extent(patches, t).Inset(-1 - int(s.view.Scale*1.5))
	if r.Empty() || r.Dx() > 1024 || r.Dy() > 1024 {
		return
	}
	s.mask = image.Alpha{Pix: make([]uint8, r.Dx()*r.Dy()), Stride: r.Dx(), Rect: r}
	for i := range patches {
		s.patch(&patches[i], t, k)
	}
	st.x, st.y, st.w, st.h, st.cover = r.Min.X, r.Min.Y, r.Dx(), r.Dy(), s.mask.Pix
	switch m.Form {
	case render.KernelForm, render.LightForm, render.HalfForm, render.PieceForm, render.BitForm:
		st.rim = grown(st, max(1, int(s.view.Scale+0.5)))
	default:
		*st = trimmed(*st)
	}
}

// grown returns the coverage of a stamp widened by n pixels all round.
func grown(st *stamp, n int) []uint8 {
	out := make([]uint8, len(st.cover))
	for y := range st.h {
		for x := range st.w {
			most := uint8(0)
			for j := max(y-n, 0); j <= min(y+n, st.h-1); j++ {
				for i := max(x-n, 0); i <= min(x+n, st.w-1); i++ {
					if (i-x)*(i-x)+(j-y)*(j-y) <= n*n {
						most = max(most, st.cover[j*st.w+i])
					}
				}
			}
			out[y*st.w+x] = most
		}
	}
	return out
}

// turner turns and scales points of a figure, mm, to pixels.
type turner struct{ cos, sin, x, y float32 }

func (t turner) px(p render.Pt) render.Pt {
	return render.Pt{X: t.x + p.X*t.cos - p.Y*t.sin, Y: t.y - p.X*t.sin - p.Y*t.cos}
}

func (s *stamps) extent(patches []render.Patch, t turner) image.Rectangle {
	var r image.Rectangle
	for i := range patches {
		r = r.Union(box(s.turned(&patches[i], t)))
	}
	return r
}

func (s *stamps) turned(p *render.Patch, t turner) []render.Pt {
	s.pts = s.pts[:0]
	for _, q := range p.Points {
		s.pts = append(s.pts, t.px(q))
	}
	return s.pts
}

// patch adds one patch to the mask, or takes it away.
func (s *stamps) patch(p *render.Patch, t turner, k float32) {
	pts := s.turned(p, t)
	r := s.mask.Rect
	if p.Width == 0 {
		outline(&s.z, r, pts)
		s.lay(p.Erase)
		return
	}
	w := p.Width * k
	if !p.Erase {
		w = max(w, 0.9*float32(s.view.Scale))
	}
	n := len(pts)
	for i := 1; i < n; i++ {
		s.quad(pts[i-1], pts[i], w)
		s.lay(p.Erase)
	}
	if p.Closed {
		s.quad(pts[n-1], pts[0], w)
		s.lay(p.Erase)
	}
}

// quad outlines one straight stretch of a stroke.
func (s *stamps) quad(a, b render.Pt, w float32) {
	dx, dy := b.X-a.X, b.Y-a.Y
	n := float32(math.Sqrt(float64(dx*dx + dy*dy)))
	if n == 0 {
		n, dx = 1, 1
	}
	ux, uy := dx/n*w/2, dy/n*w/2
	q := [4]render.Pt{
		{X: a.X - ux*0.6 - uy, Y: a.Y - uy*0.6 + ux}, {X: b.X + ux*0.6 - uy, Y: b.Y + uy*0.6 + ux},
		{X: b.X + ux*0.6 + uy, Y: b.Y + uy*0.6 - ux}, {X: a.X - ux*0.6 + uy, Y: a.Y - uy*0.6 - ux},
	}
	outline(&s.z, s.mask.Rect, q[:])
}

// lay puts what is outlined onto the mask: its greatest coverage counts, or is
// taken off.
func (s *stamps) lay(erase bool) {
	add := image.Alpha{Pix: make([]uint8, len(s.mask.Pix)), Stride: s.mask.Stride, Rect: s.mask.Rect}
	s.z.Draw(&add, add.Rect, image.Opaque, image.Point{})
	for i, c := range add.Pix {
		switch {
		case erase:
			s.mask.Pix[i] -= min(s.mask.Pix[i], c)
		default:
			s.mask.Pix[i] = max(s.mask.Pix[i], c)
		}
	}
}

// specks are the round dots of one radius, strength and ink, at each place
// within their pixel.
type specks struct {
	r     float32
	alpha uint8
	ink   ink
	at    [fine * fine]speck
	reach int // pixels from that of the dot to the farthest that it covers
}

// speck is a round dot as the pixels that it covers.
type speck []spot

type spot struct {
	off    int // from the pixel of the dot, in the canvas
	dx, dy int
	veil
}

// round returns the specks of a radius, strength and ink, of which a view has
// some ten.
func (s *stamps) round(r float32, alpha uint8, c ink) *specks {
	for i := range s.specks {
		if k := &s.specks[i]; k.r == r && k.alpha == alpha && k.ink == c {
			return k
		}
	}
	set := specks{r: r, alpha: alpha, ink: c}
	full := int(alpha) + int(alpha)>>7
	for i := range set.at {
		st := roundStamp(r, (float32(i%fine)+0.5)/fine, (float32(i/fine)+0.5)/fine)
		for j, cover := range st.cover {
			dx, dy := st.x+j%st.w, st.y+j/st.w
			if part := (int(cover) + int(cover)>>7) * full >> 8; part > 0 {
				set.at[i] = append(set.at[i], spot{dy*int(s.view.W) + dx, dx, dy, c.veil(uint64(part))})
				set.reach = max(set.reach, dx, -dx, dy, -dy)
			}
		}
	}
	s.specks = append(s.specks, set)
	return &s.specks[len(s.specks)-1]
}

// press lays dots over the picture.
func (s *specks) press(dst *canvas, dots []render.Pt) {
	const far = 1 << 20 // so that cutting off rounds down
	pix, w, reach := dst.pix, dst.w, s.reach
	right, low := uint(max(w-2*reach, 0)), uint(max(dst.h-2*reach, 0))
	for _, d := range dots {
		i, j := int(d.X*fine+far)-far, int(d.Y*fine+far)-far
		st := s.at[j&(fine-1)*fine+i&(fine-1)]
		i, j = i>>fineBits, j>>fineBits
		if uint(i-reach) >= right || uint(j-reach) >= low {
			st.clipped(dst, i, j)
			continue
		}
		at := j*w + i
		for n := range st {
			e := &st[n]
			q := &pix[at+e.off]
			*q = e.over(*q)
		}
	}
}

// clipped lays that part of a dot over the picture that lies on it.
func (s speck) clipped(dst *canvas, i, j int) {
	for _, e := range s {
		if x, y := i+e.dx, j+e.dy; x >= 0 && y >= 0 && x < dst.w && y < dst.h {
			dst.pix[y*dst.w+x] = e.over(dst.pix[y*dst.w+x])
		}
	}
}

// roundStamp makes a disc of radius r about fx, fy in its pixel, by counting
// 8 by 8 points in each.
func roundStamp(r, fx, fy float32) stamp {
	n := floor(r) + 1
	st := stamp{x: -n, y: -n, w: 2*n + 1, h: 2*n + 1, made: true}
	st.cover = make([]uint8, st.w*st.h)
	for i := range st.cover {
		x0, y0 := float32(st.x+i%st.w)-fx, float32(st.y+i/st.w)-fy
		in := 0
		for j := range 64 {
			x, y := x0+(float32(j%8)+0.5)/8, y0+(float32(j/8)+0.5)/8
			if x*x+y*y <= r*r {
				in++
			}
		}
		st.cover[i] = uint8(in * 255 / 64)
	}
	return trimmed(st)
}

// trimmed returns a stamp without the empty rows and columns round it.
func trimmed(st stamp) stamp {
	x0, y0, x1, y1 := st.w, st.h, 0, 0
	for i, c := range st.cover {
		if c > 0 {
			x, y := i%st.w, i/st.w
			x0, y0, x1, y1 = min(x0, x), min(y0, y), max(x1, x+1), max(y1, y+1)
		}
	}
	if x0 >= x1 {
		return st
	}
	out := st
	out.x, out.y, out.w, out.h = st.x+x0, st.y+y0, x1-x0, y1-y0
	out.cover = nil
	for y := y0; y < y1; y++ {
		out.cover = append(out.cover, st.cover[y*st.w+x0:y*st.w+x1]...)
	}
	return out
}
