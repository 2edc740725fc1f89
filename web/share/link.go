package share

import (
	"fmt"
	"net/url"
	"regexp"
	"strconv"
	"strings"

	"riddle/sim/read/readout"
	"riddle/sim/setup"
)

// LinkVersion is the version of the form of a link.
const LinkVersion = 1

// MaxLink is the most bytes of a fragment that are read. School platforms keep
// no more than 4096 characters of a page's state.
const MaxLink = 4096

// Names in a link that are not fields; second goes before the name of a
// setting of the second machine.
const (
	versionKey, modelKey, cropKey, situationKey, seedKey, priceKey, endKey = "v", "laws", "crop", "situation", "seed", "price", "end"
	second                                                                 = "b."
)

// Link returns the fragment of a link, without the #, that opens what is kept.
// It states every value, so that a start that changes later changes no link; a
// price that nobody has set is no value.
// It can be read and written by people:
//
//	v=1&crop=wheat&seed=1&fan-speed=1100&end
func (k *Kept) Link() string {
	pairs := []string{pair(versionKey, strconv.Itoa(LinkVersion))}
	if k.Model != "" {
		pairs = append(pairs, pair(modelKey, k.Model))
	}
	pairs = append(pairs, pair(cropKey, k.Setup.Crop))
	if k.Situation != "" {
		pairs = append(pairs, pair(situationKey, k.Situation))
	}
	pairs = append(pairs, pair(seedKey, strconv.FormatUint(k.Setup.Seed, 10)))
	if k.Price != 0 {
		pairs = append(pairs, pair(priceKey, strconv.FormatFloat(k.Price, 'f', -1, 64)))
	}
	for _, f := range fieldsOf(k.Setup.Crop, false) {
		pairs = append(pairs, pair(f.Name, write(f, &k.Setup)))
	}
	if k.Second != nil {
		s := k.second()
		for _, f := range fieldsOf(s.Crop, true) {
			pairs = append(pairs, pair(second+f.Name, write(f, &s)))
		}
	}
	return strings.Join(append(pairs, endKey), "&")
}

func pair(key, value string) string { return key + "=" + value }

// write prints a value so that it reads back as the same number.
func write(f *setup.Field, s *setup.Setup) string {
	if f.Switch() {
		return f.Format(f.Get(s))
	}
	return strconv.FormatFloat(f.Get(s), 'f', -1, 64)
}

// values are the names and values of a link in its order.
type values struct {
	order []string
	of    map[string]string
}

// ReadLink reads a link: the whole address, or its fragment with or without the #.
func ReadLink(text string) (Kept, error) {
	v, err := part(text)
	if err != nil {
		return Kept{}, err
	}
	k, err := v.head()
	if err != nil {
		return Kept{}, err
	}
	if err := v.fields(&k); err != nil {
		return Kept{}, err
	}
	return k, nil
}

// fragment takes the fragment out of an address, or out of a text that was copied
// with more around it than was meant.
func fragment(text string) string {
	text = strings.TrimSpace(strings.TrimPrefix(text, "\ufeff"))
	if _, after, ok := strings.Cut(text, "#"); ok {
		return after
	}
	return text
}

// part parts a fragment into names and values.
func part(text string) (values, error) {
	v := values{of: map[string]string{}}
	text = fragment(text)
	if len(text) > MaxLink {
		return v, &Error{Code: Long, Want: fmt.Sprintf("%d characters", MaxLink)}
	}
	plain, err := url.PathUnescape(text) // mail and chat escape what they pass on
	if err != nil {
		return v, &Error{Code: Broken, Field: "a % sign", Value: "no letter is written so"}
	}
	pieces := strings.Split(plain, "&")
	if !strings.HasPrefix(pieces[0], versionKey+"=") {
		return v, &Error{Code: Foreign, Field: versionKey}
	}
	for i, piece := range pieces {
		key, value, ok := strings.Cut(piece, "=")
		switch _, twice := v.of[key]; {
		case key == endKey && !ok && i == len(pieces)-1:
			return v, nil
		case i == len(pieces)-1:
			return v, &Error{Code: Short, Value: cut(piece)}
		case !ok || key == "":
			return v, &Error{Code: Broken, Field: fmt.Sprintf("part %d", i+1), Value: fmt.Sprintf("%q is no name with a value", cut(piece))}
		case twice:
			return v, &Error{Code: Twice, Field: cut(key)}
		}
		v.order, v.of[key] = append(v.order, key), value
	}
	panic("the loop returns at the last piece")
}

// head reads what a link says before its fields, and returns what it starts
// from.
func (v *values) head() (k Kept, err error) {
	if n := v.of[versionKey]; n != strconv.Itoa(LinkVersion) {
		return k, &Error{Code: Newer, Field: versionKey, Value: cut(n), Want: strconv.Itoa(LinkVersion)}
	}
	for _, key := range []string{cropKey, seedKey} {
		if _, ok := v.of[key]; !ok {
			return k, &Error{Code: Missing, Field: key}
		}
	}
	if k.Model = v.of[modelKey]; !modelForm.MatchString(k.Model) {
		return k, &Error{Code: Value, Field: modelKey, Value: cut(k.Model), Want: "the name of a model with its version"}
	}
	k.Situation = v.of[situationKey]
	if k.Setup, err = base(v.of[cropKey], k.Situation); err != nil {
		return k, err
	}
	seed := v.of[seedKey]
	if k.Setup.Seed, err = strconv.ParseUint(seed, 10, 64); err != nil || strconv.FormatUint(k.Setup.Seed, 10) != seed {
		return k, &Error{Code: Value, Field: seedKey, Value: cut(seed), Want: "a whole number from 0 to 18446744073709551615"}
	}
	return k, v.price(&k)
}

// price reads a price as the command takes it, for a bushel or a tonne.
func (v *values) price(k *Kept) error {
	text, given := v.of[priceKey]
	if !given {
		return nil
	}
	perBushel, ok := readout.ReadPrice(k.Setup.Crop, text)
	if number, _, _ := strings.Cut(text, "/"); !ok || !numberForm.MatchString(number) {
		perBushel = 0
	}
	k.Price = perBushel
	return checkPrice(perBushel, text)
}

var (
	modelForm  = regexp.MustCompile(`^([a-z]+(-[a-z]+)*/[0-9]{1,6})?$`)
	numberForm = regexp.MustCompile(`^-?[0-9]{1,12}(\.[0-9]{1,24})?$`)
)

// fields reads settings and conditions: those of the machine first, since the
// second machine starts as its twin.
func (v *values) fields(k *Kept) error {
	for _, mine := range []bool{true, false} {
		for _, key := range v.order {
			name, other := strings.CutPrefix(key, second)
			if other == mine || isHead(key) {
				continue
			}
			if err := v.field(k, key, name, other); err != nil {
				return err
			}
		}
	}
	return nil
}

func isHead(key string) bool {
	switch key {
	case versionKey, modelKey, cropKey, situationKey, seedKey, priceKey:
		return true
	}
	return false
}

func (v *values) field(k *Kept, key, name string, other bool) error {
	f := setup.Find(name)
	if f == nil || other && f.Condition {
		return &Error{Code: Unknown, Field: cut(key)}
	}
	if err := none(f, k.Setup.Crop); err != nil {
		return err
	}
	to := k.Setup
	if other {
		if k.Second == nil {
			k.Second = &setup.Settings{}
			*k.Second = k.Setup.Settings
		}
		to = k.second()
	}
	if err := read(f, &to, v.of[key]); err != nil {
		err.Field = key
		return err
	}
	if other {
		*k.Second = to.Settings
	} else {
		k.Setup = to
	}
	return nil
}

// read puts a value of a link into a setup: a plain number in the unit of the
// field, or on or off.
func read(f *setup.Field, s *setup.Setup, text string) *Error {
	bad := func(want string) *Error { return &Error{Code: Value, Field: f.Name, Value: cut(text), Want: want} }
	var n float64
	switch {
	case f.Switch() && (text == "on" || text == "off"):
		if text == "on" {
			n = 1
		}
	case f.Switch() || !numberForm.MatchString(text):
		return bad(f.Want())
	default:
		v, err := strconv.ParseFloat(text, 64)
		if err != nil {
			return bad(f.Want())
		}
		n = v
	}
	if err := f.Set(s, n); err != nil {
		return bad(err.(*setup.Error).Want)
	}
	return nil
}
