package raster

import (
	"testing"

	"riddle/render"
	"riddle/sim"
	"riddle/sim/setup"
)

// BenchmarkPaint paints a machine in full work at the size of a page.
func BenchmarkPaint(b *testing.B) {
	s, err := setup.Default("wheat")
	if err != nil {
		b.Fatal(err)
	}
	m, err := sim.New(s)
	if err != nil {
		b.Fatal(err)
	}
	for range 25 * sim.TickHz {
		m.Step()
	}
	var snap sim.Snapshot
	m.Snapshot(&snap)
	for _, z := range render.Zones {
		b.Run(z.Name, func(b *testing.B) {
			var p Painter
			opt := render.Options{Zone: z.Name, Width: 1440, Height: 700, Air: true}
			p.Paint(&snap, opt)
			b.ReportAllocs()
			for b.Loop() {
				p.Paint(&snap, opt)
			}
		})
	}
}
