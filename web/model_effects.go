package web

import (
	"fmt"
	"html"
	"math"
	"strings"

	"riddle/sim/ask/forecast"
	"riddle/sim/read/readout"
	"riddle/sim/setup"
)

// steps are the changes whose effects the model's page shows, each by itself:
// a condition or setting, and what is done to its starting value.
var steps = []struct {
	field       string
	times, plus float64
}{
	{"yield", 1.2, 0}, {"mog-ratio", 1.2, 0}, {"grain-moisture", 1, 2}, {"grain-moisture", 1, -2}, {"straw-moisture", 1, 4}, {"straw-moisture", 1, -4},
	{"green-weeds", 1, 5}, {"light-grain", 1, 3}, {"side-slope", 1, 6}, {"fore-slope", 1, 6}, {"fore-slope", 1, -6}, {"bar-wear", 1, 0.5},
	{"cutting-height", 1.5, 0}, {"ground-speed", 1.2, 0}, {"ground-speed", 0.3, 0},
}

// effect is a reading whose change is shown.
type effect struct {
	name   string
	digits int
	of     func(*readout.Report) *float64
}

var effects = []effect{
	{"header", 2, func(r *readout.Report) *float64 { return r.Loss.Header }},
	{"unthreshed", 2, func(r *readout.Report) *float64 { return r.Loss.Unthreshed }},
	{"walker", 2, func(r *readout.Report) *float64 { return r.Loss.Walker }},
	{"shoe", 2, func(r *readout.Report) *float64 { return r.Loss.Shoe }},
	{"broken", 2, func(r *readout.Report) *float64 { return r.Tank.Broken }},
	{"foreign", 2, func(r *readout.Report) *float64 { return r.Tank.Foreign }},
	{"returns", 1, func(r *readout.Report) *float64 { return r.Returns.OfGrain }},
	{"kW", 1, func(r *readout.Report) *float64 { return r.Cylinder.PowerKW }},
}

// effectTables shows what each step does in some crops, by the forecast.
func effectTables(crops []string) (string, error) {
	var b strings.Builder
	for _, name := range crops {
		if err := effectTable(&b, name); err != nil {
			return "", err
		}
	}
	return b.String(), nil
}

func effectTable(b *strings.Builder, name string) error {
	start, err := setup.Default(name)
	if err != nil {
		return err
	}
	base, err := forecast.Report(start)
	if err != nil {
		return err
	}
	fmt.Fprintf(b, "<div class=\"wide\" role=\"region\" tabindex=\"0\" aria-label=\"Effects in %s\"><table class=\"effects\">\n<caption>%s</caption>\n<thead><tr><th scope=\"col\">change</th>", name, name)
	for _, e := range effects {
		fmt.Fprintf(b, "<th scope=\"col\">%s</th>", e.name)
	}
	b.WriteString("</tr></thead>\n<tbody>\n")
	line(b, "at the start", func(e effect) string { return number(e.of(&base), e.digits, "") })
	for _, step := range steps {
		s, f := start, setup.Find(step.field)
		from := f.Get(&s)
		if f.Set(&s, from*step.times+step.plus) != nil {
			continue // this crop's header has no such setting
		}
		r, err := forecast.Report(s)
		if err != nil {
			return err
		}
		line(b, strings.ReplaceAll(fmt.Sprintf("%s %.4g → %s", f.Label, from, f.Format(math.Round(100*f.Get(&s))/100)), "-", "−"), func(e effect) string {
			a, z := e.of(&base), e.of(&r)
			if a == nil || z == nil {
				return "–"
			}
			change := *z - *a
			return number(&change, e.digits, "+")
		})
	}
	b.WriteString("</tbody></table></div>\n")
	return nil
}

func line(b *strings.Builder, head string, cell func(effect) string) {
	fmt.Fprintf(b, "<tr><th scope=\"row\">%s</th>", html.EscapeString(head))
	for _, e := range effects {
		fmt.Fprintf(b, "<td>%s</td>", cell(e))
	}
	b.WriteString("</tr>\n")
}

// number prints a value, with a plus where it rises if that is asked for.
func number(v *float64, digits int, plus string) string {
	if v == nil {
		return "–"
	}
	text := fmt.Sprintf("%.*f", digits, *v)
	switch {
	case !strings.ContainsAny(text, "123456789"):
		return "0"
	case *v < 0:
		return "−" + text[1:]
	}
	return plus + text
}
