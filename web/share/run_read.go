package share

import (
	"fmt"
	"math"
	"regexp"
	"slices"
	"strings"

	"riddle/scenarios"
	"riddle/scenarios/strict"
	"riddle/sim"
	"riddle/sim/run/course"
	"riddle/sim/run/journal"
	"riddle/sim/run/trial"
	"riddle/sim/setup"
	"riddle/sim/stage/fault"
	"riddle/sim/trade/crop"
)

var (
	runName    = regexp.MustCompile(`^riddle\.journal/[0-9]{1,6}$`)
	digestForm = regexp.MustCompile(`^[0-9a-f]{64}$`)
	runTraces  = []string{`riddle.journal/`, `"commands"`, `"claimed"`, `"from_tick"`, `"checksum"`}
)

// IsRun reports whether a text is the file of a run, be it whole or damaged.
func IsRun(text []byte) bool {
	found := 0
	for _, trace := range runTraces {
		if strings.Contains(string(text), trace) {
			found++
		}
	}
	return found > 1 || found == 1 && strings.Contains(string(text), runTraces[0])
}

// ReadRun reads the file of a run. Of one that was made under other laws, or by
// another version, it gives back no more than model and digest, with an error
// of the code Newer; Foreign is what is no such file, and all else is damage.
func ReadRun(text []byte) (Ran, error) {
	if len(text) > MaxRunBytes && IsRun(text) {
		return Ran{}, &Error{Code: Long, Want: fmt.Sprintf("%d MB", MaxRunBytes>>20)}
	}
	if !IsRun(text) {
		return Ran{}, noRun(text)
	}
	r, err := readRun(text)
	if bad, ok := err.(*strict.Error); ok {
		err = placed(bad, text)
	}
	if bad, ok := err.(*Error); ok && bad.Code == Newer {
		return Ran{Model: r.Model, Digest: r.Digest}, err
	}
	if err != nil {
		return Ran{}, err
	}
	return r, nil
}

// placed says what the strict reader found in the words of this package.
func placed(bad *strict.Error, text []byte) error {
	if bad.Short {
		return &Error{Code: Short, Value: cut(string(text[max(0, len(text)-shownTail):]))}
	}
	at := bad.Path
	if at == "" || at == "$" {
		at = "its beginning"
	}
	return &Error{Code: Broken, Field: cut(at), Value: oneLine(bad.Reason)}
}

func readRun(text []byte) (k Ran, err error) {
	tree, err := strict.ParseUpTo(MaxRunBytes, "file", text)
	if err != nil {
		return k, err
	}
	top, ok := tree.(map[string]any)
	if !ok {
		return k, &Error{Code: Broken, Field: "its beginning", Value: "it is no object"}
	}
	k.Model, _ = top["model"].(string)
	if claimed, ok := top["claimed"].(map[string]any); ok {
		if k.Digest, _ = claimed["digest"].(string); !digestForm.MatchString(k.Digest) {
			k.Digest = ""
		}
	}
	form, _ := top["schema"].(string)
	switch {
	case form != RunForm && runName.MatchString(form):
		return k, &Error{Code: Newer, Field: "schema", Value: cut(form), Want: RunForm}
	case form != RunForm:
		return k, &Error{Code: Broken, Field: "schema", Value: cut(form) + " is no form of a run"}
	case top["checksum"] != checksum(top):
		return k, &Error{Code: Broken, Field: "checksum", Value: "it does not belong to what stands in the file"}
	case k.Model == "" || !modelForm.MatchString(k.Model):
		return k, &Error{Code: Value, Field: "model", Value: cut(k.Model), Want: "the name of a model with its version"}
	case k.Model != sim.Model:
		return k, &Error{Code: Newer, Field: "model", Value: k.Model, Want: sim.Model}
	}
	r := &strict.Reader{File: "file"}
	o := r.Object(top, "$", "schema", "model", "start", "window", "commands", "claimed", "price_per_bu?", "checksum")
	err = k.read(r, o)
	if r.Err != nil {
		err = r.Err
	}
	return k, err
}

// read takes up what stands in a file whose checksum holds. Whoever made it may
// have meant no good.
func (k *Ran) read(r *strict.Reader, o strict.Object) error {
	w := r.Object(o.M["window"], "$.window", "from_tick", "to_tick")
	k.Window = trial.Window{From: w.Whole("from_tick", 0, MaxTicks), To: w.Whole("to_tick", 0, MaxTicks)}
	c := r.Object(o.M["claimed"], "$.claimed", "tick", "digest")
	k.Ticks, k.Digest = c.Whole("tick", 0, k.Window.To), c.Text("digest", 64)
	if r.Err == nil && k.Window.From > k.Window.To {
		r.Fail("$.window.from_tick", "is %d; it must be at most to_tick, %d", k.Window.From, k.Window.To)
	}
	if r.Err == nil && !digestForm.MatchString(k.Digest) {
		r.Fail("$.claimed.digest", "is not a digest; it must be 64 hexadecimal digits")
	}
	k.Price = priceIn(r, o)
	if err := k.readStart(r, o); err != nil || r.Err != nil {
		return err
	}
	list := o.List("commands", MaxCommands)
	if list == nil && r.Err == nil {
		list = []any{}
	}
	last := int64(0)
	for i, v := range list {
		cmd := commandOf(r, fmt.Sprintf("$.commands[%d]", i), v, k.Journal.Start.Setup.Crop, last, k.Ticks)
		if r.Err != nil {
			return nil
		}
		last = cmd.Tick
		k.Journal.Commands = append(k.Journal.Commands, cmd)
	}
	for _, s := range []setup.Setup{k.Journal.Start.Setup, k.Journal.Start.From} {
		if _, err := k.Journal.Start.Course.On(s); err != nil {
			return &Error{Code: Broken, Field: "start", Value: oneLine(err.Error())}
		}
	}
	return nil
}

func (k *Ran) readStart(r *strict.Reader, o strict.Object) error {
	keys := append([]string{"crop", "situation?", "seed", "settings", "conditions", "held?", "faults?", "from?"}, scenarios.FieldAndDayKeys...)
	w := r.Object(o.M["start"], "$.start", keys...)
	name, seed := w.Text("crop", 40), w.Count("seed")
	s := &k.Journal.Start
	if _, given := w.M["situation"]; given {
		s.Situation = w.Text("situation", 60)
	}
	if r.Err != nil {
		return nil
	}
	if crop.Find(name) == nil {
		return unknownCrop(name)
	}
	s.Setup, _ = setup.Default(name)
	wholeSetup(r, w, &s.Setup)
	s.Setup.Seed = seed
	s.From = s.Setup
	if v, given := w.M["from"]; given {
		wholeSetup(r, r.Object(v, "$.start.from", "settings", "conditions"), &s.From)
	}
	for i, v := range w.List("held", len(setup.Fields)) {
		path := fmt.Sprintf("$.start.held[%d]", i)
		field := r.Text(v, path, 40)
		if r.Err == nil && (!course.Varies(field) || slices.Contains(s.Held, field)) {
			r.Fail(path, "is %q; it must be a condition that changes along the way, once", cut(field))
		}
		s.Held = append(s.Held, field)
	}
	readFaults(r, w, &s.Faults)
	along := scenarios.ReadFieldAndDay(r, w, name)
	if r.Err == nil {
		s.Course = along.Course()
	}
	return nil
}

// readFaults reads what is wrong with the machine.
func readFaults(r *strict.Reader, w strict.Object, to *fault.Set) {
	for i, v := range w.List("faults", fault.Most) {
		path := fmt.Sprintf("$.start.faults[%d]", i)
		o := r.Object(v, path, "kind", "degree", "place?")
		told := fault.Told{Kind: o.Text("kind", 40), Degree: o.Number("degree", 0, 1)}
		if _, given := o.M["place"]; given {
			told.Place = o.Text("place", 40)
		}
		if r.Err != nil {
			return
		}
		f, err := told.Read()
		if err == nil {
			err = to.Add(f)
		}
		if e, bad := err.(*setup.Error); bad {
			r.Fail(path, "is %s; it must be %s", e.Value, e.Want)
		}
	}
}

// wholeSetup reads settings and conditions, of which none may be missing.
func wholeSetup(r *strict.Reader, o strict.Object, s *setup.Setup) {
	for _, conditions := range []bool{false, true} {
		values := o.Fields(s.Crop, conditions)
		assign(r, s, values)
		for _, f := range fieldsOf(s.Crop, false) {
			if _, given := values[f.Key]; r.Err == nil && f.Condition == conditions && !given {
				r.Fail(o.Path+"."+under(f)+"."+f.Key, "is missing")
			}
		}
	}
}

// under is the key of the object in which a field stands.
func under(f *setup.Field) string {
	if f.Condition {
		return "conditions"
	}
	return "settings"
}

// commandOf reads one command, which may come no earlier than the one before it
// and no later than the run's end.
func commandOf(r *strict.Reader, path string, v any, cropName string, first, last int64) (c journal.Command) {
	line, ok := v.([]any)
	if !ok || len(line) < 2 || len(line) > 3 {
		r.Fail(path, "is not a command; it must be [tick, name, value]")
		return c
	}
	c.Tick = r.Whole(line[0], path+"[0]", first, last)
	name := r.Text(line[1], path+"[1]", 40)
	f := setup.Find(name)
	switch {
	case r.Err != nil || name == release && len(line) == 2:
		return c
	case f == nil || len(line) != 3:
		r.Fail(path+"[1]", "is %q; it must be %s, or a setting or condition with its value", cut(name), release)
		return c
	}
	c.Field, c.Value = f, valueOf(r, path+"[2]", line[2], f)
	s := setup.Setup{Crop: cropName}
	if err := f.Set(&s, c.Value); r.Err == nil && err != nil {
		e := err.(*setup.Error)
		r.Fail(path, "sets %s to %s; it must be %s", e.Field, e.Value, e.Want)
	}
	return c
}

// valueOf reads a number, or on and off as true and false.
func valueOf(r *strict.Reader, path string, v any, f *setup.Field) float64 {
	on, isSwitch := v.(bool)
	switch {
	case f.Switch() != isSwitch:
		r.Fail(path, "is not a value of %s; it must be %s", f.Name, f.Want())
	case on:
		return 1
	case !isSwitch:
		return r.Number(v, path, -math.MaxFloat64, math.MaxFloat64)
	}
	return 0
}
