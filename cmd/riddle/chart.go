package main

import (
	"bytes"
	"flag"
	"fmt"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"riddle/render"
	"riddle/render/chart"
	"riddle/sim/ask/study"
)

// Width of a chart, px; it is five eighths as high.
const (
	chartWidth                  = 1600
	chartNarrowest, chartWidest = 640, 7680
)

// sheet is where a chart goes and how it looks.
type sheet struct {
	path  string
	theme string
	width int
}

// sheetOf reads the options of a chart.
func sheetOf(f *flag.FlagSet, path, theme, width string) (sheet, error) {
	sh := sheet{path: path, theme: theme}
	if path == "" {
		for _, name := range [...]string{"plot", "theme", "width"} {
			if given(f, name) {
				return sh, wrong(name, f.Lookup(name).Value.String(), "given with --plot FILE.png")
			}
		}
		return sh, nil
	}
	if !strings.EqualFold(filepath.Ext(path), ".png") {
		return sh, wrong("plot", path, "the path of a .png file")
	}
	if !slices.Contains(render.Themes, theme) {
		return sh, wrong("theme", theme, "one of "+strings.Join(render.Themes, ", "))
	}
	px, err := strconv.Atoi(strings.TrimSuffix(width, "px"))
	if err != nil || px < chartNarrowest || px > chartWidest {
		return sh, wrong("width", width, fmt.Sprintf("a whole number from %d to %d px", chartNarrowest, chartWidest))
	}
	sh.width = px
	return sh, writable("plot", path)
}

// draw writes the chart of a sweep, whole or not at all.
func (sh sheet) draw(w study.Sweep, c study.Curve, how method) error {
	var png bytes.Buffer
	text := how.String()
	if how.forecast == nil {
		text += "; bars: one standard error"
	}
	if err := chart.PNG(&png, chart.Response(w, c, text), chart.Size{Theme: sh.theme, Width: sh.width}); err != nil {
		return err
	}
	if err := replace(sh.path, png.Bytes()); err != nil {
		return fmt.Errorf("cannot write %s: %s", sh.path, reason(err))
	}
	return nil
}
