package readout

import (
	"fmt"
	"io"
	"strconv"
	"strings"

	"riddle/sim/setup"
	"riddle/sim/trade/crop"
)

// Print writes the report for people to read.
func Print(w io.Writer, r *Report) error {
	p := &page{}
	if forecast(r) {
		p.line("%s, forecast of a long run: %s", title(r.Crop), r.State)
	} else {
		p.line("%s, seed %d, over %s s: %s", title(r.Crop), r.Seed, short(&r.WindowS), r.State)
	}
	nothing := p.plug(r)
	p.settings(r)
	if !nothing {
		p.readings(r)
	}
	p.counts(r)
	_, err := io.WriteString(w, p.String())
	return err
}

// readings prints what was read in the window.
func (p *page) readings(r *Report) {
	p.line("\nFeed")
	p.line("  grain %s kg/s (%s t/h), other material %s kg/s, %s ha/h",
		fixed(r.Feed.GrainKgS, 2), fixed(r.Feed.GrainTH, 1), fixed(r.Feed.MOGKgS, 2), fixed(r.Feed.AreaHaH, 2))
	if p.unread(r) {
		return
	}
	p.losses(r)
	p.flows(r)
	p.power(r)
	p.sample(r)
	p.money(r)
}

// forecast reports whether nothing was counted: the report is of a forecast.
func forecast(r *Report) bool { return r.Digest == nil && r.Ledger == nil }

// Caution is what a plug calls for before anything else. Common practice, and
// what operator's manuals say.
const Caution = "Before anybody clears it: engine off, key out, and wait until every part stands still, as the operator's manual says."

// page is a text that grows line by line.
type page struct{ strings.Builder }

func (p *page) line(format string, args ...any) { fmt.Fprintf(p, format+"\n", args...) }

// settings sets the settings and the conditions side by side.
func (p *page) settings(r *Report) {
	left, right := rows(r.Settings, r.Crop, false), rows(r.Conditions, r.Crop, true)
	p.line("\n%-40s%s", "Settings", "Conditions")
	for i := range max(len(left), len(right)) {
		p.line("%s", strings.TrimRight(fmt.Sprintf("%-40s%s", at(left, i), at(right, i)), " "))
	}
}

// rows prints the fields that are in the map, in their usual order.
func rows(m map[string]any, cropName string, conditions bool) []string {
	c, list := crop.Find(cropName), []string{}
	for i := range setup.Fields {
		f := &setup.Fields[i]
		if f.Condition != conditions || c == nil || !f.On(c) {
			continue
		}
		value := "–"
		switch v := m[f.Key].(type) {
		case float64:
			value = f.Format(v)
		case bool:
			value = map[bool]string{true: "on", false: "off"}[v]
		}
		list = append(list, fmt.Sprintf("  %-20s%s", f.Label, value))
	}
	return list
}

func (p *page) losses(r *Report) {
	e := Errors(r)
	p.line("\n%-24s%8s %8s %9s %9s %9s %9s", "Grain lost", "%", "±", "kg/ha", "bu/ac", "kern./m²", "/ft²")
	row := func(name string, of func(*Loss) *float64) {
		p.line("  %-22s%8s %8s %9s %9s %9s %9s", name, fixed(of(&r.Loss), 2), fixed(of(&e), 2),
			fixed(of(&r.LossKgHa), 1), fixed(of(&r.LossBuAc), 2), fixed(of(&r.LossPerM2), 0), fixed(of(&r.LossPerFt2), 1))
	}
	row("header", func(l *Loss) *float64 { return l.Header })
	row("unthreshed", func(l *Loss) *float64 { return l.Unthreshed })
	row("straw walkers", func(l *Loss) *float64 { return l.Walker })
	row("shoe", func(l *Loss) *float64 { return l.Shoe })
	p.line("    %-20s%8s", "blown over", fixed(r.ShoeLoss.Blown, 2))
	p.line("    %-20s%8s", "ridden over", fixed(r.ShoeLoss.Ridden, 2))
	row("processing", func(l *Loss) *float64 { return l.Processing })
	row("total", func(l *Loss) *float64 { return l.Total })
	p.line("  Processing is unthreshed, walkers and shoe, of the grain that left the machine;")
	chance := "± is one standard error of the count."
	if r.Ledger == nil {
		chance = "± is one standard error that a run of it would have."
	}
	p.line("  the header's is of the grain that stood where it cut, total of all that stood. %s", chance)
	p.line("  Kernels are spread over the whole cut; where the straw falls narrower they lie thicker.")
	p.trail(r)
}

func (p *page) flows(r *Report) {
	p.line("\nCylinder and concave")
	p.line("  %s rpm, %s kW; %s %% of the grain separated at the concave, %s %% left it unthreshed,",
		fixed(r.Cylinder.SpeedRPM, 0), fixed(r.Cylinder.PowerKW, 1), fixed(r.Concave.Separated, 1), fixed(r.Concave.Unthreshed, 2))
	p.line("  %s %% of the other material fell through; the cylinder takes %s %% of what its belt passes", fixed(r.Concave.MOGThrough, 1), fixed(r.Cylinder.OfDrive, 0))
	p.line("\nWalkers and shoe")
	p.line("  other material: walkers %s ± %s kg/s, shoe %s ± %s kg/s",
		fixed(r.Loads.Walkers, 2), fixed(r.LoadsSE.Walkers, 2), fixed(r.Loads.Shoe, 2), fixed(r.LoadsSE.Shoe, 2))
	p.line("\nReturns")
	p.line("  %s %% of the grain fed; made up of %s %% free grain, %s %% unthreshed, %s %% other material",
		fixed(r.Returns.OfGrain, 1), fixed(r.Returns.FreeGrain, 0), fixed(r.Returns.Unthreshed, 0), fixed(r.Returns.MOG, 0))
}

func (p *page) counts(r *Report) {
	if l := r.Ledger; l != nil {
		p.line("\nKernels of the %s mm slice since the first tick", short(&r.SliceMM))
		p.line("  in %d = tank %d + header %d + unthreshed %d + walkers %d + shoe %d + inside %d",
			l.KernelsIn, l.Tank, l.Header, l.Unthreshed, l.Walker, l.Shoe, l.Inside)
	}
	if r.Peak != nil && r.TickHz != nil && r.Digest != nil {
		p.line("\n%s, %s ticks/s, at most %d dots, digest %s", r.Model, short(r.TickHz), *r.Peak, *r.Digest)
	}
	if r.SimPerWallS != nil {
		p.line("%s s simulated a second", fixed(r.SimPerWallS, 1))
	}
}

func at(list []string, i int) string {
	if i < len(list) {
		return list[i]
	}
	return ""
}

// fixed prints a number with so many decimals, and a dash for what could not
// be computed.
func fixed(v *float64, decimals int) string {
	if v == nil {
		return "–"
	}
	return strconv.FormatFloat(*v, 'f', decimals, 64)
}

// short prints a number with as many digits as it needs, up to six.
func short(v *float64) string { return strconv.FormatFloat(*v, 'g', 6, 64) }

func word(s *string) string {
	if s == nil {
		return "–"
	}
	return *s
}

func title(s string) string {
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}
