package sim

import (
	"math/rand/v2"
	"reflect"
	"testing"
	"unsafe"

	"github.com/stretchr/testify/require"

	"riddle/sim/setup"
	"riddle/sim/trade/crop"
)

// disturb changes some setting or condition now and then, as drawn.
func disturb(t *testing.T, draw *rand.Rand, machines ...*Machine) {
	t.Helper()
	f := &setup.Fields[draw.IntN(len(setup.Fields))]
	s := machines[0].Setup()
	v := f.From + (f.To-f.From)*draw.Float64()
	if f.Name == "unload" || f.Name == "chopper" {
		v = float64(draw.IntN(2))
	}
	if f.Set(&s, v) != nil {
		return // the header has none
	}
	for _, m := range machines {
		require.NoError(t, m.Adjust(s))
	}
}

// A clone goes on as its machine does, whatever is done to both; what is then
// done to one alone leaves the other as it would have been without.
func TestACloneGoesOnByItself(t *testing.T) {
	for i, name := range crop.Names() {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			draw := rand.New(rand.NewPCG(uint64(i), 5))
			m := newMachine(t, name, 0, func(s *setup.Setup) { s.Seed = draw.Uint64() })
			for k := range 4 * TickHz {
				if k%97 == 50 {
					disturb(t, draw, m)
				}
				m.Step()
			}
			var slot Machine
			m.CopyTo(&slot)
			c, still := m.Clone(), m.Clone()
			before := m.Digest()
			for _, same := range []*Machine{&slot, c, still} {
				require.Equal(t, before, same.Digest())
			}
			for range 3 {
				for range 1 + draw.IntN(TickHz) {
					m.Step()
					c.Step()
					slot.Step()
				}
				disturb(t, draw, m, c, &slot)
				require.Equal(t, m.Digest(), c.Digest())
				require.Equal(t, m.Digest(), slot.Digest())
				requireBalance(t, c)
			}
			alone := c.Clone()
			disturb(t, draw, m)
			for range TickHz {
				m.Step()
				c.Step()
			}
			require.NotEqual(t, m.Digest(), c.Digest())
			for range TickHz {
				alone.Step()
			}
			require.Equal(t, alone.Digest(), c.Digest(), "what is done to one does not touch the other")
			require.Equal(t, before, still.Digest(), "a machine that is not stepped stays")
		})
	}
}

// Also a plugged machine, and one copied over another crop's.
func TestCopyOverAnotherMachine(t *testing.T) {
	plugged := newMachine(t, "wheat", 45, func(s *setup.Setup) { s.Stopped = setup.FeederPart })
	require.Equal(t, Plugged, plugged.State().Condition)
	to := newMachine(t, "corn", 3, nil)
	plugged.CopyTo(to)
	require.Equal(t, plugged.Digest(), to.Digest())
	require.Equal(t, plugged.State(), to.State())
	fresh := newMachine(t, "corn", 0, nil)
	fresh.CopyTo(to)
	run(fresh, 2)
	run(to, 2)
	require.Equal(t, fresh.Digest(), to.Digest())
}

// Nothing that changes is held by both.
func TestAMachineAndItsCloneShareNothing(t *testing.T) {
	m := newMachine(t, "soybeans", 8, nil)
	c := m.Clone()
	held := func(m *Machine) map[unsafe.Pointer]string {
		places := map[unsafe.Pointer]string{}
		var walk func(path string, v reflect.Value)
		walk = func(path string, v reflect.Value) {
			switch v.Kind() {
			case reflect.Struct:
				if v.Type().PkgPath() == "riddle/sim/stage/flow" && (v.Type().Name() == "Bowl" || v.Type().Name() == "Surface") {
					return // geometry
				}
				for i := range v.NumField() {
					walk(path+"."+v.Type().Field(i).Name, v.Field(i))
				}
			case reflect.Slice:
				if v.Cap() > 0 {
					places[v.UnsafePointer()] = path
				}
			case reflect.Interface:
				walk(path, v.Elem())
			case reflect.Pointer:
				if v.IsNil() || ofTheCrop(v.Type()) {
					return
				}
				if _, known := places[v.UnsafePointer()]; !known {
					places[v.UnsafePointer()] = path
					walk(path, v.Elem())
				}
			}
		}
		walk("machine", reflect.ValueOf(m))
		return places
	}
	mine, its := held(m), held(c)
	require.Greater(t, len(mine), 40)
	require.Len(t, its, len(mine))
	for at, path := range mine {
		require.NotContains(t, its, at, path)
	}
}

// Copying into a machine that has held as much takes no room.
func TestCopyingAllocatesNothing(t *testing.T) {
	m := newMachine(t, "wheat", 20, nil)
	slot := &Machine{}
	m.CopyTo(slot)
	back := newMachine(t, "wheat", 0, nil)
	require.Zero(t, testing.AllocsPerRun(20, func() { m.CopyTo(slot); slot.CopyTo(back); back.Step() }))
}
