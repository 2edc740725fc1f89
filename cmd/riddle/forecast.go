package main

import (
	"encoding/json"
	"io"

	"riddle/sim/ask/forecast"
	"riddle/sim/read/readout"
	"riddle/sim/setup"
)

var forecastCommand = command{
	name: "forecast",
	args: "[inputs] [--price P|P/t] [--json]",
	does: "reports what a long run averages, without particles",
	run:  forecastMachine,
}

func forecastMachine(args []string, out io.Writer, notes *notes) error {
	var in inputs
	var price price
	f := options("forecast")
	in.options(f)
	price.option(f, &in)
	asJSON := f.Bool("json", false, "")
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
	in.steady(notes)
	report, err := in.forecastReport(s)
	if err == nil {
		err = price.put(&report)
	}
	if err != nil {
		return err
	}
	if *asJSON {
		return writeJSON(out, report)
	}
	return readout.Print(out, &report)
}

// writeJSON writes one object on one line.
func writeJSON(out io.Writer, v any) error {
	e := json.NewEncoder(out)
	e.SetEscapeHTML(false)
	return e.Encode(v)
}

// forecastReport is the reader of the forecast, of a machine with the faults given.
func (in *inputs) forecastReport(s setup.Setup) (readout.Report, error) {
	return forecast.Report(s, forecast.WithFaults(in.faults))
}
