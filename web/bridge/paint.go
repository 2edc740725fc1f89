//go:build js

package bridge

import (
	"github.com/hajimehoshi/ebiten/v2"

	"riddle/render"
	"riddle/render/raster"
	"riddle/sim"
)

var painter raster.Painter

func paint(dst *ebiten.Image, snap *sim.Snapshot, opt render.Options) {
	dst.WritePixels(painter.Paint(snap, opt).Pix)
}
