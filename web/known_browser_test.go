//go:build !js

package web_test

import (
	"net/http/httptest"
	"os"
	"path/filepath"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/require"

	"riddle/sim/check/facts"
	"riddle/testdata/published"
	"riddle/web"
	"riddle/web/known"
)

// knownPage shows the page of the checks as if every value but each tenth had
// been met, on a phone.
func knownPage(t *testing.T) (*tab, []facts.Fact) {
	t.Helper()
	findBrowser(t)
	list := []facts.Fact{}
	for i, c := range published.All() {
		f := facts.Fact{Check: c, Got: c.Expected, Holds: i%10 != 0}
		if !f.Holds && f.Why == "" {
			f.Why = "It was made not to."
		}
		list = append(list, f)
	}
	dir := t.TempDir()
	page, err := os.Create(filepath.Join(dir, "index.html"))
	require.NoError(t, err)
	require.NoError(t, known.Write(page, web.Policy, list))
	require.NoError(t, page.Close())
	for _, name := range []string{"how-we-know.css", "how-we-know.js"} {
		text, err := os.ReadFile(filepath.Join("static", name))
		require.NoError(t, err)
		require.NoError(t, os.WriteFile(filepath.Join(dir, name), text, 0o644))
	}
	server := httptest.NewServer(web.Handler(os.DirFS(dir)))
	t.Cleanup(server.Close)
	p := browse(t, server.URL, 390, 844)
	p.wait(`!document.getElementById("filter").hidden`)
	return p, list
}

const rowsShown = `[...document.querySelectorAll("tbody tr")].filter((r) => r.checkVisibility()).length`

// The filters leave what they name, a link finds a check that they hide, and
// nothing runs off a phone's edge.
func TestChecksAreNarrowed(t *testing.T) {
	p, list := knownPage(t)
	all, hold := facts.Count(list)
	require.Equal(t, all, eval[int](p, rowsShown))
	require.LessOrEqual(t, eval[int](p, `document.documentElement.scrollWidth`), 390)

	p.do(chromedp.SetValue(chromedp.CSS("#state"), "no"))
	eval[bool](p, `document.getElementById("filter").dispatchEvent(new Event("input"))`)
	require.Equal(t, all-hold, eval[int](p, rowsShown))

	grades := 0
	for _, f := range list {
		if f.Subject == "grades" && !f.Holds {
			grades++
		}
	}
	p.do(chromedp.SetValue(chromedp.CSS("#subject"), "grades"))
	eval[bool](p, `document.getElementById("filter").dispatchEvent(new Event("input"))`)
	require.Equal(t, grades, eval[int](p, rowsShown))

	eval[string](p, `location.hash = "#TH-T4a"`)
	p.wait(`document.getElementById("TH-T4a").checkVisibility()`)
	require.Equal(t, all, eval[int](p, rowsShown), "a link to a hidden check shows all again")
}

// A reader that reads aloud finds tables with rows, heads and cells, on a phone
// too, where they are drawn as cards.
func TestChecksStayTables(t *testing.T) {
	p, list := knownPage(t)
	require.Equal(t, len(list), eval[int](p, `document.querySelectorAll('tbody tr[role="row"] > th[role="rowheader"][scope="row"]').length`))
	require.Equal(t, 5*len(list), eval[int](p, `document.querySelectorAll('tbody tr > td[role="cell"]').length`))
	require.True(t, eval[bool](p, `[...document.querySelectorAll("table")].every((t) => t.getAttribute("role") === "table" && document.getElementById(t.closest("section").getAttribute("aria-labelledby")))`))
}
