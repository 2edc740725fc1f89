package raster

import (
	"image"
	"math"
	"unsafe"

	"golang.org/x/image/vector"

	"riddle/render"
	"riddle/sim/trade/crop"
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
	rim        []uint8 // coverage of the figure and a seam round it, by which it is told from its like; nil is none
}

// stamps keeps what dots of a crop look like in a view, each ready in its ink. A
// look is made when it is first wanted.
type stamps struct {
	key    stampKey
	looks  []look
	last   int // number of the look that was wanted last
	specks []specks
	z      vector.Rasterizer
	mask   image.Alpha
	pts    []render.Pt
	kept   int // spots in all looks
}

// stampKey is what stamps depend on: no more of the view than its scale and the
// width of the picture, so that a lens that follows a dot keeps them.
type stampKey struct {
	crop   *crop.Crop
	k      float32 // px a metre; of a lens that moves the last digits of more would differ
	scale  float64
	w      float32
	inside ink
}

// look is a figure of a form in an ink of a strength, in each size, direction
// and place within a pixel.
type look struct {
	form  render.Form
	ink   ink
	alpha uint8
	at    [render.Grades][turns][phases * phases]*inked
}

// maxSpots bounds what is kept, 16 bytes each: what large figures take in a
// close view is given up and made anew.
const maxSpots = 2 << 20

// prepare makes the store ready for a crop in a view.
func (s *stamps) prepare(c *crop.Crop, v render.View, inside ink) {
	if key := (stampKey{c, float32(v.K), v.Scale, v.W, inside}); key != s.key {
		s.key = key
		s.clear()
	}
}

func (s *stamps) clear() { s.looks, s.last, s.specks, s.kept = s.looks[:0], 0, s.specks[:0], 0 }

// figure returns the figure of a mark in an ink and the pixel that it is about.
func (s *stamps) figure(m *render.Glyph, c ink) (st *inked, x, y int) {
	x, y = floor(m.X), floor(m.Y)
	px := min(int((m.X-float32(x))*phases), phases-1)
	py := min(int((m.Y-float32(y))*phases), phases-1)
	turn := int(m.Turn+256/turns/2) % 256 / (256 / turns)
	at := &s.look(m, c).at[m.Grade][turn][py*phases+px]
	if *at == nil {
		if s.kept > maxSpots {
			s.clear()
			at = &s.look(m, c).at[m.Grade][turn][py*phases+px]
		}
		*at = s.ready(s.draw(m, turn, (float32(px)+0.5)/phases, (float32(py)+0.5)/phases), c, m.Alpha)
		s.kept += len((*at).spots)
	}
	return *at, x, y
}

// look returns the look of a mark.
func (s *stamps) look(m *render.Glyph, c ink) *look {
	if s.last < len(s.looks) && s.looks[s.last].is(m, c) {
		return &s.looks[s.last]
	}
	for i := range s.looks {
		if s.looks[i].is(m, c) {
			s.last = i
			return &s.looks[i]
		}
	}
	s.last = len(s.looks)
	s.looks = append(s.looks, look{form: m.Form, ink: c, alpha: m.Alpha})
	return &s.looks[s.last]
}

func (l *look) is(m *render.Glyph, c ink) bool {
	return l.form == m.Form && l.ink == c && l.alpha == m.Alpha
}

// A figure that is drawn in full has a seam of paper round it.
const rimFrom, rimAlpha = 200, 170

// ready returns a stamp in an ink: over its rim, if it is to have one.
func (s *stamps) ready(st stamp, c ink, alpha uint8) *inked {
	out := &inked{}
	for i, cover := range st.cover {
		v := c.veil(parts(cover, alpha))
		if st.rim != nil && alpha > rimFrom {
			v = v.on(s.key.inside.veil(parts(st.rim[i], rimAlpha)))
		}
		out.add(st.x+i%st.w, st.y+i/st.w, int(s.key.w), v)
	}
	return out
}

// parts returns the coverage of a pixel in a strength of ink, of 256.
func parts(cover, alpha uint8) uint64 {
	return (uint64(cover) + uint64(cover)>>7) * (uint64(alpha) + uint64(alpha)>>7) >> 8
}

// draw makes the stamp of a figure turned by turn, its middle at fx, fy in its
// pixel.
func (s *stamps) draw(m *render.Glyph, turn int, fx, fy float32) (st stamp) {
	if s.key.crop == nil {
		return
	}
	patches := render.Figure(s.key.crop, m.Form)
	k := s.key.k / 1000 * render.GradeSize[m.Grade]
	sin, cos := math.Sincos(float64(turn) * 2 * math.Pi / turns)
	t := turner{k * float32(cos), k * float32(sin), fx, fy}
	r := s.extent(patches, t).Inset(-1 - int(s.key.scale*1.5))
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
		st.rim = grown(st, max(1, int(s.key.scale+0.5)))
	}
	return st
}

// grown returns the coverage of a stamp widened by n pixels all round.
func grown(st stamp, n int) []uint8 {
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
		w = max(w, 0.9*float32(s.key.scale))
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
	at    [fine * fine]inked
	reach int
	spots []spot // of each place as many as of any other
	n     int    // how many these are: four, or more by twos
}

// round returns the specks of a radius, strength and ink, of which a view has
// some ten.
func (s *stamps) round(r float32, alpha uint8, c ink) *specks {
	for i := range s.specks {
		if k := &s.specks[i]; k.r == r && k.alpha == alpha && k.ink == c {
			return k
		}
	}
	set := specks{r: r, alpha: alpha, ink: c, n: 4}
	for i := range set.at {
		one := s.ready(roundStamp(r, (float32(i%fine)+0.5)/fine, (float32(i/fine)+0.5)/fine), c, alpha)
		set.at[i], set.reach, set.n = *one, max(set.reach, one.reach), max(set.n, len(one.spots))
	}
	set.n += set.n % 2
	set.spots = make([]spot, fine*fine*set.n)
	for i := range set.at {
		of := set.spots[i*set.n : (i+1)*set.n]
		for j := copy(of, set.at[i].spots); j < len(of); j++ {
			of[j].rest = 256 // which changes nothing
		}
	}
	s.specks = append(s.specks, set)
	return &s.specks[len(s.specks)-1]
}

// press lays dots over the picture, with no branch more than it needs.
//
//go:noinline
func (s *specks) press(dst *canvas, dots []render.Pt) {
	const far = 1 << 20 // so that cutting off rounds down
	const size = int(unsafe.Sizeof(spot{}))
	pix, w, reach, n := unsafe.Pointer(unsafe.SliceData(dst.pix)), dst.w, s.reach, s.n
	spots := unsafe.Pointer(unsafe.SliceData(s.spots))
	right, low := w-reach-1, dst.h-reach-1
	for k := range dots {
		d := &dots[k]
		i, j := int(d.X*fine+far)-far, int(d.Y*fine+far)-far
		place := j&(fine-1)*fine + i&(fine-1)
		i, j = i>>fineBits, j>>fineBits
		if (i-reach)|(j-reach)|(right-i)|(low-j) < 0 {
			s.at[place].clipped(dst, i, j)
			continue
		}
		p, e := unsafe.Add(pix, (j*w+i)*4), unsafe.Add(spots, place*n*size)
		touch(p, (*spot)(e))
		touch(p, (*spot)(unsafe.Add(e, size)))
		touch(p, (*spot)(unsafe.Add(e, 2*size)))
		touch(p, (*spot)(unsafe.Add(e, 3*size)))
		for m := n; m > 4; m -= 2 {
			e = unsafe.Add(e, 2*size)
			touch(p, (*spot)(unsafe.Add(e, 2*size)))
			touch(p, (*spot)(unsafe.Add(e, 3*size)))
		}
	}
}

// roundStamp makes a disc of radius r about fx, fy in its pixel, by counting
// 8 by 8 points in each.
func roundStamp(r, fx, fy float32) stamp {
	n := floor(r) + 1
	st := stamp{x: -n, y: -n, w: 2*n + 1, h: 2*n + 1}
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
	return st
}
