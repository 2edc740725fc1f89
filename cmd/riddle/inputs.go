package main

import (
	"errors"
	"flag"
	"io"
	"math"
	"os"
	"strconv"
	"strings"

	"riddle/sim/run/course"
	"riddle/sim/run/trial"
	"riddle/sim/setup"
	"riddle/sim/stage/fault"
	"riddle/sim/trade/crop"
	"riddle/sim/trade/quantity"
)

// longest is how many bytes one value may have.
const longest = 4096

// list is an option that may be given more than once.
type list []string

func (l *list) String() string     { return strings.Join(*l, " ") }
func (l *list) Set(s string) error { *l = append(*l, s); return nil }

// once is an option that is given at most once: of two, nobody could tell which
// is meant.
type once struct {
	flag.Value
	given bool
	again *string // the second value, as given
}

func (o *once) Set(s string) error {
	if o.given {
		o.again = &s
		return errors.New("given again")
	}
	o.given = true
	return o.Value.Set(s)
}

// onlyOnce has each option of a set that is no list and no switch refuse a
// second value, and returns what tells which did.
func onlyOnce(f *flag.FlagSet) (refused func() error) {
	f.VisitAll(func(o *flag.Flag) {
		_, more := o.Value.(*list)
		flip, ok := o.Value.(interface{ IsBoolFlag() bool })
		if !more && !(ok && flip.IsBoolFlag()) {
			o.Value = &once{Value: o.Value}
		}
	})
	return func() (err error) {
		f.VisitAll(func(o *flag.Flag) {
			if v, ok := o.Value.(*once); ok && v.again != nil {
				err = wrong(o.Name, *v.again, "given once")
			}
		})
		return err
	}
}

// inputs are the options that fix a setup, as given; nil where one was not.
type inputs struct {
	crop, scenario, link, seed *string
	second                     bool
	set, condition, fault      list

	faults fault.Set // as given, once the setup is built

	way       *course.Course // of the situation, once its setup is built
	situation string         // its name
	held      []string       // conditions that a link or a file has otherwise than its situation
	price     float64        // of a bushel, that a link or a file brings; 0 is none
	said      []string       // what is to be told of it
}

// along puts the situation's field and day into a plan. Conditions that are
// given by hand stay as they are.
func (in *inputs) along(p *trial.Plan) {
	p.Course, p.Situation, p.Faults = in.way, in.situation, in.faults
	p.Held = append(p.Held, in.held...)
	for _, text := range in.condition {
		name, _, _ := strings.Cut(text, "=")
		p.Held = append(p.Held, name)
	}
}

// steady notes what a forecast leaves out: it is of the conditions at the
// start, however field and day go on.
func (in *inputs) steady(n *notes) {
	if in.way != nil {
		n.tell("this situation changes along the field or through the day; the forecast uses the conditions at its start")
	}
}

// options returns a set of options that says nothing by itself: every value is
// read afterwards, so that what is wrong with it can be said properly.
func options(name string) *flag.FlagSet {
	f := flag.NewFlagSet(name, flag.ContinueOnError)
	f.SetOutput(io.Discard)
	f.Usage = func() {}
	return f
}

func (in *inputs) options(f *flag.FlagSet) {
	given := func(name string, to **string) {
		f.Func(name, "", func(s string) error { *to = &s; return nil })
	}
	given("crop", &in.crop)
	given("scenario", &in.scenario)
	given("link", &in.link)
	given("seed", &in.seed)
	f.BoolVar(&in.second, "second", false, "")
	f.Var(&in.set, "set", "")
	f.Var(&in.condition, "condition", "")
	f.Var(&in.fault, "fault", "")
}

// read parses arguments into options and refuses what it does not know.
func read(f *flag.FlagSet, args []string) error {
	for _, a := range args {
		if len(a) > longest {
			return wrong("argument", a, "at most "+strconv.Itoa(longest)+" bytes")
		}
	}
	refused := onlyOnce(f)
	switch err := f.Parse(args); {
	case errors.Is(err, flag.ErrHelp):
		return err
	case err != nil && refused() != nil:
		return refused()
	case err != nil:
		return wrong("option", strings.TrimPrefix(err.Error(), "flag provided but not defined: "), optionNames(f))
	case f.NArg() > 0:
		return wrong("argument", f.Arg(0), optionNames(f))
	}
	return nil
}

func optionNames(f *flag.FlagSet) string {
	names := []string{}
	f.VisitAll(func(o *flag.Flag) { names = append(names, "--"+o.Name) })
	return "one of " + strings.Join(names, ", ")
}

// setup builds the setup that the inputs ask for, and notes what is to be known
// of a link or a file that was opened.
func (in *inputs) setup(n *notes) (setup.Setup, error) {
	s, err := in.built()
	if err == nil {
		for _, text := range in.said {
			n.tell(text)
		}
	}
	return s, err
}

func (in *inputs) built() (setup.Setup, error) {
	s, err := in.base()
	if err != nil {
		return s, err
	}
	if in.seed != nil {
		if s.Seed, err = strconv.ParseUint(*in.seed, 10, 64); err != nil {
			return s, wrong("seed", *in.seed, "a whole number from 0 to 18446744073709551615")
		}
	}
	// Conditions first: a setting never depends on one, and the order in which
	// the two options are given must not matter.
	if err := assign(&s, in.condition, true); err != nil {
		return s, err
	}
	if err := assign(&s, in.set, false); err != nil {
		return s, err
	}
	return s, in.setFaults()
}

// setFaults reads the faults.
func (in *inputs) setFaults() error {
	for _, text := range in.fault {
		f, err := fault.Parse(text)
		if err == nil {
			err = in.faults.Add(f)
		}
		if err != nil {
			return err
		}
	}
	return nil
}

// base is the crop's start, or what is named: a situation, a link or a file.
func (in *inputs) base() (setup.Setup, error) {
	name := crop.Names()[0]
	if in.crop != nil {
		name = *in.crop
	}
	if crop.Find(name) == nil {
		return setup.Setup{}, wrong("crop", name, "one of "+strings.Join(crop.Names(), ", "))
	}
	s, of, err := in.named(name)
	if err == nil && in.crop != nil && name != s.Crop {
		err = wrong("crop", name, s.Crop+", the crop of "+of)
	}
	return s, err
}

// named is what --link or --scenario names, with words for it; without either
// it is the start of the crop.
func (in *inputs) named(cropName string) (s setup.Setup, of string, err error) {
	switch {
	case in.link != nil && in.scenario != nil:
		return s, "", wrong("link", *in.link, "left out when --scenario is given")
	case in.link != nil:
		s, err = in.fromLink(*in.link)
		return s, "the link", err
	case in.scenario != nil:
		return in.fromScenario(*in.scenario)
	case in.second:
		return s, "", wrong("second", "true", "given with a link or a file that holds two machines")
	}
	s, err = setup.Default(cropName)
	return s, "", err
}

// reason is what the system says, without the path that the message names
// already.
func reason(err error) string {
	var p *os.PathError
	if errors.As(err, &p) {
		return p.Err.Error()
	}
	return err.Error()
}

// assign reads NAME=VALUE texts into a setup.
func assign(s *setup.Setup, texts []string, condition bool) error {
	given := map[string]bool{}
	for _, text := range texts {
		f, value, err := field(text, option(condition))
		if err != nil {
			return err
		}
		if given[f.Name] {
			return wrong(option(condition), text, "given once for "+f.Name)
		}
		given[f.Name] = true
		if f.Condition != condition {
			return wrong(option(condition), f.Name, "given with --"+option(f.Condition))
		}
		if err := clean(f.Read(s, value), value); err != nil {
			return err
		}
	}
	return nil
}

func option(condition bool) string {
	if condition {
		return "condition"
	}
	return "set"
}

// field parts NAME=VALUE.
func field(text, option string) (*setup.Field, string, error) {
	name, value, ok := strings.Cut(text, "=")
	if !ok {
		return nil, "", wrong(option, text, "NAME=VALUE, such as fan-speed=900rpm")
	}
	f := setup.Find(name)
	if f == nil {
		known := []string{}
		for i := range setup.Fields {
			if g := &setup.Fields[i]; option == "change" || g.Condition == (option == "condition") {
				known = append(known, g.Name)
			}
		}
		return nil, "", wrong(option, name, "one of "+strings.Join(known, ", "))
	}
	return f, value, nil
}

// clean shows the value as it was given, in brief.
func clean(err error, value string) error {
	var e *setup.Error
	if errors.As(err, &e) {
		return &setup.Error{Field: e.Field, Value: brief(value), Want: e.Want}
	}
	return err
}

// seconds reads a time in seconds, which may be written with its unit.
func seconds(name, text, want string) (float64, error) {
	v, err := quantity.Parse(strings.TrimSuffix(strings.TrimSpace(text), "s"), quantity.Ratio, "")
	if err != nil || math.IsNaN(v) {
		return 0, wrong(name, text, want)
	}
	return v, nil
}
