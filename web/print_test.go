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

// The sheet stands on one page, and on two with the chart, on both sizes of
// paper and in every language. RIDDLE_SHEETS names a directory that keeps the
// sheets to be looked at.
func TestSheetFitsItsPages(t *testing.T) {
	p := browse(t, host(t), 1280, 800).empty()
	p.send(map[string]any{"do": "set", "name": "fan-speed", "text": "1000"})
	p.forward(60 * sim.TickHz)
	catalogues, err := filepath.Glob("static/words/*.json")
	require.NoError(t, err)
	for _, file := range catalogues {
		code := strings.TrimSuffix(filepath.Base(file), ".json")
		p.choose("language", code)
		p.wait(fmt.Sprintf(`document.documentElement.lang === %q`, code))
		for paper, size := range map[string]chromedp.PaperSize{"A4": chromedp.PaperA4, "Letter": chromedp.PaperLetter} {
			for _, chart := range []bool{false, true} {
				name := fmt.Sprintf("%s-%s-%v", code, paper, chart)
				eval[any](p, fmt.Sprintf(`document.getElementById("print-chart").checked = %v`, chart))
				pdf, err := chromedp.Run(p.ctx, chromedp.PrintToPDF(chromedp.PDFPaper(size)))
				require.NoError(t, err)
				if dir := os.Getenv("RIDDLE_SHEETS"); dir != "" {
					require.NoError(t, os.WriteFile(filepath.Join(dir, name+".pdf"), pdf, 0o644))
				}
				require.Len(t, pdfPage.FindAll(pdf, -1), map[bool]int{false: 1, true: 2}[chart], name)
			}
		}
	}
	sheet := eval[string](p, `document.getElementById("print").textContent`)
	require.Contains(t, sheet, "fan-speed=1000", "the link stands on the sheet")
	require.Equal(t, 1, eval[int](p, `document.querySelectorAll("#print img").length`))
	require.Equal(t, "none", eval[string](p, `getComputedStyle(document.getElementById("print")).display`), "it is for paper only")
}
