package render

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"riddle/sim"
	"riddle/sim/setup"
	"riddle/sim/stage/flow"
	"riddle/sim/stage/section"
	"riddle/sim/trade/crop"
)

// worked returns the snapshot of a machine that has worked for some seconds.
func worked(t testing.TB, name string, seconds int) *sim.Snapshot {
	t.Helper()
	s, err := setup.Default(name)
	require.NoError(t, err)
	m, err := sim.New(s)
	require.NoError(t, err)
	for range seconds * sim.TickHz {
		m.Step()
	}
	var snap sim.Snapshot
	m.Snapshot(&snap)
	return &snap
}

// marksOf returns all marks of a scene, its specks among them.
func marksOf(s *Scene) []Glyph {
	all := slices.Concat(s.Marks[:]...)
	for i := range s.Specks {
		one := &s.Specks[i]
		for _, p := range one.At {
			all = append(all, Glyph{X: p.X, Y: p.Y, DX: one.R, Form: Speck, Tone: one.Tone, Alpha: one.Alpha})
		}
	}
	return all
}

func TestAnEmptySnapshotShowsTheMachine(t *testing.T) {
	for _, z := range Zones {
		var s Scene
		opt := Options{Zone: z.Name, Width: 600, Height: 300, Air: true, Lit: "fan"}
		s.Set(opt, nil)
		s.Update(&sim.Snapshot{}, opt)
		assert.NotEmpty(t, s.Static.Shapes, z.Name)
		assert.Empty(t, marksOf(&s), z.Name)
	}
}

func TestTheStaticPartIsKept(t *testing.T) {
	var s Scene
	opt := Options{Zone: "whole", Width: 600, Height: 300}
	c := crop.Find("wheat")
	assert.True(t, s.Set(opt, c))
	assert.False(t, s.Set(opt, c))
	opt.Air, opt.Lit = true, "fan" // drawn over the machine
	assert.False(t, s.Set(opt, c))
	opt.Theme = "night"
	assert.True(t, s.Set(opt, c))
	assert.True(t, s.Set(opt, crop.Find("corn")), "another header")
}

func TestEveryDotInSightIsDrawnWhereItIs(t *testing.T) {
	snap := worked(t, "wheat", 12)
	for i := range snap.Dots { // straight things only: bent straw is drawn in stretches
		var kept []flow.Dot
		for _, d := range snap.Dots[i] {
			if d.Kind != flow.Straw {
				kept = append(kept, d)
			}
		}
		snap.Dots[i] = kept
	}
	snap.Dots[sim.Gap], snap.Dots[sim.Plate] = nil, nil
	snap.Dots[sim.Filling] = nil // the heap in the tank hides what has fallen into it
	var s Scene
	opt := Options{Zone: "whole", Width: 1440, Height: 700}
	s.Set(opt, snap.Crop)
	s.Update(snap, opt)
	want := map[Pt]int{}
	for p := range snap.Dots {
		for _, d := range snap.Dots[p] {
			if q := (section.Point{X: float64(d.X), Y: float64(d.Y)}); s.View.Rect.Contains(q) {
				want[s.View.Px(q)]++
			}
		}
	}
	require.Greater(t, len(want), 5000)
	for _, m := range marksOf(&s) {
		want[Pt{m.X, m.Y}]--
	}
	for q, n := range want {
		require.LessOrEqual(t, n, 0, "a dot at %v is missing", q)
	}
}

func TestConcaveStandsAsFarAsItIsSet(t *testing.T) {
	m := moving{front: 13.3, rear: 6.7}
	assert.InDelta(t, 0.0133, m.gap(section.ConcaveFrom), 1e-12)
	assert.InDelta(t, 0.0067, m.gap(section.ConcaveTo), 1e-12)
}

// Two neighbours at the slant that louvre returns leave the gap between them:
// the distance of parallel lines pitch apart along the sieve.
func TestLouvresLeaveTheGap(t *testing.T) {
	for _, gap := range []float64{0, 2, 8, 16, 24} {
		slant := rad(louvre(gap, section.UpperPitch))
		assert.InDelta(t, gap, section.UpperPitch*math.Sin(slant), 1e-9)
	}
	assert.InDelta(t, 90, louvre(40, section.UpperPitch), 1e-9, "no wider than the pitch")
}

func TestTheHeapGrowsWithTheTank(t *testing.T) {
	full := heapOf(1).area()
	last := 0.0
	for _, share := range []float64{0, 0.1, 0.25, 0.5, 0.75, 1} {
		h := heapOf(share)
		assert.InDelta(t, share, h.area()/full, 0.01)
		assert.GreaterOrEqual(t, h.area(), last)
		last = h.area()
		assert.LessOrEqual(t, h.peak, section.Tank[0].Y+1e-9, "never over the brim")
	}
}

func TestBeltsAreClosedAndMoveAsFastAsTheyAreTold(t *testing.T) {
	for _, k := range []belt{feederBelt, gathering, legs[0], legs[1]} {
		a, _, _ := k.at(0)
		b, _, _ := k.at(k.length())
		assert.InDelta(t, 0, math.Hypot(a.X-b.X, a.Y-b.Y), 1e-9)
		const step = 0.002
		for s := 0.0; s < k.length(); s += step {
			p, _, _ := k.at(s)
			q, _, _ := k.at(s + step)
			require.InDelta(t, step, math.Hypot(p.X-q.X, p.Y-q.Y), step*0.02, "at %v", s)
		}
	}
	// The feeder's lower strand carries the crop up to the cylinder.
	p, _, _ := feederBelt.at(0.5)
	q, _, _ := feederBelt.at(0.6)
	assert.Greater(t, q.X, p.X)
	assert.Less(t, p.Y, feederBelt.a.Centre.Y+0.5*math.Sin(feederBelt.dir))
}

func TestUpdateKeepsItsRoom(t *testing.T) {
	snap := worked(t, "wheat", 8)
	for _, z := range Zones {
		var s Scene
		opt := Options{Zone: z.Name, Width: 800, Height: 400, Air: true}
		s.Set(opt, snap.Crop)
		s.Update(snap, opt)
		assert.Zero(t, testing.AllocsPerRun(5, func() { s.Update(snap, opt) }), z.Name)
	}
}

// Stalks that lie along their way are marked by themselves, to save time, and
// look as if they had been marked with all the others.
func TestStalksThatLieLookLikeTheOthers(t *testing.T) {
	for _, name := range []string{"wheat", "corn", "canola"} {
		snap := worked(t, name, 12)
		var s Scene
		seen := 0
		for _, px := range []int{900, 12_000} { // by classes, and by figures
			opt := Options{Width: px, Height: px / 2, Rect: Rect{X0: -12, Y0: -2, X1: 16, Y1: 12}}
			s.Set(opt, snap.Crop)
			k := s.marker(snap)
			for p, dots := range snap.Dots {
				k.place = sim.Place(p)
				k.alike(&s)
				var want [Layers][]Glyph
				var all []int32
				for i := range dots {
					all = append(all, int32(i))
					if of := &k.brushes[dots[i].Kind][dots[i].Ride]; of.lies {
						k.out, k.strength = &want[of.layer], int(of.strength)
						k.dot(&dots[i], of)
					}
				}
				s.Marks = [Layers][]Glyph{}
				rest := k.lay(dots, all, &s)
				for layer, got := range s.Marks {
					require.Len(t, got, len(want[layer]), "%s, %v", name, k.place)
					seen += len(got)
					for i, m := range got {
						w := want[layer][i]
						require.InDeltaSlice(t, []float32{w.X, w.Y, w.DX, w.DY, w.W}, []float32{m.X, m.Y, m.DX, m.DY, m.W}, 0.01, "%s, %v", name, k.place)
						require.Equal(t, []any{w.Form, w.Tone, w.Alpha}, []any{m.Form, m.Tone, m.Alpha}, "%s, %v", name, k.place)
					}
				}
				for _, i := range rest {
					require.False(t, k.brushes[dots[i].Kind][dots[i].Ride].lies)
				}
			}
		}
		assert.Greater(t, seen, 200, name)
	}
}
