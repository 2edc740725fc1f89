//go:build js

package bridge

import (
	"image/color"

	"github.com/hajimehoshi/ebiten/v2"

	"riddle/render"
	"riddle/sim"
)

// paint draws the dots as specks.
func paint(dst *ebiten.Image, snap *sim.Snapshot, opt render.Options) {
	dst.Fill(color.RGBA{0xF4, 0xEF, 0xE3, 255})
	v := opt.View()
	for _, dots := range snap.Dots {
		for i := range dots {
			d := &dots[i]
			x := int((float64(d.X) - v.Rect.X0) * v.K)
			y := int((v.Rect.Y1 - float64(d.Y)) * v.K)
			dst.Set(x, y, color.Black)
		}
	}
}
