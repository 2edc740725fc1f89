package strict

import (
	"encoding/json"
	"fmt"
	"maps"
	"slices"
	"strconv"
	"strings"

	"riddle/sim/setup"
)

// Reader reads a parsed file and keeps the first thing that is wrong.
type Reader struct {
	File string
	Err  error
}

// Fail notes what is wrong at a path, unless something was wrong before.
func (r *Reader) Fail(path, format string, args ...any) {
	if r.Err == nil {
		r.Err = &Error{File: r.File, Path: path, Reason: fmt.Sprintf(format, args...)}
	}
}

// Object is a JSON object at a path.
type Object struct {
	r    *Reader
	Path string
	M    map[string]any
}

// Object reads an object that has exactly these keys; one with a question mark
// may be missing.
func (r *Reader) Object(v any, path string, keys ...string) Object {
	m, ok := v.(map[string]any)
	if !ok {
		r.Fail(path, "is %s; it must be an object", kind(v))
		return Object{r: r, Path: path, M: map[string]any{}}
	}
	for _, given := range slices.Sorted(maps.Keys(m)) {
		if !slices.Contains(keys, given) && !slices.Contains(keys, given+"?") {
			r.Fail(path+"."+Cut(given), "is unknown; known are %s", strings.ReplaceAll(strings.Join(keys, ", "), "?", ""))
		}
	}
	for _, k := range keys {
		if _, ok := m[k]; !ok && !strings.HasSuffix(k, "?") {
			r.Fail(path+"."+k, "is missing")
		}
	}
	return Object{r, path, m}
}

// Text reads a text of 1 to most characters.
func (o Object) Text(key string, most int) string { return o.r.Text(o.M[key], o.Path+"."+key, most) }

// Text reads a text of 1 to most characters.
func (r *Reader) Text(v any, path string, most int) string {
	s, ok := v.(string)
	switch n := len([]rune(s)); {
	case !ok:
		r.Fail(path, "is %s; it must be text", kind(v))
	case n == 0 || n > most:
		r.Fail(path, "has %d characters; it must have 1 to %d", n, most)
	}
	return s
}

// Number reads a number within a range.
func (o Object) Number(key string, from, to float64) float64 {
	return o.r.Number(o.M[key], o.Path+"."+key, from, to)
}

// Number reads a number within a range.
func (r *Reader) Number(v any, path string, from, to float64) float64 {
	n, ok := v.(json.Number)
	if !ok {
		r.Fail(path, "is %s; it must be a number from %g to %g", kind(v), from, to)
		return 0
	}
	x, err := n.Float64()
	if err != nil || !(x >= from && x <= to) {
		r.Fail(path, "is %s; it must be a number from %g to %g", Cut(n.String()), from, to)
	}
	return x
}

// Whole reads a whole number within a range.
func (o Object) Whole(key string, from, to int64) int64 {
	return o.r.Whole(o.M[key], o.Path+"."+key, from, to)
}

// Whole reads a whole number within a range.
func (r *Reader) Whole(v any, path string, from, to int64) int64 {
	n, ok := v.(json.Number)
	x, err := strconv.ParseInt(n.String(), 10, 64)
	if !ok || err != nil || x < from || x > to {
		r.Fail(path, "is %s; it must be a whole number from %d to %d", kind(v), from, to)
	}
	return x
}

// Count reads a whole number of 0 or more.
func (o Object) Count(key string) uint64 {
	n, ok := o.M[key].(json.Number)
	v, err := strconv.ParseUint(n.String(), 10, 64)
	if !ok || err != nil {
		o.r.Fail(o.Path+"."+key, "is %s; it must be a whole number of 0 or more", kind(o.M[key]))
	}
	return v
}

// Field reads the value of a setting or condition; a switch is true or false.
func (o Object) Field(f *setup.Field) float64 {
	if !f.Switch() {
		return o.Number(f.Key, f.From, f.To)
	}
	on, ok := o.M[f.Key].(bool)
	if !ok {
		o.r.Fail(o.Path+"."+f.Key, "is %s; it must be true or false", kind(o.M[f.Key]))
	}
	if on {
		return 1
	}
	return 0
}

// List returns a list, which may be missing, of at most so many items.
func (o Object) List(key string, most int) []any {
	v, given := o.M[key]
	if !given {
		return nil
	}
	l, ok := v.([]any)
	if !ok || len(l) > most {
		o.r.Fail(o.Path+"."+key, "is %s; it must be a list of at most %d items", kind(v), most)
		return nil
	}
	return l
}

// kind names what stands there, for a message.
func kind(v any) string {
	switch v := v.(type) {
	case nil:
		return "nothing"
	case map[string]any:
		return "an object"
	case []any:
		return fmt.Sprintf("a list of %d", len(v))
	case string:
		return fmt.Sprintf("the text %q", Cut(v))
	case json.Number:
		return "the number " + Cut(v.String())
	case bool:
		return fmt.Sprint(v)
	}
	return "something else"
}
