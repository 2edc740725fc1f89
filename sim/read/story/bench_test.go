package story

import (
	"testing"

	"riddle/sim"
	"riddle/sim/setup"
)

// BenchmarkKeep steps a machine in full work and keeps its record, as the page
// does.
func BenchmarkKeep(b *testing.B) {
	for _, crop := range []string{"wheat", "soybeans", "corn"} {
		b.Run(crop, func(b *testing.B) {
			s, err := setup.Default(crop)
			if err != nil {
				b.Fatal(err)
			}
			m, err := sim.New(s)
			if err != nil {
				b.Fatal(err)
			}
			r := NewRecorder()
			step := func() {
				m.Step()
				r.Keep(m)
			}
			for range 30 * sim.TickHz {
				step()
			}
			b.ReportAllocs()
			for b.Loop() {
				step()
			}
		})
	}
}
