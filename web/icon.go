package web

import (
	"bytes"
	"fmt"
	"image/png"
	"os"
	"path/filepath"

	"riddle/render"
	"riddle/render/raster"
	"riddle/sim"
	"riddle/sim/setup"
	"riddle/sim/stage/section"
)

// icon is a picture that stands for the page where it is installed: the
// threshing cylinder at work, painted as the page paints it.
type icon struct {
	name    string
	px      int
	half    float64 // half the side of what is shown, m
	purpose string  // as a manifest calls it
}

// icons of the page. A maskable one may be cut to a circle of 0.8 of its width
// (W3C manifest, safe zone), which the cylinder of 0.6 m with its concave fits.
var icons = []icon{
	{"icon-192.png", 192, 0.43, "any"},
	{"icon-512.png", 512, 0.43, "any"},
	{"icon-maskable.png", 192, 0.52, "maskable"},
}

// iconSeconds is how long the machine of the icons has run, s: crop is in it.
const iconSeconds = 20

// iconColours is how many colours an icon has. Chosen: no eye misses the others.
const iconColours = 64

// writeIcons paints the icons into a directory.
func writeIcons(dir string) error {
	set, err := setup.Default("wheat")
	if err != nil {
		return err
	}
	m, err := sim.New(set)
	if err != nil {
		return err
	}
	for range iconSeconds * sim.TickHz {
		m.Step()
	}
	theme, _ := render.FindTheme("")
	var snap sim.Snapshot
	m.Snapshot(&snap)
	for _, i := range icons {
		img, err := raster.Picture(&snap, i.options())
		if err != nil {
			return fmt.Errorf("icon: %w", err)
		}
		var file bytes.Buffer
		small := png.Encoder{CompressionLevel: png.BestCompression}
		if err := small.Encode(&file, raster.FewColours(img, theme, iconColours)); err != nil {
			return fmt.Errorf("icon: %w", err)
		}
		if err := os.WriteFile(filepath.Join(dir, i.name), file.Bytes(), 0o644); err != nil {
			return err
		}
	}
	return nil
}

func (i icon) options() render.Options {
	c := section.Cylinder.Centre
	y := c.Y - 0.03 // the concave hangs below
	return render.Options{
		Rect:  render.Rect{X0: c.X - i.half, Y0: y - i.half, X1: c.X + i.half, Y1: y + i.half},
		Width: i.px, Height: i.px, Scale: float64(i.px) / 150,
	}
}
