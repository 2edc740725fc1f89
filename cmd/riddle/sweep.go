package main

import (
	"flag"
	"fmt"
	"io"
	"strconv"
	"strings"

	"riddle/sim/ask/study"
	"riddle/sim/read/readout"
	"riddle/sim/run/trial"
	"riddle/sim/setup"
)

var sweepCommand = command{
	name: "sweep",
	args: "[inputs] --vary NAME=FROM:TO:POINTS [--forecast] [--seconds S] [--warmup S] [--price P|P/t] [--json|--csv] [--plot FILE.png] [--theme paper|night|projector] [--width PX]",
	does: "finds the response to one setting or condition at POINTS values, both ends included; --plot draws the curve",
	run:  sweepField,
}

// method is how an answer is made: by a run of particles or by the forecast.
type method struct {
	forecast study.Reader // nil runs particles
	plan     trial.Plan
}

// String says it in words, for a chart and a table.
func (m method) String() string {
	if m.forecast != nil {
		return "forecast"
	}
	return fmt.Sprintf("particle run, %g s", m.plan.Seconds)
}

// read returns the reader of the method; progress is told how far a run is.
func (m method) read(progress func(float64)) study.Reader {
	if m.forecast != nil {
		return func(s setup.Setup) (readout.Report, error) {
			r, err := m.forecast(s)
			progress(1)
			return r, err
		}
	}
	return func(s setup.Setup) (readout.Report, error) {
		_, r, err := trial.Run(s, m.plan, progress)
		return r, err
	}
}

func sweepField(args []string, out io.Writer, notes *notes) error {
	var in inputs
	var price price
	f := options("sweep")
	in.options(f)
	price.option(f, &in)
	vary := f.String("vary", "", "")
	plot, theme, width := f.String("plot", "", ""), f.String("theme", "paper", ""), f.String("width", strconv.Itoa(chartWidth), "")
	asForecast, window, warmup := f.Bool("forecast", false, ""), f.String("seconds", "60", ""), f.String("warmup", "60", "")
	asJSON, asCSV := f.Bool("json", false, ""), f.Bool("csv", false, "")
	if err := read(f, args); err != nil {
		return err
	}
	s, err := in.setup(notes)
	if err != nil {
		return err
	}
	if _, _, err := price.read(s.Crop); err != nil {
		return err
	}
	w, err := varied(s, *vary)
	if err != nil {
		return err
	}
	how, err := in.methodOf(f, s, *asForecast, *window, *warmup)
	if err != nil {
		return err
	}
	in.along(&how.plan)
	how.plan.Held = append(how.plan.Held, w.Field.Name) // what is varied is the sweep's, not the field's
	sheet, err := sheetOf(f, *plot, *theme, *width)
	if err != nil {
		return err
	}
	if *asJSON && *asCSV {
		return wrong("csv", "true", "left out when --json is given")
	}
	if how.forecast != nil {
		in.steady(notes)
	}
	curve, err := swept(w, how, &price, notes)
	if err != nil {
		return err
	}
	if *plot != "" {
		if err := sheet.draw(w, curve, how); err != nil {
			return err
		}
	}
	switch {
	case *asJSON:
		return writeJSON(out, curve)
	case *asCSV:
		return writeCSV(out, w, curve)
	}
	return printCurve(out, w, curve, how)
}

// varied reads NAME=FROM:TO:POINTS.
func varied(s setup.Setup, text string) (study.Sweep, error) {
	const want = "NAME=FROM:TO:POINTS, such as fan-speed=700rpm:1100rpm:9"
	name, rest, _ := strings.Cut(text, "=")
	parts := strings.Split(rest, ":")
	if len(parts) != 3 {
		return study.Sweep{}, wrong("vary", text, want)
	}
	f := setup.Find(name)
	if f == nil {
		return study.Sweep{}, wrong("vary", name, "one of "+strings.Join(ranged(s), ", "))
	}
	w := study.Sweep{Base: s, Field: f}
	if f.Switch() {
		return w, wrong("vary", name, "one of "+strings.Join(ranged(s), ", ")+"; a switch has no range")
	}
	for i, to := range [...]*float64{&w.From, &w.To} {
		at := s
		if err := clean(f.Read(&at, parts[i]), parts[i]); err != nil {
			return w, err
		}
		*to = f.Get(&at)
	}
	n, err := strconv.Atoi(parts[2])
	if err != nil {
		return w, wrong("vary", parts[2], fmt.Sprintf("a whole number from %d to %d points", study.FewestPoints, study.MostPoints))
	}
	w.Points = n
	return w, w.Validate()
}

// ranged lists the settings and conditions that can be varied.
func ranged(s setup.Setup) []string {
	list := []string{}
	for i := range setup.Fields {
		if f := &setup.Fields[i]; !f.Switch() && !isAbsent(f, s.Crop) {
			list = append(list, f.Name)
		}
	}
	return list
}

// methodOf reads how answers are to be made. A forecast has no window, so that
// times given with it are refused rather than passed over.
func (in *inputs) methodOf(f *flag.FlagSet, s setup.Setup, forecast bool, window, warmup string) (method, error) {
	if !forecast {
		plan, err := planned(s, window, warmup, nil)
		return method{plan: plan}, err
	}
	for name, value := range map[string]string{"seconds": window, "warmup": warmup} {
		if given(f, name) {
			return method{}, wrong(name, value, "left out with --forecast, which runs no particles")
		}
	}
	return method{forecast: in.forecastReport}, nil
}

// given reports whether an option was on the command line.
func given(f *flag.FlagSet, name string) bool {
	found := false
	f.Visit(func(o *flag.Flag) { found = found || o.Name == name })
	return found
}

// swept asks for all points, several at a time.
func swept(w study.Sweep, how method, price *price, notes *notes) (study.Curve, error) {
	curve := w.Empty()
	progress := newShare(w.Points, notes.progress(w.Field.Label))
	err := each(w.Points, func(i int) error { return w.Fill(&curve, i, price.reader(how.read(progress.of(i)))) })
	notes.done()
	return curve, err
}
