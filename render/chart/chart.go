// Package chart draws response curves for a slide: what one setting or
// condition does to losses and sample, with names at the ends of the lines,
// line styles as well as colors, the usual range and the lowest loss.
package chart

import (
	"image/png"
	"io"

	"riddle/render"
)

// Chart is what is to be shown, without a size or a look.
type Chart struct {
	Title  string // what is varied, and where
	Method string // how the values were made
	X, Y   Axis
	Lines  []Line
	Band   *Band  // the usual range of what is varied
	Set    *Note  // the value that the machine is set to
	Least  *Note  // the least value of a line
	Stop   *Note  // from here on the machine plugs, to the end of the side it lies on
	Text   string // crop, settings, conditions
}

// Axis is one axis: its name with unit, and its ends.
type Axis struct {
	Label    string
	From, To float64
}

// Line is one quantity over the varied value.
type Line struct {
	Name   string
	Tone   render.Tone
	Style  Style
	Points []Point // by X
}

// Point is one value of a line; Gap says that there is none at X. Error is one
// standard error of Y, 0 where the value is no count.
type Point struct {
	X, Y, Error float64
	Gap         bool
}

// Style tells a line from others without colour.
type Style struct {
	Heavy  bool
	Dash   []float32 // lengths on and off, in widths of a plain line; none is solid
	Marker Marker
}

// Marker is a shape on a line.
type Marker uint8

// The markers.
const (
	NoMarker Marker = iota
	Round
	Square
	Triangle
	Diamond
	Cross
)

// Band is a named range on the x axis.
type Band struct {
	From, To float64
	Name     string
}

// Note is a named place.
type Note struct {
	X, Y float64
	Text string
}

// Size is the look of a chart: its theme and its width in px. It is five
// eighths as high.
type Size struct {
	Theme string
	Width int
}

// Height returns the height of a chart of the size, px.
func (s Size) Height() int { return s.Width * 5 / 8 }

// PNG draws a chart into a picture file.
func PNG(w io.Writer, c Chart, size Size) error {
	img, err := Draw(c, size)
	if err != nil {
		return err
	}
	return png.Encode(w, img)
}
