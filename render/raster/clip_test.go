package raster

import (
	"bytes"
	"encoding/binary"
	stdgif "image/gif"
	"image/png"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"riddle/render"
	"riddle/sim"
	"riddle/sim/setup"
)

const clipFrames = 5

// filmed writes a short clip through one of the encoders.
func filmed(t *testing.T, clip func(*bytes.Buffer, render.Options) *Clip) []byte {
	t.Helper()
	s, err := setup.Default("wheat")
	require.NoError(t, err)
	m, err := sim.New(s)
	require.NoError(t, err)
	var file bytes.Buffer
	c := clip(&file, render.Options{Zone: "whole", Width: 300, Height: 150})
	var snap sim.Snapshot
	for range clipFrames {
		for range 30 {
			m.Step()
		}
		m.Snapshot(&snap)
		require.NoError(t, c.Add(&snap))
	}
	require.NoError(t, c.Close())
	return file.Bytes()
}

// The standard library's decoder reads what was written, with every picture
// whole once those before it lie under it.
func TestAGIFIsReadByTheStandardDecoder(t *testing.T) {
	data := filmed(t, func(b *bytes.Buffer, o render.Options) *Clip { return NewGIF(b, clipFrames, o) })
	g, err := stdgif.DecodeAll(bytes.NewReader(data))
	require.NoError(t, err)
	require.Len(t, g.Image, clipFrames)
	assert.Zero(t, g.LoopCount, "for ever")
	for i, frame := range g.Image {
		assert.Equal(t, 100/ClipRate, g.Delay[i])
		clear := 0
		for _, v := range frame.Pix {
			if v == 0 {
				clear++
			}
		}
		if i == 0 {
			assert.Zero(t, clear, "the first picture is whole")
		} else {
			assert.Greater(t, clear, len(frame.Pix)/2, "what stays is not said again")
			assert.Less(t, clear, len(frame.Pix), "something moves")
		}
	}
}

// An animated PNG is a PNG to the standard decoder; each later picture, put
// into a file of its own, is one too.
func TestAnAPNGIsReadByTheStandardDecoder(t *testing.T) {
	data := filmed(t, func(b *bytes.Buffer, o render.Options) *Clip { return NewAPNG(b, clipFrames, o) })
	img, err := png.Decode(bytes.NewReader(data))
	require.NoError(t, err)
	assert.Equal(t, 300, img.Bounds().Dx())
	const signature = 8
	head := append([]byte{}, data[:signature]...)
	pictures, seq := 0, uint32(0)
	for at := signature; at < len(data); {
		size := int(binary.BigEndian.Uint32(data[at:]))
		name, body := string(data[at+4:at+8]), data[at+8:at+8+size]
		whole := data[at : at+12+size]
		at += 12 + size
		switch name {
		case "IHDR", "PLTE", "tRNS":
			head = append(head, whole...)
		case "acTL":
			assert.EqualValues(t, clipFrames, binary.BigEndian.Uint32(body))
			assert.Zero(t, binary.BigEndian.Uint32(body[4:]), "for ever")
		case "fcTL", "fdAT":
			assert.Equal(t, seq, binary.BigEndian.Uint32(body), "numbers without a gap")
			seq++
			if name == "fdAT" {
				var one bytes.Buffer
				one.Write(head)
				a := apng{to: &one}
				a.chunk("IDAT", body[4:])
				require.NoError(t, a.end())
				_, err := png.Decode(&one)
				require.NoError(t, err)
				pictures++
			}
		}
	}
	assert.Equal(t, clipFrames-1, pictures)
}

// The note that rotors are slowed stands in every size of clip.
func TestTheNoteFitsItsPicture(t *testing.T) {
	for _, w := range []int{160, 320, 1440} {
		var p Painter
		opt := render.Options{Width: w, Height: w / 2}
		p.Paint(&sim.Snapshot{}, opt)
		bar := render.ScaleBar(opt)
		d, err := p.letters(bar.Size)
		require.NoError(t, err)
		for _, line := range p.lines(d, ClipNote, float32(w)-2*bar.From.X) {
			assert.LessOrEqual(t, float32(d.MeasureString(line))/64, float32(w)-2*bar.From.X, "%d: %s", w, line)
		}
	}
}
