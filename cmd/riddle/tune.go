package main

import (
	"io"
	"math"
	"slices"
	"strings"

	"riddle/sim/ask/study"
	"riddle/sim/read/readout"
	"riddle/sim/setup"
	"riddle/sim/trade/crop"
)

var tuneCommand = command{
	name: "tune",
	args: "[inputs] [--hold NAME]… [--price P|P/t] [--json]",
	does: "searches the usual ranges for the settings with the lowest cost per hectare, using the forecast, and says why each change pays; --hold keeps a setting fixed",
	run:  tuneMachine,
}

func tuneMachine(args []string, out io.Writer, notes *notes) error {
	var in inputs
	var price price
	f := options("tune")
	in.options(f)
	price.option(f, &in)
	var hold list
	f.Var(&hold, "hold", "")
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
	if err := heldSettings(s, hold); err != nil {
		return err
	}
	in.steady(notes)
	progress := notes.progress("search")
	found, err := study.Tune(study.Question{
		Base: s, Hold: hold, Ask: atOnce(price.reader(in.forecastReport)),
		Progress: func(asked int) { progress(1 - math.Exp(-float64(asked)/usualSearch)) }, // its length is not known beforehand
	})
	notes.done()
	if err != nil {
		return err
	}
	if *asJSON {
		return writeJSON(out, found)
	}
	return printTuning(out, s, &found)
}

// heldSettings refuses what cannot be held.
func heldSettings(s setup.Setup, hold []string) error {
	names := []string{}
	for _, f := range study.Tunable(crop.Find(s.Crop)) {
		names = append(names, f.Name)
	}
	for _, h := range hold {
		if !slices.Contains(names, h) {
			return wrong("hold", h, "one of "+strings.Join(names, ", "))
		}
	}
	return nil
}

// usualSearch is how many setups a search asks, by the size.
const usualSearch = 300

// atOnce asks several setups at the same time where the machine has cores.
func atOnce(reader study.Reader) study.Ask {
	return func(list []setup.Setup) ([]readout.Report, error) {
		reports := make([]readout.Report, len(list))
		err := each(len(list), func(i int) error {
			var err error
			reports[i], err = reader(list[i])
			return err
		})
		return reports, err
	}
}

// printTuning says what to change, one change at a time, and what it pays.
func printTuning(out io.Writer, s setup.Setup, t *study.Tuning) error {
	p := &lines{w: out}
	p.line("%s, by the forecast: cost of lost grain, discounts and breakage, %s", name(s.Crop), t.Cost.Unit)
	bill := func(word string, c *study.Cost) {
		if c == nil {
			p.line("  %-8s the machine could not keep running at these settings", word)
			return
		}
		p.line("  %-8s %8.2f   (lost grain %.2f, dockage and discounts %.2f, breakage %.2f)", word, c.Total, c.Loss, c.Discount, c.Breakage)
	}
	bill("before", t.Cost.Before)
	bill("after", &t.Cost.After)
	if len(t.Steps) == 0 {
		p.line("\nNothing to change: no other settings in the usual ranges cost less.")
	} else {
		p.line("\nOne change at a time, the one that pays most first: make it, measure, then make the next.")
	}
	for i, st := range t.Steps {
		f := setup.Find(st.Setting)
		p.line("%2d  %-18s %8s to %-10s cost %s to %s", i+1, f.Label, f.Format(st.From), f.Format(st.To), twoPlaces(st.Before), twoPlaces(st.After))
		if st.Why != "" {
			p.line("    %s", st.Why)
		}
	}
	losses(p, &t.Before, &t.After)
	if per := t.After.Money.PerBushel; per != nil {
		p.line("\nAt %.4g per bushel of clean, dry grain (%s).", *per, t.After.Money.AsOf)
	}
	p.line("Breakage covers fines screened out, shorter storage life and rejected malt; riddle forecast lists each separately.")
	p.line("\nThe search stays within the usual range of each setting, below the feed rate that slows the machine, and below the returns that")
	p.line("the elevator can lift. Ground speed is left alone: riddle sweep --vary ground-speed shows its cost, time included. %d setups were tried.", t.Evaluations)
	return p.err
}

// losses sets the readings before and after side by side.
func losses(p *lines, before, after *readout.Report) {
	p.line("\n%-22s %10s %10s", "", "before", "after")
	for _, q := range []study.Quantity{study.HeaderLoss, study.Unthreshed, study.Walker, study.Shoe, study.Total, study.Broken, study.Foreign, study.Returned} {
		p.line("  %-20s %10s %10s  %% %s", q.Name, twoPlaces(q.Get(before)), twoPlaces(q.Get(after)), q.Of)
	}
	p.line("  %-20s %10s %10s", "grade", grade(before), grade(after))
	p.line("  %-20s %10s %10s  kW", "cylinder", twoPlaces(before.Cylinder.PowerKW), twoPlaces(after.Cylinder.PowerKW))
	p.line("  %-20s %10s %10s  kW", "engine", twoPlaces(before.Power.Total), twoPlaces(after.Power.Total))
}

func grade(r *readout.Report) string {
	if r.Tank.Grade == nil {
		return "–"
	}
	return strings.TrimPrefix(*r.Tank.Grade, "U.S. ")
}
