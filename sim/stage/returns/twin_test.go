package returns

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"riddle/sim/check/agree"
	"riddle/sim/setup"
	"riddle/sim/stage/design"
	"riddle/sim/stage/flow"
	"riddle/sim/stage/section"
	"riddle/sim/trade/crop"
)

// The returns alone, fed evenly. A forecast takes it that all comes back as it
// went in up to the elevator's capacity, and that the returns plug beyond it.
func TestTwinOfTheReturns(t *testing.T) {
	for _, load := range []float64{0.3, 0.9, 1.15} {
		t.Run(fmt.Sprint(load, " of the capacity"), func(t *testing.T) {
			c := crop.Find("wheat")
			s, set, tally, rng := New(design.WithWalkers.In(c)), setup.Setup{}, flow.Tally{}, flow.NewStream(1, 1)
			feed := []flow.Dot{
				{Kind: flow.Sound, Grain: flow.Kernel}, {Kind: flow.Broken, Grain: flow.Kernel / 2},
				{Kind: flow.Piece, Grain: uint16(c.PieceKernels * flow.Kernel), Mass: 20000}, {Kind: flow.Chaff, Mass: 20000}, {Kind: flow.Weed, Mass: 100000},
			}
			kg := func(d flow.Dot) float64 { return float64(d.Mass)*1e-9 + float64(d.Grain)/flow.Kernel*c.KernelKg() }
			all := 0.0
			for _, d := range feed {
				all += kg(d)
			}
			rate := load * Capacity * (c.Slice / 1000) / section.InnerWidth / all // of each, a second
			const settle, seconds, hz = 8, 4, 120
			var in, out [flow.Kinds]float64
			var from flow.Tally
			due, back := 0.0, 0.0
			for i := range (settle + seconds) * hz {
				if i == settle*hz {
					out, from, back = [flow.Kinds]float64{}, tally, 0
				}
				for due += rate / hz; due >= 1; due-- {
					for _, d := range feed {
						d.X, d.Y = rng.Between(3.25, 3.75), 0.4
						s.Trough.Add(d)
						if i >= settle*hz {
							in[d.Kind]++
						}
					}
				}
				s.Step(&set, dt, &tally, func(d flow.Dot) {
					require.Equal(t, uint8(1), d.Rounds)
					out[d.Kind]++
					back += kg(d)
				})
			}
			a := agree.Sheet{T: t, Allowed: 0.02}
			per := section.InnerWidth / (c.Slice / 1000) / seconds
			a.Value("kg/s that comes back", back*per, min(load, 1)*Capacity, 0)
			if load < 1 {
				a.Value("grain that comes back, kg/s", float64(tally.Returns.Back-from.Returns.Back)/flow.Kernel*c.KernelKg()*per,
					load*Capacity*grainShare(feed, c), 0)
				for _, d := range feed {
					a.Value(d.Kind.String()+" that comes back", out[d.Kind], in[d.Kind], 0.5)
				}
				require.Less(t, s.Held, 2.0, "kg in the trough")
				return
			}
			require.Greater(t, s.Held, (load-1)*Capacity*(settle+seconds)*0.8, "kg in the trough, which fills")
		})
	}
}

// grainShare is the share of grain in what is fed, by mass.
func grainShare(feed []flow.Dot, c *crop.Crop) float64 {
	grain, all := 0.0, 0.0
	for _, d := range feed {
		kg := float64(d.Grain) / flow.Kernel * c.KernelKg()
		grain += kg
		all += kg + float64(d.Mass)*1e-9
	}
	return grain / all
}
