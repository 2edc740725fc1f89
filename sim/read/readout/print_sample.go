package readout

import (
	"slices"
	"strings"

	"riddle/sim/trade/crop"
	"riddle/sim/trade/grade"
)

// horsepower in kW; definition (550 ft·lbf/s).
const horsepower = 0.7456999

// acresAHectare is a hectare in acres; definition.
const acresAHectare = 2.4710538

// sample prints the tank: what the eye sees of it, then what the grader finds.
func (p *page) sample(r *Report) {
	t := &r.Tank
	p.line("\nTank sample")
	p.line("  %s kg: sound %s %%, broken %s %%, unthreshed %s %%, foreign %s %%, as the eye sees it",
		fixed(t.Kg, 0), fixed(t.Sound, 2), fixed(t.Broken, 2), fixed(t.Unthreshed, 2), fixed(t.Foreign, 2))
	if t.TestWeight != nil {
		pounds := grade.PoundsPerBushel(r.Crop, *t.TestWeight)
		p.line("  test weight %s kg/hL (%s lb/bu)", fixed(t.TestWeight, 1), fixed(&pounds, 1))
	}
	table := grade.TableOf(r.Crop)
	switch {
	case t.Grade != nil && table != nil:
		p.line("  at best %s, by what the machine makes: %s (%s)", *t.Grade, setBy(word(t.GradedBy)), word(t.GradedAs))
		p.factors(r, table)
		p.malting(r)
	case t.GradedBy != nil:
		p.line("  no grade: %s", *t.GradedBy)
	}
}

// factors prints what was weighed, beside the limit of the grade that it has.
func (p *page) factors(r *Report, table *grade.Table) {
	taken := []string{}
	for _, a := range grade.Factors(r.Crop) {
		v := r.Tank.GradeFactors[a.Key]
		if v == nil {
			taken = append(taken, a.Name)
			continue
		}
		p.line("    %-36s%8s %s", a.Name, fixed(v, 2), limit(table.Factor(a.Key), a.Key, *v))
	}
	if len(taken) > 0 {
		p.line("    not in the machine, taken as met: %s", strings.Join(taken, ", "))
	}
	p.line("    What else would lower it: weather, mould, sprout and heat (a buyer's damaged kernels; broken ones are none), insects,")
	p.line("    odour, stones. Moisture is no grade factor, but is paid for apart.")
}

// malting prints what barley would grade as malting barley. The thin two-row
// kernels need a wider sieve than the machine's sample went over, so only the
// six-row table is asked.
func (p *page) malting(r *Report) {
	table := grade.Named("barley, six-row malting")
	if r.Crop != table.Crop {
		return
	}
	g := table.OfKnown(r.Tank.GradeFactors)
	p.line("    as %s: at best %s, %s", table.As(), g.Name, setBy(table.Names(g)))
}

func setBy(names string) string {
	if names == grade.Every {
		return "met by " + names
	}
	return "set by " + names
}

// limit says what the grade of a factor allows.
func limit(f *grade.Factor, key string, value float64) string {
	unit := "%"
	if strings.HasSuffix(key, "lb_bu") {
		unit = "lb/bu"
	}
	if f == nil {
		return unit
	}
	no := f.Of(value)
	if no > len(f.Limits) {
		return unit + "  past every numbered grade"
	}
	word := "at most"
	if f.Least {
		word = "at least"
	}
	return unit + "  " + word + " " + short(&f.Limits[no-1]) + " for U.S. No. " + string(rune('0'+no))
}

// money prints what it all costs.
func (p *page) money(r *Report) {
	m := &r.Money
	if m.LossPerHa == nil {
		return
	}
	p.line("\n%-38s%9s %9s %9s", "Money, at "+fixed(m.PerBushel, 2)+" a bushel", "a ha", "an acre", "an hour")
	row := func(name string, ha, hour *float64) {
		p.line("  %-36s%9s %9s %9s", name, fixed(ha, 2), fixed(scaled(ha, 1/acresAHectare), 2), fixed(hour, 0))
	}
	row("grain lost", m.LossPerHa, m.LossPerH)
	row("dockage and grade", m.DiscountHa, m.DiscountH)
	if m.CostPerHa == nil {
		return
	}
	row("fines screened out", m.FinesHa, nil)
	row("shorter keeping of damaged grain", m.StorageHa, nil)
	if *m.UseHa > 0 {
		row("malting premium lost", m.UseHa, nil)
	}
	row("all of these", m.CostPerHa, m.CostPerH)
	row("machine and labour", m.MachineHa, nil)
	row("weather, on what still stands", m.WeatherHa, nil)
	row("whole cost, to set ground speed by", m.WholeHa, nil)
	row("crop less cost and machine", m.NetHa, m.NetH)
	p.free(r)
	p.uses(r)
	if m.MoistureHa != nil && *m.MoistureHa > 0 {
		row("water and drying, apart", m.MoistureHa, nil)
	}
	p.line("  Price: %s. Each buyer has a list of its own; keeping beside corn is by analogy.", m.AsOf)
}

// FreeOf returns the name of a factor that breakage moves and the buyer's list
// takes nothing off for as it is, and up to what value; no name where there is
// none.
func FreeOf(r *Report, p *Prices) (name string, upTo float64) {
	table := grade.TableOf(r.Crop)
	if table == nil {
		return "", 0
	}
	for _, key := range []string{"broken_and_foreign_pct", "splits_pct"} {
		most, listed := p.Free(key)
		v, f := r.Tank.GradeFactors[key], table.Factor(key)
		if listed && v != nil && f != nil && *v <= most {
			return f.Name, most
		}
	}
	return "", 0
}

// free says what breakage the buyer's list lets pass.
func (p *page) free(r *Report) {
	prices := DefaultPrices(r.Crop)
	if name, upTo := FreeOf(r, &prices); name != "" {
		p.line("  The list takes nothing off for %s up to %s %%; what breakage costs all the same stands above.", name, short(&upTo))
	}
}

// uses says what the sample is no longer fit for.
func (p *page) uses(r *Report) {
	c, list := crop.Find(r.Crop), r.Money.Refused
	if _, asked := least[c.Name]; asked {
		p.line("  As seed: %s. What seed brings is by contract, and not counted.", map[bool]string{true: "too much is damaged to sprout", false: "damage leaves enough to sprout"}[slices.Contains(list, Seed)])
	}
	if r.Tank.GradeFactors["skinned_and_broken_pct"] != nil {
		p.line("  As malting barley: %s at %d %% skinned and broken.", map[bool]string{true: "refused", false: "within what contracts allow"}[slices.Contains(list, Malt)], skinnedMost)
	}
}

// scaled multiplies a number that may not be known.
func scaled(v *float64, by float64) *float64 {
	if v == nil {
		return nil
	}
	w := *v * by
	return &w
}
