package returns

import (
	"testing"

	"github.com/stretchr/testify/require"

	"riddle/sim/setup"
	"riddle/sim/stage/design"
	"riddle/sim/stage/flow"
	"riddle/sim/stage/section"
	"riddle/sim/trade/crop"
)

const dt = float32(1.0 / 120)

// The way back to the cylinder takes about 3.5 s, and a round is counted.
func TestDelay(t *testing.T) {
	s, set, tally := New(design.WithWalkers.In(crop.Find("wheat"))), setup.Setup{}, flow.Tally{}
	s.Trough.Add(flow.Dot{X: 3.3, Y: 0.5, Grain: 4})
	arrived := 0.0
	for i := 0; arrived == 0 && i < 1200; i++ {
		s.Step(&set, dt, &tally, func(d flow.Dot) {
			arrived = float64(i) / 120
			require.Equal(t, uint8(1), d.Rounds)
		})
	}
	require.InDelta(t, 3.5, arrived, 0.5)
	require.Equal(t, int64(4), tally.Returns.Back)
}

// The elevator lifts no more than its capacity; what is above it fills the
// trough until that is full.
func TestCapacity(t *testing.T) {
	c := crop.Find("wheat")
	s, set, tally := New(design.WithWalkers.In(c)), setup.Setup{}, flow.Tally{}
	const seconds = 20
	inSlice := 1.5 * Capacity * (c.Slice / 1000) / section.InnerWidth // kg/s
	perTick := inSlice / c.KernelKg() / 120
	due, fed := 0.0, 0
	for range seconds * 120 {
		for due += perTick; due >= 1; due-- {
			s.Trough.Add(flow.Dot{X: 3.5, Y: 0.4, Grain: flow.Kernel})
			fed++
		}
		s.Step(&set, dt, &tally, func(flow.Dot) {})
	}
	lifted := float64(fed-s.Trough.Len()) * c.KernelKg() / seconds * section.InnerWidth / (c.Slice / 1000)
	require.InDelta(t, Capacity, lifted, 0.05)
	require.True(t, s.Full())
	require.InEpsilon(t, 0.5*Capacity*seconds, s.Held, 0.02)
}
