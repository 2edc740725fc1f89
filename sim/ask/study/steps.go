package study

import (
	"fmt"
	"strings"

	"riddle/sim/read/readout"
	"riddle/sim/setup"
)

// steps orders the changes between two settings: at each turn the one that
// pays best, with what it did.
func (s *search) steps(from, to answer) ([]Step, error) {
	list := []Step{}
	for now := from; ; {
		next, field, err := s.next(now, to)
		if err != nil || field == nil {
			return list, err
		}
		list = append(list, step(field, now, next))
		now = next
	}
}

// next tries each setting that still differs and returns the best answer.
func (s *search) next(now, to answer) (answer, *setup.Field, error) {
	fields, setups := []*setup.Field{}, []setup.Setup{}
	for _, d := range s.dims {
		v := d.field.Get(&to.setup)
		if v == d.field.Get(&now.setup) {
			continue
		}
		try := now.setup
		if err := d.field.Set(&try, v); err != nil {
			return now, nil, err
		}
		fields, setups = append(fields, d.field), append(setups, try)
	}
	if len(fields) == 0 {
		return now, nil, nil
	}
	reports, err := s.ask(setups)
	if err != nil {
		return now, nil, err
	}
	s.asked += len(setups)
	list := make([]answer, len(setups))
	for i := range setups {
		list[i] = s.judge(setups[i], reports[i])
	}
	at := best(list)
	return list[at], fields[at], nil
}

func step(f *setup.Field, from, to answer) Step {
	st := Step{Setting: f.Name, From: f.Get(&from.setup), To: f.Get(&to.setup), Unit: string(f.Unit)}
	if from.ok {
		st.Before = &from.cost.Total
	}
	if to.ok {
		st.After = &to.cost.Total
	}
	st.Why = why(f.Name, st.To > st.From, &from.report, &to.report)
	if from.ok && !to.better(&from) {
		st.Why = "pays only with the changes that follow; " + st.Why
	}
	return st
}

// reason is what a change of a setting does, and the reading that must show
// it for the reason to be given.
type reason struct {
	setting string
	up      bool
	reading Quantity
	rises   bool
	text    string
}

// Returned is the grain that comes back over the sieves.
var Returned = Quantity{"returns", "of the grain fed", func(r *readout.Report) *float64 { return r.Returns.OfGrain }}

// reasons of the trade, the first that the readings bear out is given. Common
// practice.
var reasons = []reason{
	{"cylinder-speed", true, Unthreshed, false, "harder strikes open more heads, pods or ears"},
	{"cylinder-speed", true, Walker, false, "more grain falls through the concave before the walkers"},
	{"cylinder-speed", false, Broken, false, "gentler strikes break fewer kernels"},
	{"cylinder-speed", false, Shoe, false, "less straw is chewed short, so the shoe has less to carry"},
	{"concave-clearance", false, Unthreshed, false, "a closer gap rubs more grain out"},
	{"concave-clearance", false, Walker, false, "a thinner layer lets more grain through the concave"},
	{"concave-clearance", true, Broken, false, "a wider gap crushes fewer kernels"},
	{"concave-clearance", true, Shoe, false, "a wider gap breaks up less straw, so the shoe has less to carry"},
	{"pre-sieve", true, Shoe, false, "grain that falls early is off the upper sieve"},
	{"pre-sieve", false, Foreign, false, "less chaff falls in ahead of the air"},
	{"fan-speed", true, Shoe, false, "more air opens the chaff, so grain sinks through it"},
	{"fan-speed", true, Foreign, false, "more air carries chaff out instead of into the tank"},
	{"fan-speed", false, Shoe, false, "less air blows less grain over"},
	{"fan-speed", false, Returned, false, "less air carries less grain past the sieves into the returns"},
	{"upper-sieve", true, Shoe, false, "more room for grain to fall before it reaches the end"},
	{"upper-sieve", false, Foreign, false, "less chaff and short straw fall through with the grain"},
	{"lower-sieve", true, Returned, false, "more grain falls to the tank instead of going round again"},
	{"lower-sieve", false, Foreign, false, "chaff is held back from the tank"},
	{"reel-index", true, HeaderLoss, false, "the reel lays the crop in instead of letting it fall off the bar"},
	{"reel-index", false, HeaderLoss, false, "a slower reel knocks out less grain"},
	{"cutting-height", true, Walker, false, "straw that stays in the field loads nothing"},
	{"cutting-height", true, Processing, false, "straw that stays in the field loads nothing"},
	{"cutting-height", false, HeaderLoss, false, "fewer heads or pods are missed below the bar"},
}

// why says what a change did: the reason of the trade that the readings bear
// out, and the readings that moved most.
func why(setting string, up bool, from, to *readout.Report) string {
	text := ""
	for _, r := range reasons {
		if r.setting != setting || r.up != up {
			continue
		}
		if d, ok := moved(r.reading, from, to); ok && (d >= worthReason || d <= -worthReason) && (d > 0) == r.rises {
			text = r.text + ": "
			break
		}
	}
	said := []string{}
	for _, q := range []Quantity{HeaderLoss, Unthreshed, Walker, Shoe, Broken, Foreign, Returned} {
		if d, ok := moved(q, from, to); ok && (d >= worthSaying || d <= -worthSaying) {
			said = append(said, fmt.Sprintf("%s %.2f to %.2f %%", q.Name, *q.Get(from), *q.Get(to)))
		}
	}
	if len(said) == 0 {
		return strings.TrimSuffix(text, ": ")
	}
	return text + strings.Join(said, ", ")
}

// worthSaying is the least change of a reading that is told, and worthReason
// the least that bears a reason out, % points. Chosen: less cannot be measured
// behind a machine.
const worthSaying, worthReason = 0.02, 0.01

func moved(q Quantity, from, to *readout.Report) (float64, bool) {
	a, b := q.Get(from), q.Get(to)
	if a == nil || b == nil {
		return 0, false
	}
	return *b - *a, true
}
