package raster

import (
	"bytes"
	"compress/lzw"
	"compress/zlib"
	"encoding/binary"
	"hash/crc32"
	"io"
)

// apng writes an animated PNG: Portable Network Graphics (PNG) Specification,
// Third Edition, W3C 2025, chunks acTL, fcTL and fdAT.
type apng struct {
	to   io.Writer
	w, h int
	n    int // of frames written
	seq  uint32
	buf  bytes.Buffer
	z    *zlib.Writer
	err  error
}

func (a *apng) chunk(name string, data []byte) {
	if a.err != nil {
		return
	}
	head := binary.BigEndian.AppendUint32(nil, uint32(len(data)))
	body := append([]byte(name), data...)
	sum := binary.BigEndian.AppendUint32(nil, crc32.ChecksumIEEE(body))
	for _, part := range [][]byte{head, body, sum} {
		if _, a.err = a.to.Write(part); a.err != nil {
			return
		}
	}
}

func (a *apng) begin(w, h, frames int, colours [][3]uint8) error {
	a.w, a.h = w, h
	_, a.err = a.to.Write([]byte("\x89PNG\r\n\x1a\n"))
	be := binary.BigEndian
	const depth, indexed = 8, 3
	a.chunk("IHDR", append(be.AppendUint32(be.AppendUint32(nil, uint32(w)), uint32(h)), depth, indexed, 0, 0, 0))
	a.chunk("acTL", be.AppendUint32(be.AppendUint32(nil, uint32(frames)), 0)) // 0 repeats for ever
	var plte []byte
	for _, c := range colours {
		plte = append(plte, c[0], c[1], c[2])
	}
	a.chunk("PLTE", plte)
	a.chunk("tRNS", []byte{0}) // colour 0 is clear
	return a.err
}

func (a *apng) frame(pix []uint8) error {
	be := binary.BigEndian
	control := be.AppendUint32(nil, a.seq)
	for _, v := range [...]uint32{uint32(a.w), uint32(a.h), 0, 0} {
		control = be.AppendUint32(control, v)
	}
	control = be.AppendUint16(be.AppendUint16(control, 1), ClipRate)
	const keep, over = 0, 1
	a.chunk("fcTL", append(control, keep, over))
	a.seq++
	a.buf.Reset()
	if a.n > 0 {
		a.buf.Write(be.AppendUint32(nil, a.seq))
		a.seq++
	}
	if a.z == nil {
		a.z = zlib.NewWriter(&a.buf)
	} else {
		a.z.Reset(&a.buf)
	}
	for y := range a.h { // each row after its filter, which is none
		if _, err := a.z.Write([]byte{0}); err != nil {
			return err
		}
		if _, err := a.z.Write(pix[y*a.w : (y+1)*a.w]); err != nil {
			return err
		}
	}
	if err := a.z.Close(); err != nil {
		return err
	}
	name := "fdAT"
	if a.n == 0 {
		name = "IDAT"
	}
	a.n++
	a.chunk(name, a.buf.Bytes())
	return a.err
}

func (a *apng) end() error {
	a.chunk("IEND", nil)
	return a.err
}

// gif writes a GIF: Graphics Interchange Format, Version 89a, CompuServe 1990,
// with the extension by which it repeats for ever.
type gif struct {
	to   io.Writer
	w, h int
	buf  bytes.Buffer
}

func (g *gif) begin(w, h, _ int, colours [][3]uint8) error {
	g.w, g.h = w, h
	le := binary.LittleEndian
	head := le.AppendUint16(le.AppendUint16([]byte("GIF89a"), uint16(w)), uint16(h))
	head = append(head, 0xF7, 0, 0) // 256 colours for all pictures
	for i := range 256 {
		c := [3]uint8{}
		if i < len(colours) {
			c = colours[i]
		}
		head = append(head, c[0], c[1], c[2])
	}
	head = append(head, "\x21\xFF\x0BNETSCAPE2.0\x03\x01\x00\x00\x00"...)
	_, err := g.to.Write(head)
	return err
}

func (g *gif) frame(pix []uint8) error {
	const keepAndClear = 1<<2 | 1 // leave the picture; colour 0 is clear
	le := binary.LittleEndian
	head := append([]byte{0x21, 0xF9, 4, keepAndClear, 100 / ClipRate, 0, 0, 0, 0x2C}, 0, 0, 0, 0)
	head = le.AppendUint16(le.AppendUint16(head, uint16(g.w)), uint16(g.h))
	head = append(head, 0, 8)
	g.buf.Reset()
	z := lzw.NewWriter(&g.buf, lzw.LSB, 8)
	if _, err := z.Write(pix); err != nil {
		return err
	}
	if err := z.Close(); err != nil {
		return err
	}
	for g.buf.Len() > 0 { // in blocks of up to 255 bytes
		block := g.buf.Next(255)
		head = append(append(head, byte(len(block))), block...)
	}
	_, err := g.to.Write(append(head, 0))
	return err
}

func (g *gif) end() error {
	_, err := g.to.Write([]byte{0x3B})
	return err
}
