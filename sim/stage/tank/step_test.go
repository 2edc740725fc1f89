package tank

import (
	"testing"

	"github.com/stretchr/testify/require"

	"riddle/sim/setup"
	"riddle/sim/stage/design"
	"riddle/sim/stage/flow"
	"riddle/sim/stage/section"
	"riddle/sim/trade/crop"
)

// Grain takes about 0.5 s in the trough and 2.1 s in the elevator, then falls
// and is counted by what it is.
func TestGrainReachesTheTank(t *testing.T) {
	id := uint32(100)
	s := New(design.WithWalkers.In(crop.Find("wheat")), flow.NewStream(1, 1), &id)
	set, tally := setup.Setup{}, flow.Tally{}
	s.Lifting.Add(flow.Dot{X: 2.5, Y: 0.4, Grain: 4, Kind: flow.Sound, Vt: 8})
	s.Lifting.Add(flow.Dot{X: 2.5, Y: 0.4, Grain: 2, Kind: flow.Broken, Vt: 7})
	s.Lifting.Add(flow.Dot{X: 2.5, Y: 0.4, Grain: 12, Mass: 24000, Kind: flow.Piece, Vt: 5})
	ticks := 0
	for ; tally.Tank.Grain < 18 && ticks < 1200; ticks++ {
		s.Step(&set, 1.0/120, &tally)
	}
	require.InDelta(t, 0.5+2.1+0.5, float64(ticks)/120, 0.6)
	require.Equal(t, int64(2), tally.Tank.Broken)
	require.Equal(t, int64(12), tally.Tank.Unthreshed)
	require.Equal(t, int64(24000), tally.Tank.Foreign)
}

// A tank of 3.6 m² in the section and 1.30 m wide holds 3.6 t of wheat at
// 772 kg/m³ (60 lb a bushel of 35.239 L).
func TestShareIsByVolume(t *testing.T) {
	id := uint32(0)
	c := crop.Find("wheat")
	s := New(design.WithWalkers.In(c), flow.NewStream(1, 1), &id)
	tally := flow.Tally{}
	area := 0.43*(1.75+2.90)/2 + 0.90*2.90
	full := area * 1.30 * 772.3 / c.KernelKg() * (c.Slice / 1000) / section.InnerWidth // kernels in the slice
	tally.Tank.Grain = int64(full/2) * flow.Kernel
	require.InDelta(t, 0.5, s.Share(&tally), 0.001)
	tally.Unloaded = tally.Tank.Grain
	require.Zero(t, s.Share(&tally))
}

// The tank weighs what the grader's sieves would part: for corn, 8 mm wide, an
// eighth of a kernel is 8·⅛^⅓ = 4 mm wide, through 12/64 in (4.76 mm) and on 6/64
// in (2.38 mm); at 0.55 of it 2.2 mm, through both; at 1.25 of it 5 mm, and stays
// on. Three quarters are no part, an eighth is a chip.
func TestTheSampleIsSieved(t *testing.T) {
	id, c := uint32(0), crop.Find("corn")
	s := New(design.WithWalkers.In(c), flow.NewStream(1, 1), &id)
	mean := crop.PartSize(1.0/8) * c.Size
	tally := flow.Tally{}
	for _, d := range []flow.Dot{
		{Kind: flow.Broken, Grain: 8, Size: float32(mean)},
		{Kind: flow.Broken, Grain: 8, Size: float32(0.55 * mean)},
		{Kind: flow.Broken, Grain: 8, Size: float32(1.25 * mean)},
		{Kind: flow.Broken, Grain: 32, Size: float32(crop.BrokenSize * c.Size)},
		{Kind: flow.Broken, Grain: 48, Size: float32(0.1 * mean)},
		{Kind: flow.Broken, Grain: 64, Size: float32(0.1 * mean)}, // whole, only cracked
		{Kind: flow.Sound, Grain: 64, Size: float32(c.Size)},
		{Kind: flow.Piece, Grain: 512, Size: 1, Mass: 700},
		{Kind: flow.Chaff, Mass: 5}, {Kind: flow.Short, Mass: 7}, {Kind: flow.Straw, Mass: 11}, {Kind: flow.Weed, Mass: 13},
	} {
		s.weigh(&d, &tally)
	}
	n := tally.Tank
	require.Equal(t, int64(744), n.Grain)
	require.Equal(t, int64(168), n.Broken)
	require.Equal(t, int64(56), n.Parts)
	require.Equal(t, int64(24), n.Chips)
	require.Equal(t, int64(16), n.Through)
	require.Equal(t, int64(16), n.PartsThrough)
	require.Equal(t, int64(8), n.Fine)
	require.Equal(t, int64(512), n.Unthreshed)
	require.Equal(t, int64(5), n.Chaff)
	require.Equal(t, int64(18), n.Straw)
	require.Equal(t, int64(13), n.Weed)
	require.Equal(t, int64(736), n.Foreign)
}
