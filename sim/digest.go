package sim

import (
	"crypto/sha256"
	"encoding/binary"
	"encoding/hex"
	"fmt"
	"math"

	"riddle/sim/flow"
)

// Digest returns a fingerprint of the whole state in hexadecimal digits: every
// dot with its place, speed, kind and stage, all random streams, engine and
// cylinder, the mats and the ledger. Equal inputs give equal digests on every platform.
func (m *Machine) Digest() string {
	h := sha256.New()
	buf := make([]byte, 0, 64)
	u32 := func(v uint32) { buf = binary.LittleEndian.AppendUint32(buf, v) }
	f32 := func(v float32) { u32(math.Float32bits(v)) }
	for p, s := range m.places() {
		buf = append(buf[:0], byte(p))
		u32(uint32(s.Len()))
		h.Write(buf)
		for i := range s.Dots {
			d := &s.Dots[i]
			buf = buf[:0]
			for _, v := range [...]float32{d.X, d.Y, d.VX, d.VY, d.Vt, d.Size, d.S, d.H} {
				f32(v)
			}
			u32(d.Mass)
			u32(d.ID)
			buf = binary.LittleEndian.AppendUint16(buf, d.Grain)
			buf = append(buf, byte(d.Kind), byte(d.Ride), d.Lane, d.Rounds, d.Strikes, byte(d.Cause), d.Husks, d.Heads)
			h.Write(buf)
		}
	}
	for _, s := range m.streams {
		h.Write(s.State())
	}
	for _, mat := range []*flow.Mat{&m.straw.Rows, &m.shoe.UpperMat} {
		buf = buf[:0]
		for i := range mat.Load {
			f32(mat.Load[i])
			f32(mat.Vt[i])
		}
		h.Write(buf)
	}
	// A tally holds whole numbers and some sums; %v prints each without loss.
	fmt.Fprintf(h, "%d %v %v %v %v %v %v", m.tick, m.tally, m.engine, m.work.felt, m.thresh.Drive, m.thresh.Feed, m.shoe.Air)
	return hex.EncodeToString(h.Sum(nil))
}
