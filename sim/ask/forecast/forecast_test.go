package forecast

import (
	"testing"

	"github.com/stretchr/testify/require"

	"riddle/sim/setup"
	"riddle/sim/stage/machines"
	"riddle/sim/trade/crop"
)

// Whatever goes in comes out: into the tank or lost, and what returns goes
// round.
func TestGrainIsConserved(t *testing.T) {
	for _, name := range crop.Names() {
		s, err := setup.Default(name)
		require.NoError(t, err)
		w := newTwin(machines.Walkers, fit(s.Crop), s)
		w.solve()
		m := w.masses()
		out := m.TankGrain + m.Unthreshed + m.Walker + m.Blown + m.Ridden
		require.InEpsilon(t, m.In-m.LostHeader, out, 1e-3, name)
		require.InEpsilon(t, m.ToCylinder, m.Separated+m.LeftUnthreshed+w.looseOver()*Seconds, 1e-3, name)
	}
}

func (t *twin) looseOver() float64 { return sum(t.over[:t.loose]) }

func BenchmarkReport(b *testing.B) {
	for _, name := range []string{"wheat", "corn"} {
		b.Run(name, func(b *testing.B) {
			s, _ := setup.Default(name)
			for b.Loop() {
				if _, err := Report(s); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
