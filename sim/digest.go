package sim

import (
	"crypto/sha256"
	"encoding/binary"
	"encoding/hex"
	"hash"
	"math"
	"reflect"

	"riddle/sim/stage/design"
	"riddle/sim/stage/fault"
	"riddle/sim/stage/flow"
	"riddle/sim/stage/machines"
	"riddle/sim/trade/crop"
	"riddle/sim/trade/grade"
)

// Digest returns a fingerprint of the whole state in hexadecimal digits: every
// dot in its order, all random streams, and whatever else the machine holds,
// found by looking through it, so that nothing can be forgotten. What it passes
// over is listed with the reason. Equal inputs give equal digests on every
// platform.
func (m *Machine) Digest() string {
	w := digester{hash: sha256.New()}
	for _, s := range m.places() {
		w.number(uint64(s.Len()))
		for i := range s.Dots {
			w.dot(&s.Dots[i])
		}
	}
	for _, s := range m.streams {
		w.hash.Write(s.State())
	}
	w.value(reflect.ValueOf(m).Elem())
	return hex.EncodeToString(w.hash.Sum(nil))
}

// passedOver lists the types that the look through the machine leaves out.
var passedOver = map[reflect.Type]string{
	reflect.TypeFor[flow.Swarm]():        "written before it, dot by dot; what is no Place is empty between steps",
	reflect.TypeFor[flow.Stream]():       "written before it, by the state of its generator",
	reflect.TypeFor[*crop.Crop]():        "fixed by the crop, whose name is in the setup",
	reflect.TypeFor[*machines.Machine](): "fixed: which machine it is",
	reflect.TypeFor[*design.Fit]():       "fixed by the machine and the crop",
	reflect.TypeFor[*grade.Sieving]():    "fixed by the crop",
	reflect.TypeFor[*flow.Path]():        "fixed: geometry",
	reflect.TypeFor[flow.Surface]():      "fixed: geometry",
	reflect.TypeFor[flow.Bowl]():         "fixed: geometry",
	reflect.TypeFor[*crop.Condition]():   "the machine's own, which is written",
	reflect.TypeFor[*uint32]():           "the machine's own counter, which is written",
	reflect.TypeFor[func(flow.Dot)]():    "the way from the returns to the cylinder",
}

// quiet lists the types that are left out where they say nothing, so that a sound
// machine has the digest that it has without faults.
var quiet = map[reflect.Type]bool{
	reflect.TypeFor[fault.Set](): true, reflect.TypeFor[fault.State](): true, reflect.TypeFor[fault.Grate](): true, reflect.TypeFor[fault.Extra](): true,
}

// passedField is the one field of the machine that is passed over by its name:
// Adjust tries a setup in it, and nothing reads it afterwards.
const passedField = "next"

// digester feeds values into a hash in the order in which they are declared.
type digester struct {
	hash hash.Hash
	buf  []byte
}

// value takes up everything that a value holds. A kind that is no part of a
// state is a mistake of whoever put it into the machine.
func (w *digester) value(v reflect.Value) {
	t := v.Type()
	if _, passed := passedOver[t]; passed || quiet[t] && v.IsZero() {
		return
	}
	switch t.Kind() {
	case reflect.Bool:
		n := uint64(0)
		if v.Bool() {
			n = 1
		}
		w.number(n)
	case reflect.Int, reflect.Int8, reflect.Int16, reflect.Int32, reflect.Int64:
		w.number(uint64(v.Int()))
	case reflect.Uint, reflect.Uint8, reflect.Uint16, reflect.Uint32, reflect.Uint64:
		w.number(v.Uint())
	case reflect.Float32, reflect.Float64:
		w.number(math.Float64bits(v.Float()))
	case reflect.String:
		w.number(uint64(v.Len()))
		w.hash.Write([]byte(v.String()))
	case reflect.Slice, reflect.Array:
		w.number(uint64(v.Len()))
		for i := range v.Len() {
			w.value(v.Index(i))
		}
	case reflect.Struct:
		for i := range v.NumField() {
			if t != reflect.TypeFor[Machine]() || t.Field(i).Name != passedField {
				w.value(v.Field(i))
			}
		}
	case reflect.Pointer, reflect.Interface:
		w.value(v.Elem())
	default:
		panic("a machine cannot hold a " + t.String())
	}
}

func (w *digester) number(n uint64) {
	w.buf = binary.LittleEndian.AppendUint64(w.buf[:0], n)
	w.hash.Write(w.buf)
}

// dot takes up one dot. There are so many that it is written by hand.
func (w *digester) dot(d *flow.Dot) {
	buf := w.buf[:0]
	for _, x := range [...]float32{d.X, d.Y, d.VX, d.VY, d.Vt, d.Size, d.Along, d.Since, d.Level} {
		buf = binary.LittleEndian.AppendUint32(buf, math.Float32bits(x))
	}
	for _, x := range [...]uint32{d.Mass, d.ID, d.From} {
		buf = binary.LittleEndian.AppendUint32(buf, x)
	}
	buf = binary.LittleEndian.AppendUint16(buf, d.Grain)
	buf = append(buf, byte(d.Kind), byte(d.Ride), d.Lane, d.Rounds, d.Strikes, byte(d.Cause), d.Husks, d.Heads, truth(d.Arrives))
	w.hash.Write(buf)
	w.buf = buf
}

func truth(yes bool) byte {
	if yes {
		return 1
	}
	return 0
}
