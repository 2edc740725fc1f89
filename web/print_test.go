//go:build !js

package web_test

import (
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/require"

	"riddle/sim"
)

// page of a PDF file (ISO 32000-1, 7.7.3.3); /Pages is the tree of them.
var pdfPage = regexp.MustCompile(`/Type\s*/Page[^s]`)

// missingMoney lists what the page says of the cost and the sheet does not.
const missingMoney = `(() => {
	const plain = (e) => e.textContent.replace(/\s/g, " ");
	const sheet = plain(document.getElementById("print")), rows = [...document.querySelectorAll("#money > div")];
	return (rows.length < 9 ? ["too few lines"] : []).concat(rows.flatMap((r) => [...r.children].map(plain)).filter((text) => text && !sheet.includes(text)));
})()`

// sheet prints the sheet, which must fit its pages.
func (p *tab) sheet(name string, size chromedp.PaperSize, chart bool) {
	p.t.Helper()
	eval[any](p, fmt.Sprintf(`document.getElementById("print-chart").checked = %v`, chart))
	pdf, err := chromedp.Run(p.ctx, chromedp.PrintToPDF(chromedp.PDFPaper(size)))
	require.NoError(p.t, err)
	if dir := os.Getenv("RIDDLE_SHEETS"); dir != "" {
		require.NoError(p.t, os.WriteFile(filepath.Join(dir, name+".pdf"), pdf, 0o644))
	}
	require.Len(p.t, pdfPage.FindAll(pdf, -1), map[bool]int{false: 1, true: 2}[chart], name)
}

// Of two machines the sheet holds both, as large as one another, with the cost
// of each.
func TestSheetOfTwoMachines(t *testing.T) {
	p := browse(t, host(t)+"#v=1&crop=soybeans&seed=5&fan-speed=900&b.fan-speed=1200&end", 1280, 800).ready()
	p.wait(`document.body.dataset.pair === "on"`)
	p.send(map[string]any{"do": "pause"})
	p.forward(60 * sim.TickHz)
	for _, code := range []string{"de", "es"} {
		p.choose("language", code)
		p.wait(fmt.Sprintf(`document.documentElement.lang === %q`, code))
		p.choose("units", "us")
		p.sheet("pair-"+code, chromedp.PaperLetter, false)
	}
	sizes := eval[[]int](p, `[...document.querySelectorAll("#print img")].map((i) => i.naturalWidth)`)
	require.Len(t, sizes, 2)
	require.Equal(t, sizes[0], sizes[1])
	cells := eval[[]int](p, `[...document.querySelectorAll("#print table")].filter((e) => /\$/.test(e.caption.textContent)).flatMap((e) => [...e.tBodies[0].rows].map((r) => r.cells.length))`)
	require.GreaterOrEqual(t, len(cells), 9)
	for _, n := range cells {
		require.Equal(t, 3, n, "a name and two sums")
	}
}

// The sheet stands on one page, and on two with the chart, on both sizes of
// paper and in every language. RIDDLE_SHEETS names a directory that keeps the
// sheets to be looked at.
func TestSheetFitsItsPages(t *testing.T) {
	p := browse(t, host(t), 1280, 800).empty()
	p.choose("crop", "soybeans")
	p.choose("situation", "soybeans-rolling-ground") // which says the most of the day
	p.send(map[string]any{"do": "set", "name": "fan-speed", "text": "1010"})
	p.forward(60 * sim.TickHz)
	catalogues, err := filepath.Glob("static/words/*.json")
	require.NoError(t, err)
	for _, file := range catalogues {
		code := strings.TrimSuffix(filepath.Base(file), ".json")
		p.choose("language", code)
		p.wait(fmt.Sprintf(`document.documentElement.lang === %q`, code))
		for _, units := range []string{"metric", "us"} {
			p.choose("units", units)
			for paper, size := range map[string]chromedp.PaperSize{"A4": chromedp.PaperA4, "Letter": chromedp.PaperLetter} {
				p.sheet(fmt.Sprintf("%s-%s-%s", code, units, paper), size, false)
			}
			require.Empty(t, eval[[]string](p, missingMoney), "%s, %s: lines of the cost", code, units)
		}
		p.sheet(code+"-chart", chromedp.PaperLetter, true)
	}
	sheet := eval[string](p, `document.getElementById("print").textContent`)
	require.Contains(t, sheet, "fan-speed=1010", "the link stands on the sheet")
	require.Equal(t, 1, eval[int](p, `document.querySelectorAll("#print img").length`))
	smallest := eval[float64](p, `Math.min(...[...document.querySelectorAll("#print table")].map((e) => Number.parseFloat([...document.styleSheets]
		.flatMap((s) => [...s.cssRules]).flatMap((r) => [...(r.cssRules ?? [])]).find((r) => r.selectorText === "#print table").style.fontSize)))`)
	require.GreaterOrEqual(t, smallest, 8.5, "pt, to be read at arm's length")
	require.Equal(t, "none", eval[string](p, `getComputedStyle(document.getElementById("print")).display`), "it is for paper only")
}
