package raster

import (
	"image"
	"io"

	"riddle/render"
	"riddle/sim"
)

// ClipRate is the number of pictures a second in a clip. It divides a second
// into whole hundredths, by which a GIF counts.
const ClipRate = 25

// ClipRotors is the share of their true turning with which cylinder, beater,
// fan and chopper are drawn in a clip. At ClipRate a cylinder of 1,000 rpm
// turns by 240 degrees from picture to picture, more than five bars, and the
// eye would see any speed but the true one. The clip says so itself.
const ClipRotors = 1.0 / 20

// ClipNote says it.
const ClipNote = "Cylinder, beater, fan and chopper are drawn turning at a twentieth of their speed."

// Clip writes pictures one after another into a looping file.
type Clip struct {
	painter Painter
	opt     render.Options
	out     encoder
	colours palette
	pix     []uint8 // the picture as numbers of colours
	shown   []uint8 // the one before it
	diff    []uint8 // what is new of it; 0 where nothing is
	n       int
}

// encoder writes pictures of 256 colours, of which the first is no colour at
// all: it leaves what was there.
type encoder interface {
	begin(w, h, frames int, colours [][3]uint8) error
	frame(pix []uint8) error
	end() error
}

// NewAPNG returns a clip of so many pictures as an animated PNG.
func NewAPNG(w io.Writer, frames int, opt render.Options) *Clip {
	return &Clip{opt: opt, out: &apng{to: w}, n: frames}
}

// NewGIF returns the same as a GIF.
func NewGIF(w io.Writer, frames int, opt render.Options) *Clip {
	return &Clip{opt: opt, out: &gif{to: w}, n: frames}
}

// Add puts the picture of a snapshot at the end of the clip.
func (c *Clip) Add(snap *sim.Snapshot) error {
	c.opt.Rotors = ClipRotors
	img := c.painter.Paint(snap, c.opt)
	if err := c.painter.note(ClipNote, render.ScaleBar(c.opt)); err != nil {
		return err
	}
	if c.pix == nil {
		if err := c.start(img); err != nil {
			return err
		}
	}
	c.colours.number(c.pix, img.Pix)
	for i, v := range c.pix {
		if v == c.shown[i] {
			v = 0
		}
		c.diff[i] = v
	}
	copy(c.shown, c.pix)
	return c.out.frame(c.diff)
}

func (c *Clip) start(img *image.RGBA) error {
	size := img.Rect.Size()
	n := size.X * size.Y
	c.pix, c.shown, c.diff = make([]uint8, n), make([]uint8, n), make([]uint8, n)
	c.colours.choose(img.Pix, c.painter.scene.Theme, 256)
	return c.out.begin(size.X, size.Y, c.n, c.colours.list)
}

// Close writes the end of the file.
func (c *Clip) Close() error { return c.out.end() }

// palette is the up to 256 colours of a clip or an icon; number 0 is none.
type palette struct {
	list  [][3]uint8
	index [1 << 15]uint8 // number of the colour nearest to one of 5 bits a channel; 0 is not known yet
}

func key(r, g, b uint8) int { return int(r>>3)<<10 | int(g>>3)<<5 | int(b>>3) }

// choose takes the colours of the theme, then those that are the most frequent
// in a picture, most of them at the most.
func (p *palette) choose(pix []uint8, theme *render.Theme, most int) {
	p.list = append(p.list, [3]uint8{})
	taken := [1 << 15]bool{}
	add := func(r, g, b uint8) {
		if k := key(r, g, b); !taken[k] && len(p.list) < most {
			taken[k] = true
			p.list = append(p.list, [3]uint8{r, g, b})
		}
	}
	for _, c := range theme.Colours {
		add(c.R, c.G, c.B)
	}
	var often [1 << 15]int
	var some [1 << 15][3]uint8
	for i := 0; i < len(pix); i += 4 {
		k := key(pix[i], pix[i+1], pix[i+2])
		often[k]++
		some[k] = [3]uint8{pix[i], pix[i+1], pix[i+2]}
	}
	for len(p.list) < most {
		best := -1
		for k, n := range &often {
			if n > 0 && !taken[k] && (best < 0 || n > often[best]) {
				best = k
			}
		}
		if best < 0 {
			return
		}
		add(some[best][0], some[best][1], some[best][2])
	}
}

// number writes the numbers of the colours of a picture.
func (p *palette) number(to, pix []uint8) {
	for i := range to {
		r, g, b := pix[4*i], pix[4*i+1], pix[4*i+2]
		k := key(r, g, b)
		if p.index[k] == 0 {
			p.index[k] = p.nearest(r, g, b)
		}
		to[i] = p.index[k]
	}
}

func (p *palette) nearest(r, g, b uint8) uint8 {
	best, at := 1<<30, 1
	for i, c := range p.list[1:] {
		dr, dg, db := int(r)-int(c[0]), int(g)-int(c[1]), int(b)-int(c[2])
		if d := 3*dr*dr + 4*dg*dg + 2*db*db; d < best {
			best, at = d, i+1
		}
	}
	return uint8(at)
}
