// Package render turns a snapshot of the machine into a draw list: filled
// shapes, lines and marks, in pixels, without any engine. The machine is drawn
// from the very geometry that the flow is computed in, and each dot where it
// was computed.
//
// The list has a static part, which changes only with the view, a moving part
// and the dots. Package raster paints it into an image; package screen shows
// that image in the browser.
package render

import (
	"math"
	"slices"

	"riddle/sim"
	"riddle/sim/read/story"
	"riddle/sim/stage/section"
)

// Rect is a part of the side section, m: x from X0 to X1 to the rear, y from
// Y0 up to Y1.
type Rect struct{ X0, Y0, X1, Y1 float64 }

// Empty reports whether the rectangle holds nothing.
func (r Rect) Empty() bool { return !(r.X1 > r.X0 && r.Y1 > r.Y0) }

// Contains reports whether a point of the section lies in the rectangle.
func (r Rect) Contains(p section.Point) bool {
	return p.X >= r.X0 && p.X <= r.X1 && p.Y >= r.Y0 && p.Y <= r.Y1
}

// Zone is a named part of the machine to look at.
type Zone struct {
	Name  string
	Title string // in words
	Rect  Rect
}

// Zones lists what can be looked at: the whole, then closer, in the order of
// the crop.
var Zones = []Zone{
	{"whole", "The whole machine", Rect{-4.60, -0.24, 6.20, 4.62}},
	{"gap", "Between cylinder and concave", Rect{-0.38, 1.40, 0.42, 1.80}},
	{"concave", "Cylinder, concave and beater", Rect{-0.66, 1.14, 1.02, 2.16}},
	{"walkers", "Straw walkers", Rect{0.55, 1.25, 5.70, 3.10}},
	{"upper", "Pre-sieve and upper sieve", Rect{1.15, 0.80, 3.55, 1.50}},
	{"lower", "Lower sieve and troughs", Rect{1.45, 0.20, 3.95, 1.02}},
	{"returns", "Returns", Rect{-0.45, 0.15, 4.05, 2.65}},
	{"tank", "Grain tank", Rect{-1.05, 2.40, 3.05, 4.45}},
	{"ground", "The ground behind", Rect{4.00, -0.16, 6.60, 1.10}},
}

// Themes lists the names of the themes: paper for day, night, and projector
// for a lit room.
var Themes = []string{"paper", "night", "projector"}

// Options say what of the machine is drawn, and how.
type Options struct {
	Zone          string        // one of Zones; whole if empty. Rect goes before it
	Rect          Rect          // what to show, m; an empty one shows the zone
	Theme         string        // one of Themes; paper if empty
	Labels, Air   bool          // names of the parts, in margins over and under the picture; streaks of air
	Width, Height int           // of the picture, px
	Scale         float64       // px of the picture for one px of line weight; 1 if 0
	Words         *Words        // names of the parts in the language of who looks; nil is English
	Unnamed       *[]string     // parts, by ID, that need no name, since whoever shows the picture leads to them; nil is none
	Lit           string        // the part to point out, by ID; none if empty
	Ways          bool          // arrows that say which way things go
	Trail         *Trail        // the way of one dot to draw over the machine; none if nil
	Passes        *story.Passes // where grain passes, to be drawn with the lost kernels by cause; none if nil
	Rotors        float64       // share of their true turning with which cylinder, beater, fan and chopper are drawn; 1 if 0
}

// Words are names of parts by their IDs.
type Words map[string]string

// nameOf returns the name of a part in the language of who looks; in English it
// says of a pre-sieve that it is closed.
func (o *Options) nameOf(p *Part, snap *sim.Snapshot) string {
	if o.Words == nil && p.ID == "pre-sieve" && snap.Tick > 0 && snap.Setup.Settings.PreSieve == 0 {
		return p.Name + " (closed)"
	}
	if o.Words != nil && (*o.Words)[p.ID] != "" {
		return (*o.Words)[p.ID]
	}
	return p.Name
}

// FindZone returns the zone of the given name; ok is false for an unknown one.
func FindZone(name string) (z Zone, ok bool) {
	if name == "" {
		name = "whole"
	}
	i := slices.IndexFunc(Zones, func(z Zone) bool { return z.Name == name })
	if i < 0 {
		return Zones[0], false
	}
	return Zones[i], true
}

// Fit returns the smallest rectangle of the aspect w to h that holds the zone,
// with the zone in its middle. An unknown zone counts as the whole.
func Fit(zone string, w, h int) Rect {
	z, _ := FindZone(zone)
	return fit(z.Rect, w, h)
}

func fit(r Rect, w, h int) Rect {
	if w <= 0 || h <= 0 {
		return r
	}
	aspect := float64(w) / float64(h)
	wide, high := r.X1-r.X0, r.Y1-r.Y0
	if add := high*aspect - wide; add > 0 {
		return Rect{r.X0 - add/2, r.Y0, r.X1 + add/2, r.Y1}
	}
	add := wide/aspect - high
	return Rect{r.X0, r.Y0 - add/2, r.X1, r.Y1 + add/2}
}

// View returns how the section is laid onto the picture.
func (o Options) View() View {
	if !(o.Scale > 0) {
		o.Scale = 1
	}
	r := o.Rect
	if r.Empty() {
		z, _ := FindZone(o.Zone)
		r = z.Rect
	}
	margin := o.margin()
	inner := float64(o.Height) - 2*margin
	if inner < float64(o.Height)/3 {
		margin, inner = 0, float64(o.Height)
	}
	r = fit(r, o.Width, int(inner+0.5))
	k := float64(o.Width) / (r.X1 - r.X0)
	r.Y0 -= margin / k
	r.Y1 += margin / k
	return View{Rect: r, K: k, Scale: o.Scale, W: float32(o.Width), H: float32(o.Height), Margin: float32(margin)}
}

// margin returns the height of the margins for names, px.
func (o Options) margin() float64 {
	if !o.Labels {
		return 0
	}
	size := float64(labelHeight(o))
	return labelEdge*o.Scale + size*(labelLine*float64(o.rows())+0.4)
}

// fewNames is how many parts must be without a name for the rest to find room
// in two rows.
const fewNames = 6

// rows returns how many rows of names a margin holds: more in a view of the
// whole, where the most names stand, and on a narrow picture.
func (o Options) rows() int {
	if o.Unnamed != nil && len(*o.Unnamed) > fewNames {
		return 2
	}
	if o.Rect.Empty() && (o.Zone == "" || o.Zone == "whole" || o.Zone == "returns") {
		return labelRows
	}
	return 2
}

// HeightFor returns the height of a picture of a zone that is as wide as the
// options say and has its margins, px.
func (o Options) HeightFor(z Zone) int {
	if !(o.Scale > 0) {
		o.Scale = 1
	}
	o.Zone = z.Name
	high := float64(o.Width) * (z.Rect.Y1 - z.Rect.Y0) / (z.Rect.X1 - z.Rect.X0)
	return int(math.Round(high + 2*o.margin()))
}

// View lays the section onto a picture.
type View struct {
	Rect  Rect
	K     float64 // px a metre
	Scale float64 // px of the picture for one px of line weight
	W, H  float32 // of the picture, px

	Margin float32 // over and under the picture, for names, px
}

// Px returns where a point of the section lies on the picture.
func (v View) Px(p section.Point) Pt {
	return Pt{float32((p.X - v.Rect.X0) * v.K), float32((v.Rect.Y1 - p.Y) * v.K)}
}

// Metres returns the point of the section that lies at a place of the picture.
func (v View) Metres(p Pt) section.Point {
	return section.Point{X: v.Rect.X0 + float64(p.X)/v.K, Y: v.Rect.Y1 - float64(p.Y)/v.K}
}
