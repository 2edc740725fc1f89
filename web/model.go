package web

import (
	"fmt"
	"html"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"strings"

	"riddle/sim/check/facts/marks"
	"riddle/sim/stage/design"
	"riddle/sim/trade/crop"
	"riddle/sim/trade/weather"
)

// modelFile is the page that sets out the model for teachers. Its equations
// are written by hand; its figures are read from the source.
const modelFile = "model.html"

// writeModel fills the tables of the model's page, which lies in dir already,
// from the sources under root.
func writeModel(root, dir string) error {
	path := filepath.Join(dir, modelFile)
	page, err := os.ReadFile(path)
	if err != nil {
		return err
	}
	text, err := modelPage(os.DirFS(root), string(page))
	if err != nil {
		return err
	}
	return os.WriteFile(path, []byte(text), 0o644)
}

// place is an empty element of the page that says what belongs in it.
var place = regexp.MustCompile(`<div data-(marks|figures|crops|isotherms|effects|day)="([^"]*)"></div>`)

// modelPage returns the page with every place filled.
func modelPage(source fs.FS, page string) (string, error) {
	figures, err := marks.Read(source, "sim")
	if err != nil {
		return "", err
	}
	crops, err := cropTable(source, figures)
	if err != nil {
		return "", err
	}
	if page, err = withFigures(page, figures); err != nil {
		return "", err
	}
	text := place.ReplaceAllStringFunc(page, func(found string) string {
		m := place.FindStringSubmatch(found)
		switch m[1] {
		case "marks":
			return markList()
		case "crops":
			return crops
		case "isotherms":
			return isothermTable()
		case "effects":
			return keep(&err, func() (string, error) { return effectTables(strings.Fields(m[2])) })
		case "day":
			return keep(&err, func() (string, error) { return dayChart(m[2]) })
		}
		return figureTable(figures, strings.Fields(m[2]))
	})
	return text, err
}

// keep returns what make makes, or nothing and the first error.
func keep(first *error, make func() (string, error)) string {
	text, err := make()
	if err != nil && *first == nil {
		*first = err
	}
	return text
}

func markList() string {
	var b strings.Builder
	b.WriteString("<dl class=\"marks\">\n")
	for _, m := range marks.Vocabulary {
		fmt.Fprintf(&b, "<div><dt>%s</dt><dd>%s</dd></div>\n", html.EscapeString(m.Name), html.EscapeString(m.Means))
	}
	return b.String() + "</dl>"
}

// figureTable lists the constants of packages. What is said of several in one
// breath stands once.
func figureTable(all []marks.Figure, packages []string) string {
	var b strings.Builder
	n := 0
	for _, p := range packages {
		rows := rowsOf(all, p)
		if len(rows) == 0 {
			continue
		}
		fmt.Fprintf(&b, "<tbody><tr><th colspan=\"4\" scope=\"rowgroup\">%s</th></tr>\n", html.EscapeString(p))
		for _, r := range rows {
			n += len(r.names)
			fmt.Fprintf(&b, "<tr><td class=\"name\">%s</td><td class=\"value\">%s</td><td>%s</td><td class=\"mark\">%s</td></tr>\n",
				strings.Join(r.names, "<br>"), strings.Join(r.values, "<br>"), html.EscapeString(r.text), html.EscapeString(strings.Join(r.marks, ", ")))
		}
		b.WriteString("</tbody>\n")
	}
	return fmt.Sprintf("<details class=\"figures\"><summary>%d constants, each with unit, source and mark</summary>\n<div class=\"wide\" role=\"region\" tabindex=\"0\" aria-label=\"Constants\"><table class=\"constants\">\n"+
		"<thead><tr><th scope=\"col\">name</th><th scope=\"col\">value</th><th scope=\"col\">what it is, its unit and source</th><th scope=\"col\">mark</th></tr></thead>\n%s</table></div></details>", n, b.String())
}

// unused reports whether no crop has the figure.
func unused(columns []map[string]string, field string) bool {
	for _, c := range columns {
		if c[field] != "0" {
			return false
		}
	}
	return true
}

// row is one constant, or several of which one thing is said.
type row struct {
	names, values, marks []string
	text                 string
}

func rowsOf(all []marks.Figure, pkg string) (rows []row) {
	for _, f := range all {
		if f.Package != pkg {
			continue
		}
		name, value := html.EscapeString(f.Name), html.EscapeString(f.Value)
		if f.Table {
			value = "a table"
		}
		text := f.Text
		if text == "" {
			text = "worked out from the constants that it names: " + f.Value
		}
		if k := len(rows) - 1; k >= 0 && rows[k].text == text {
			rows[k].names, rows[k].values = append(rows[k].names, name), append(rows[k].values, value)
			continue
		}
		rows = append(rows, row{[]string{name}, []string{value}, f.Marks, text})
	}
	return rows
}

// isothermTable lists the sets of coefficients that are offered, and those
// that failed.
func isothermTable() string {
	var b strings.Builder
	line := func(name string, i *weather.Isotherm, why string) {
		fmt.Fprintf(&b, "<tr><th scope=\"row\">%s</th><td>%s</td><td class=\"value\">%g, %g, %g</td><td>%s</td></tr>\n",
			html.EscapeString(name), html.EscapeString(i.Form.String()), i.A, i.B, i.C, html.EscapeString(why))
	}
	for i := range weather.Habits {
		h := &weather.Habits[i]
		line(h.Crop, &h.Grain, h.Source+". Held against: "+h.Held+".")
	}
	line("straw and chaff", &weather.Straw, "Calibrated to the ends published for corn stover (Karunanithy and others 2013).")
	for i := range weather.Withheld {
		w := &weather.Withheld[i]
		line(w.Crop+", not offered", &w.Grain, "From memory. Failed: "+w.Why+".")
	}
	return "<div class=\"wide\" role=\"region\" tabindex=\"0\" aria-label=\"Isotherms\"><table>\n<thead><tr><th scope=\"col\">crop</th><th scope=\"col\">equation</th><th scope=\"col\">A, B, C</th>" +
		"<th scope=\"col\">source, and what it was held against</th></tr></thead>\n<tbody>" + b.String() + "</tbody></table></div>"
}

// cropTable lists every figure of every crop, with what the source says of the
// field.
func cropTable(source fs.FS, figures []marks.Figure) (string, error) {
	about, err := cropWords(source)
	if err != nil {
		return "", err
	}
	var b strings.Builder
	for _, f := range figures {
		if f.File == "sim/trade/crop/data.go" && f.Name == "all" || f.File == "sim/stage/design/calibration.go" && f.Name == "walkers" {
			fmt.Fprintf(&b, "<p>%s</p>\n", html.EscapeString(f.Text))
		}
	}
	names := crop.Names()
	b.WriteString("<details class=\"figures\"><summary>All figures of all crops</summary>\n<div class=\"wide\" role=\"region\" tabindex=\"0\" aria-label=\"Figures of the crops\"><table>\n<thead><tr><th scope=\"col\">figure</th>")
	for _, n := range names {
		fmt.Fprintf(&b, "<th scope=\"col\">%s</th>", n)
	}
	b.WriteString("</tr></thead>\n<tbody>\n")
	columns := make([]map[string]string, len(names))
	var order []string
	for i, n := range names {
		columns[i] = map[string]string{}
		list(design.WithWalkers.In(crop.Find(n)), func(field, value string) {
			if i == 0 {
				order = append(order, field)
			}
			columns[i][field] = value
		})
	}
	for _, field := range order {
		if unused(columns, field) {
			continue
		}
		fmt.Fprintf(&b, "<tr><th scope=\"row\">%s <span>%s</span></th>", field, html.EscapeString(about[field]))
		for i := range names {
			fmt.Fprintf(&b, "<td class=\"value\">%s</td>", html.EscapeString(columns[i][field]))
		}
		b.WriteString("</tr>\n")
	}
	return b.String() + "</tbody></table></div></details>", nil
}
