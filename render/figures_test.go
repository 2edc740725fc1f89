package render

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"riddle/sim"
	"riddle/sim/stage/flow"
	"riddle/sim/stage/section"
	"riddle/sim/trade/crop"
)

// boundsOf returns the length and width of a figure's patches, mm.
func boundsOf(patches []Patch) (long, wide float32) {
	var all []Pt
	for _, p := range patches {
		all = append(all, p.Points...)
	}
	lo, hi := Bounds(all)
	return hi.X - lo.X, hi.Y - lo.Y
}

func TestKernelsHaveTheSizeOfTheSeed(t *testing.T) {
	for _, name := range crop.Names() {
		c := crop.Find(name)
		long, wide := boundsOf(Figure(c, KernelForm)[:1])
		assert.InEpsilon(t, c.Seed.Length, long, 0.02, name)
		assert.InEpsilon(t, c.Seed.Width, wide, 0.12, name)
		half, _ := boundsOf(Figure(c, HalfForm))
		assert.Less(t, half, long*0.6, name)
		_, thin := boundsOf(Figure(c, LightForm)[:1])
		assert.Less(t, thin, wide*0.8, name)
	}
}

func TestEveryKindHasAShapeOfItsOwn(t *testing.T) {
	for _, name := range crop.Names() {
		for f := KernelForm; f < Forms; f++ {
			assert.NotEmpty(t, Figure(crop.Find(name), f), "%s %d", name, f)
		}
	}
}

func TestPiecesShowTheirSeeds(t *testing.T) {
	for _, name := range crop.Names() {
		c := crop.Find(name)
		seeds := 0
		for _, p := range Figure(c, PieceForm) {
			if p.Width == 0 && !p.Erase {
				seeds++
			}
		}
		assert.Equal(t, c.PieceKernels, seeds, name)
	}
}

func TestStandingCropStands(t *testing.T) {
	for id := range uint32(200) {
		turn := turnOf(&flow.Dot{ID: id, Kind: flow.Straw, Size: 600}, sim.Standing)
		assert.InDelta(t, 64, int(turn), 5)
	}
}

func TestStrawInAMatLiesAlongItsWay(t *testing.T) {
	for id := range uint32(200) {
		d := flow.Dot{ID: id, Kind: flow.Straw, Size: 600, X: -1, Y: 1.4, Ride: flow.InMat}
		got := float64(int8(turnOf(&d, sim.Feeding))) * 180 / 128
		assert.InDelta(t, slope(section.FeederFloor), got, 8)
	}
}

func TestATurnFollowsFromNumberAndPlaceAlone(t *testing.T) {
	d := flow.Dot{ID: 7, Kind: flow.Chaff, X: 2, Y: 1.2, Ride: flow.Airborne}
	assert.Equal(t, turnOf(&d, sim.Upper), turnOf(&d, sim.Upper))
	moved := d
	moved.X += 0.2
	assert.NotEqual(t, turnOf(&d, sim.Upper), turnOf(&moved, sim.Upper), "what flies turns")
}

// A bent straw is as long as a straight one and goes through its dot.
func TestBentStrawKeepsItsLength(t *testing.T) {
	s := Scene{}
	opt := Options{Zone: "concave", Width: 1200, Height: 700}
	c := crop.Find("wheat")
	s.Set(opt, c)
	var out []Glyph
	k := marker{v: s.View, out: &out, c: c, level: figures, front: 13, rear: 7, place: sim.Gap, strength: 255}
	d := flow.Dot{Kind: flow.Straw, Size: 300, Along: 0.3, Level: 0.5}
	share := float64(d.Along) / section.ConcaveLength
	r := section.CylinderD/2 + 0.5*(13+(7-13)*share)/1000
	q := polar(section.Circle{Centre: section.Cylinder.Centre, R: r}, section.ConcaveFrom+share*(section.ConcaveTo-section.ConcaveFrom))
	d.X, d.Y = float32(q.X), float32(q.Y)
	require.True(t, k.bend(&d, Glyph{Form: Stem, W: 1}))
	at, sum, nearest := s.View.Px(q), 0.0, math.Inf(1)
	for _, m := range out {
		sum += 2 * math.Hypot(float64(m.DX), float64(m.DY))
		nearest = min(nearest, math.Hypot(float64(m.X-at.X), float64(m.Y-at.Y)))
	}
	assert.InEpsilon(t, 0.300*s.View.K, sum, 0.10) // the gap's arc is a little wider than the concave is long
	assert.Less(t, nearest, 0.02*s.View.K)
}
