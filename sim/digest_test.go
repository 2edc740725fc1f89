package sim

import (
	"fmt"
	"reflect"
	"slices"
	"strings"
	"testing"
	"unsafe"

	"github.com/stretchr/testify/require"

	"riddle/sim/stage/design"
	"riddle/sim/stage/flow"
	"riddle/sim/stage/machines"
	"riddle/sim/trade/crop"
	"riddle/sim/trade/grade"
)

// leaf is one plain value somewhere in a machine.
type leaf struct {
	path  string
	value reflect.Value // may be set
}

// leaves walks through a machine, without the help of the digest's own walk:
// whatever does not belong to the crop is looked into. Of lists it takes the
// first and the last.
func leaves(t *testing.T, m *Machine) (list []leaf) {
	t.Helper()
	seen := map[unsafe.Pointer]bool{}
	var walk func(path string, v reflect.Value)
	walk = func(path string, v reflect.Value) {
		v = reflect.NewAt(v.Type(), v.Addr().UnsafePointer()).Elem() // also what is not exported
		switch v.Kind() {
		case reflect.Struct:
			for i := range v.NumField() {
				walk(path+"."+v.Type().Field(i).Name, v.Field(i))
			}
		case reflect.Array, reflect.Slice:
			n := v.Len()
			for _, i := range slices.Compact([]int{0, n - 1}) {
				if i >= 0 && i < n {
					walk(fmt.Sprintf("%s[%d]", path, i), v.Index(i))
				}
			}
		case reflect.Pointer:
			if v.IsNil() || seen[v.UnsafePointer()] || ofTheCrop(v.Type()) {
				return
			}
			seen[v.UnsafePointer()] = true
			walk(path, v.Elem())
		case reflect.Interface:
			walk(path, v.Elem().Elem())
		case reflect.Func:
		default:
			list = append(list, leaf{path, v})
		}
	}
	walk("machine", reflect.ValueOf(m).Elem())
	return list
}

func ofTheCrop(t reflect.Type) bool {
	return t == reflect.TypeFor[*crop.Crop]() || t == reflect.TypeFor[*design.Fit]() || t == reflect.TypeFor[*machines.Machine]() || t == reflect.TypeFor[*grade.Sieving]() || t == reflect.TypeFor[*flow.Path]()
}

// alter puts another value in, and returns what puts the first one back.
func (l leaf) alter() (back func()) {
	was := reflect.New(l.value.Type()).Elem()
	was.Set(l.value)
	switch l.value.Kind() {
	case reflect.Bool:
		l.value.SetBool(!l.value.Bool())
	case reflect.String:
		l.value.SetString(l.value.String() + "?")
	case reflect.Float32, reflect.Float64:
		l.value.SetFloat(l.value.Float() + 1)
	case reflect.Int, reflect.Int8, reflect.Int16, reflect.Int32, reflect.Int64:
		l.value.SetInt(l.value.Int() + 1)
	default:
		l.value.SetUint(l.value.Uint() + 1)
	}
	return func() { l.value.Set(was) }
}

// left says why the digest may leave out a value, by the end of its path.
var left = map[string]string{
	"next.":  "a setup on trial",
	"floor.": "geometry", "preFace.": "geometry", "upperFace.": "geometry", "lowerFace.": "geometry", "panFace.": "geometry",
	"ceiling.": "geometry", "tail.": "geometry", "pan.": "geometry", "roof.": "geometry", "bowl.": "geometry", "back.": "geometry", "troughs.": "geometry",
}

// Whatever in a machine is changed changes its digest, save what is listed.
func TestDigestCoversTheWholeState(t *testing.T) {
	for _, name := range []string{"wheat", "corn"} {
		m := newMachine(t, name, 6, nil)
		whole, looked := m.Digest(), 0
		for _, l := range leaves(t, m) {
			back := l.alter()
			same := m.Digest() == whole
			back()
			because := ""
			for part, reason := range left {
				if strings.Contains(l.path, "."+part) {
					because = reason
				}
			}
			if same != (because != "") {
				t.Errorf("%s: %s: the digest is the same: %v, though it is left out for being %q", name, l.path, same, because)
			}
			looked++
		}
		require.Equal(t, whole, m.Digest(), "all was put back")
		require.Greater(t, looked, 500)
	}
}

// A swarm that is no Place only hands over within a step.
func TestSwarmsWithoutAPlaceAreEmptyBetweenSteps(t *testing.T) {
	m := newMachine(t, "wheat", 12, nil)
	placed := map[unsafe.Pointer]bool{}
	for _, s := range m.places() {
		placed[unsafe.Pointer(s)] = true
	}
	swarms := 0
	var walk func(path string, v reflect.Value)
	walk = func(path string, v reflect.Value) {
		switch {
		case v.Type() == reflect.TypeFor[flow.Swarm]():
			swarms++
			if !placed[v.Addr().UnsafePointer()] {
				require.Zero(t, v.Field(0).Len(), path)
			}
		case v.Kind() == reflect.Struct:
			for i := range v.NumField() {
				walk(path+"."+v.Type().Field(i).Name, v.Field(i))
			}
		case v.Kind() == reflect.Interface:
			walk(path, v.Elem().Elem())
		case v.Kind() == reflect.Pointer && !v.IsNil() && !ofTheCrop(v.Type()):
			walk(path, v.Elem())
		}
	}
	walk("machine", reflect.ValueOf(m).Elem())
	require.Greater(t, swarms, int(Places))
}
