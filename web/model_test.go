//go:build !js

package web

import (
	"flag"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"riddle/sim/check/facts/marks"
	"riddle/sim/trade/crop"
	"riddle/sim/trade/weather"
)

// written is the page as it lies in the repository.
func written(t *testing.T) string {
	t.Helper()
	text, err := os.ReadFile("static/" + modelFile)
	require.NoError(t, err)
	return string(text)
}

// laws lists the functions and methods of the model by package and name.
func laws(t *testing.T) (names map[string]bool, exported map[string][]string) {
	t.Helper()
	names, exported = map[string]bool{}, map[string][]string{}
	root := os.DirFS("..")
	require.NoError(t, fs.WalkDir(root, "sim", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || path.Ext(name) != ".go" || strings.HasSuffix(name, "_test.go") {
			return err
		}
		text, err := fs.ReadFile(root, name)
		require.NoError(t, err)
		f, err := parser.ParseFile(token.NewFileSet(), name, text, 0)
		require.NoError(t, err)
		for _, d := range f.Decls {
			if fn, ok := d.(*ast.FuncDecl); ok {
				names[path.Dir(name)+"."+fn.Name.Name] = true
				if fn.Name.IsExported() {
					exported[name] = append(exported[name], path.Dir(name)+"."+fn.Name.Name)
				}
			}
		}
		return nil
	}))
	return names, exported
}

var named1 = regexp.MustCompile(`data-law="([^"]+)"`)

// TestModelPageNamesTheLaws: each function that the page names is in the
// source, and each function of a stage's laws is named on the page.
func TestModelPageNamesTheLaws(t *testing.T) {
	names, exported := laws(t)
	onPage := map[string]bool{}
	for _, m := range named1.FindAllStringSubmatch(written(t), -1) {
		require.True(t, names[m[1]], "the page names %s, which is not in the source", m[1])
		onPage[m[1]] = true
	}
	// These say the same with a figure worked out beforehand.
	same := map[string]bool{"sim/stage/shoe.PassUpperThrough": true, "sim/stage/shoe.PassLowerThrough": true, "sim/stage/engine.New": true, "sim/stage/shoe.Air": true}
	for _, file := range []string{"sim/stage/feed/law.go", "sim/stage/thresh/law.go", "sim/stage/thresh/break.go", "sim/stage/straw/law.go", "sim/stage/shoe/law.go", "sim/stage/engine/engine.go", "sim/stage/feed/power.go", "sim/stage/straw/power.go", "sim/stage/shoe/power.go", "sim/stage/tank/power.go", "sim/stage/ground/power.go", "sim/trade/crop/condition.go", "sim/trade/weather/isotherm.go"} {
		require.NotEmpty(t, exported[file], file)
		for _, fn := range exported[file] {
			switch fn {
			case "sim/trade/weather.String", "sim/trade/weather.WetBasis", "sim/trade/weather.DryBasis":
				continue
			}
			require.True(t, onPage[fn] || same[fn], "%s is a law that the page does not name", fn)
		}
	}
}

var update = flag.Bool("update-model", false, "write the constants of the source into the model's page")

// TestModelEquationsHoldTheConstants: each number that the page's equations
// share with the source is the source's, also as the page lies in the
// repository.
func TestModelEquationsHoldTheConstants(t *testing.T) {
	figures, err := marks.Read(os.DirFS(".."), "sim")
	require.NoError(t, err)
	page := written(t)
	now, err := withFigures(page, figures)
	require.NoError(t, err)
	require.Greater(t, len(shown.FindAllString(page, -1)), 50)
	if *update {
		require.NoError(t, os.WriteFile("static/"+modelFile, []byte(now), 0o644))
		page = now
	}
	was := shown.FindAllStringSubmatch(page, -1)
	for i, m := range shown.FindAllStringSubmatch(now, -1) {
		if m[2] != was[i][2] {
			t.Errorf("the page says %s for %s, the source %s: go test ./web -run TestModelEquations -args -update-model", was[i][2], m[1], m[2])
		}
	}
}

// TestModelPageShowsEveryFigure: each constant of the model stands on the built
// page once, with its value and at least one mark, and so does each crop.
func TestModelPageShowsEveryFigure(t *testing.T) {
	built, err := modelPage(os.DirFS(".."), written(t))
	require.NoError(t, err)
	require.False(t, strings.Contains(built, "<div data-"), "every place is filled")
	for _, m := range regexp.MustCompile(`<td class="name">(.*?)</td>.*<td class="mark"></td>`).FindAllStringSubmatch(built, -1) {
		t.Errorf("%s has no mark", m[1])
	}
	figures, err := marks.Read(os.DirFS(".."), "sim")
	require.NoError(t, err)
	missing := map[string]bool{}
	for _, f := range figures {
		if !strings.Contains(built, `scope="rowgroup">`+f.Package+`<`) {
			missing[f.Package] = true
		}
	}
	// Packages whose figures bound the program and are no part of the model.
	for _, p := range []string{"sim/check/agree", "sim/check/facts", "sim/check/facts/marks", "sim/ask/study", "sim/check/rules", "sim/run/rewind", "sim/read/story", "sim/run/trial", "sim/setup", "sim/trade/quantity"} {
		delete(missing, p)
	}
	require.Empty(t, missing, "packages without a place on the page")
	for _, name := range crop.Names() {
		require.Contains(t, built, `<th scope="col">`+name+`</th>`)
	}
	require.Contains(t, built, "<td class=\"value\">8.35</td>", "wheat's rate of threshing, as in the source")
	for _, w := range weather.Withheld {
		require.Contains(t, built, w.Crop+", not offered")
	}
}

// TestEffects: what the tables say is in the direction that the trade knows:
// tough straw and feed raise walker loss, dry grain breaks, wet heads hold
// grain, worn bars thresh less, a higher cut takes less straw.
func TestEffects(t *testing.T) {
	table, err := effectTables([]string{"wheat"})
	require.NoError(t, err)
	cell := func(row, column string) string {
		for _, r := range strings.Split(table, "<tr>") {
			if !strings.Contains(r, row) {
				continue
			}
			cells := regexp.MustCompile(`<td>([^<]*)</td>`).FindAllStringSubmatch(r, -1)
			for i, e := range effects {
				if e.name == column {
					return cells[i][1]
				}
			}
		}
		t.Fatalf("no row %q", row)
		return ""
	}
	for _, c := range [][3]string{
		{"Yield", "walker", "+"}, {"Straw moisture 12 → 16", "walker", "+"}, {"Grain moisture 13 → 11", "broken", "+"}, {"Grain moisture 13 → 15", "unthreshed", "+"},
		{"Bar wear", "unthreshed", "+"}, {"Cutting height", "walker", "−"}, {"Side slope", "shoe", "+"}, {"Green weeds", "walker", "+"}, {"5.2 → 1.56", "broken", "+"},
	} {
		require.True(t, strings.HasPrefix(cell(c[0], c[1]), c[2]), "%s: %s is %s", c[0], c[1], cell(c[0], c[1]))
	}
	corn, err := effectTables([]string{"corn"})
	require.NoError(t, err)
	require.NotContains(t, corn, "Cutting height", "the header for corn has none")
}

// TestDayChart: the chart of the day says the course that operators know, and
// has it in words for those who do not see it.
func TestDayChart(t *testing.T) {
	chart, err := dayChart("wheat")
	require.NoError(t, err)
	m := regexp.MustCompile(`driest at (\d+):\d\d with (\d+) % and wettest at (\d+):\d\d with (\d+) %`).FindStringSubmatch(chart)
	require.NotNil(t, m)
	n := func(i int) int { v, err := strconv.Atoi(m[i]); require.NoError(t, err); return v }
	require.True(t, n(1) >= 15 && n(1) <= 19, "driest in the afternoon, at %d", n(1))
	require.True(t, n(3) >= 3 && n(3) <= 8, "wettest at dawn, at %d", n(3))
	require.Greater(t, n(4), n(2)+10)
	_, err = dayChart("rye")
	require.Error(t, err)
}

// TestModelPageIsPlain: no script, no style of its own, equations in MathML
// that is well formed, links that lead somewhere.
func TestModelPageIsPlain(t *testing.T) {
	page := written(t)
	require.False(t, strings.Contains(page, "<script"))
	require.False(t, strings.Contains(page, " style="))
	require.False(t, strings.Contains(page, "<style"))
	require.Contains(t, page, Policy)
	require.Equal(t, strings.Count(page, "<math"), strings.Count(page, "</math>"))
	require.Greater(t, strings.Count(page, `<math display="block">`), 25)
	for _, m := range regexp.MustCompile(`href="#([^"]+)"`).FindAllStringSubmatch(page, -1) {
		require.Contains(t, page, `id="`+m[1]+`"`)
	}
	index, err := os.ReadFile("static/index.html")
	require.NoError(t, err)
	require.Contains(t, string(index), `href="model.html"`, "it is reached from the page")
}
