//go:build !js

package web_test

import (
	"archive/tar"
	"compress/gzip"
	"errors"
	"fmt"
	"io"
	"net/http"
	"net/http/httptest"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/require"

	"riddle/sim"
	"riddle/web"
)

// axeVersion is the checker of accessibility, by its name in the npm registry:
// an outside judge of the rules of WCAG 2.2 that a program can see.
const axeVersion = "4.14.1"

// axe returns the checker's script, out of the user's cache or fresh from the
// registry; without it the test skips, or fails where RIDDLE_NEED_AXE is set.
func axe(t *testing.T) []byte {
	t.Helper()
	script, err := fetchAxe()
	if err == nil {
		return script
	}
	if os.Getenv("RIDDLE_NEED_AXE") != "" {
		t.Fatalf("axe-core could not be had, and RIDDLE_NEED_AXE says that it must be: %v", err)
	}
	t.Skipf("axe-core could not be had from the npm registry: %v", err)
	return nil
}

func fetchAxe() ([]byte, error) {
	cache, err := os.UserCacheDir()
	if err != nil {
		return nil, err
	}
	dir := filepath.Join(cache, "riddle-tests")
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return nil, err
	}
	pack := filepath.Join(dir, "axe-core-"+axeVersion+".tgz")
	if _, err := os.Stat(pack); err != nil {
		cmd := exec.Command("npm", "pack", "--silent", "axe-core@"+axeVersion)
		cmd.Dir = dir
		if text, err := cmd.CombinedOutput(); err != nil {
			return nil, fmt.Errorf("%w %s", err, text)
		}
	}
	return unpack(pack, "package/axe.min.js")
}

// unpack returns one file of a package.
func unpack(pack, name string) ([]byte, error) {
	f, err := os.Open(pack)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	plain, err := gzip.NewReader(f)
	if err != nil {
		return nil, err
	}
	for files := tar.NewReader(plain); ; {
		h, err := files.Next()
		if errors.Is(err, io.EOF) {
			return nil, fmt.Errorf("%s holds no %s", pack, name)
		}
		if err != nil {
			return nil, err
		}
		if h.Name == name {
			return io.ReadAll(files)
		}
	}
}

// withAxe serves the page, and the checker beside it, as its policy wants it.
func withAxe(t *testing.T) string {
	t.Helper()
	script := axe(t)
	findBrowser(t)
	dir, err := built()
	require.NoError(t, err)
	page := web.Handler(os.DirFS(dir))
	server := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if r.URL.Path == "/axe.js" {
			w.Header().Set("Content-Type", "text/javascript")
			w.Write(script)
			return
		}
		page.ServeHTTP(w, r)
	}))
	t.Cleanup(server.Close)
	return server.URL
}

// load puts the checker into the page and into its frame.
const loadAxe = `Promise.all([document, document.getElementById("machine")?.contentDocument].filter(Boolean).map((d) => new Promise((done, fail) => {
	const s = d.createElement("script");
	s.src = "/axe.js"; s.onload = () => done(true); s.onerror = fail;
	d.head.append(s);
}))).then(() => true)`

// runAxe lists what breaks a rule, each with the element that does.
const runAxe = `axe.run(document, {runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"], resultTypes: ["violations"]})
	.then((r) => r.violations.flatMap((v) => v.nodes.map((n) => v.id + ": " + n.target.join(" ") + " " + (n.any[0]?.message ?? n.all[0]?.message ?? n.none[0]?.message ?? ""))))`

func await[T any](p *tab, script string) T {
	p.t.Helper()
	v, err := chromedp.Run(p.ctx, chromedp.Evaluate[T](script, chromedp.EvalAwaitPromise))
	require.NoError(p.t, err, script)
	return v
}

// say has the page speak a language.
func (p *tab) speak(code string) {
	p.t.Helper()
	p.choose("language", code)
	p.wait(`document.documentElement.lang === "` + code + `" && document.getElementById("language").value === "` + code + `"`)
}

// Zero violations in the page and inside the frame: every language, theme and
// view is met, themes and languages in every pair.
func TestAxeFindsNothing(t *testing.T) {
	p := browse(t, withAxe(t), 1440, 900).empty()
	p.forward(20 * sim.TickHz)
	p.send(map[string]any{"do": "set", "name": "fan-speed", "text": "1200"})
	p.wait(`document.querySelector("#log li") !== null`)
	await[bool](p, loadAxe)
	zones := eval[[]string](p, `[...document.getElementById("zone").options].map((o) => o.value)`)
	n := 0
	for _, language := range []string{"en", "es", "de", "fr", "pt"} {
		p.speak(language)
		for _, theme := range []string{"paper", "night", "projector"} {
			p.choose("theme", theme)
			zone := zones[n%len(zones)]
			p.choose("zone", zone)
			require.Empty(t, await[[]string](p, runAxe), "%s %s %s", language, theme, zone)
			n++
		}
	}
}

// What else fills the page: a kernel's story, two machines, and both of them for
// a room, in every language and every theme.
func TestAxeFindsNothingInOtherViews(t *testing.T) {
	p := browse(t, withAxe(t), 1440, 900).empty()
	p.forward(20 * sim.TickHz)
	await[bool](p, loadAxe)
	themes, n := []string{"paper", "night", "projector"}, 0
	look := func(view string) {
		t.Helper()
		for _, language := range []string{"en", "es", "de", "fr", "pt"} {
			p.speak(language)
			theme := themes[n%len(themes)]
			p.choose("theme", theme)
			eval[any](p, `scrollTo(0, 0)`) // what is scrolled half under the bar counts as covered
			require.Empty(t, await[[]string](p, runAxe), "%s %s %s", view, language, theme)
			n++
		}
		p.speak("en")
	}
	p.press("A kernel in the tank")
	p.wait(`document.querySelectorAll(".story li").length > 2`)
	look("story")
	p.press("Stop following")
	p.press("Two machines")
	p.wait(`document.querySelectorAll("#pair-readings tr").length > 10`)
	look("pair")
	p.press("Full screen")
	p.turn(`document.body.dataset.present === "on"`)
	look("present")
}

// What stands on the page only now and then: the alarm, and the other unit
// system, on a narrow screen.
func TestAxeFindsNothingInAPluggedMachine(t *testing.T) {
	p := browse(t, withAxe(t), 360, 800)
	p.wait(`document.body.dataset.state === "ready"`)
	p.choose("units", "us")
	p.choose("situation", "wheat-overload")
	p.forward(30 * 120)
	p.wait(`!document.getElementById("alarm").hidden`)
	await[bool](p, loadAxe)
	require.Empty(t, await[[]string](p, runAxe))
}

func TestAxeFindsNothingWhereNothingRuns(t *testing.T) {
	p := browse(t, withAxe(t), 820, 1180, chromedp.Flag("disable-3d-apis", true))
	p.wait(`document.body.dataset.state === "failed"`)
	await[bool](p, loadAxe)
	require.Empty(t, await[[]string](p, runAxe))
}

// The pages beside the machine.
func TestAxeFindsNothingInThePagesOfText(t *testing.T) {
	address := withAxe(t)
	dir, err := built()
	require.NoError(t, err)
	files, err := filepath.Glob(filepath.Join(dir, "*.html"))
	require.NoError(t, err)
	for _, file := range files {
		name := filepath.Base(file)
		if name == "index.html" || name == "frame.html" {
			continue
		}
		t.Run(strings.TrimSuffix(name, ".html"), func(t *testing.T) {
			p := browse(t, address+"/"+name, 820, 1180)
			p.wait(`document.readyState === "complete"`)
			await[bool](p, loadAxe)
			require.Empty(t, await[[]string](p, runAxe))
		})
	}
}
