//go:build !js

package web_test

import (
	"bytes"
	"encoding/json"
	"image/png"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/require"

	"riddle/web"
)

// plainHost serves a copy of the built page from a path of its own as any
// static host would: without our headers and with redirects of its own making.
func plainHost(t *testing.T) (server *httptest.Server, dir, address string) {
	t.Helper()
	findBrowser(t)
	from, err := built()
	require.NoError(t, err)
	dir = t.TempDir()
	require.NoError(t, os.CopyFS(dir, os.DirFS(from)))
	server = httptest.NewServer(http.StripPrefix("/school/machines", http.FileServer(http.Dir(dir))))
	t.Cleanup(server.Close)
	return server, dir, server.URL + "/school/machines/"
}

// promised runs a script in the page and returns what its promise comes to.
func promised[T any](p *tab, script string) T {
	p.t.Helper()
	v, err := chromedp.Run(p.ctx, chromedp.Evaluate[T](script, chromedp.EvalAwaitPromise))
	require.NoError(p.t, err, script)
	return v
}

// turn waits until an expression is true, through a change of the page.
func (p *tab) turn(expression string) {
	p.t.Helper()
	require.Eventually(p.t, func() bool {
		v, err := chromedp.Run(p.ctx, chromedp.Evaluate[bool](expression))
		return err == nil && v
	}, time.Minute, 200*time.Millisecond, expression)
}

// The page works from a barn: after one visit the host may be gone.
func TestPageRunsWhenTheHostIsGone(t *testing.T) {
	server, _, address := plainHost(t)
	p := browse(t, address, 1280, 800)
	p.wait(`document.body.dataset.state === "ready" && document.body.dataset.offline === "ready"`)

	server.Close()
	_, err := http.Get(address)
	require.Error(t, err, "the host still answers")
	eval[any](p, `document.body.dataset.state = "old"`)
	p.do(chromedp.Reload())
	p.wait(`document.body.dataset.state === "ready"`)
	p.wait(asked("state") + `.tick > 60`)
	require.Greater(t, p.coloursOf("#picture"), 40, "the picture is blank")

	p.do(chromedp.Navigate(address + "index.html?from=desk#top"))
	p.wait(`document.body.dataset.state === "ready"`)
}

// A new version lies ready but is not taken until the user says so.
func TestNewVersionWaitsForTheUser(t *testing.T) {
	_, dir, address := plainHost(t)
	p := browse(t, address, 1280, 800)
	p.wait(`document.body.dataset.offline === "ready"`)

	file := filepath.Join(dir, "index.html")
	text, err := os.ReadFile(file)
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(file, bytes.Replace(text, []byte("<h1>Riddle</h1>"), []byte("<h1>Riddle anew</h1>"), 1), 0o644))
	require.NoError(t, web.WriteShelf(dir))

	const heading = `document.querySelector("h1").textContent`
	p.do(chromedp.Reload())
	p.wait(`document.body.dataset.state === "ready" && !document.getElementById("news").hidden`)
	require.Equal(t, "Riddle", eval[string](p, heading), "the version in use stays")
	require.Contains(t, eval[string](p, `document.getElementById("news").innerText`), "new version")
	p.do(chromedp.Reload())
	p.wait(`document.body.dataset.state === "ready" && !document.getElementById("news").hidden`)
	require.Equal(t, "Riddle", eval[string](p, heading), "it stays over a reload too")

	eval[any](p, `document.getElementById("take").click()`)
	p.turn(heading + ` === "Riddle anew" && document.body.dataset.state === "ready"`)
	require.EqualValues(t, 1, promised[int](p, `caches.keys().then((k) => k.length)`), "the old version is cleared away")
}

// A set of files that do not belong together is never taken.
func TestHalfAVersionIsNotTaken(t *testing.T) {
	_, dir, address := plainHost(t)
	p := browse(t, address, 1280, 800)
	p.wait(`document.body.dataset.offline === "ready"`)
	file := filepath.Join(dir, "style.css")
	require.NoError(t, os.WriteFile(file, []byte("body { color: teal; }"), 0o644))
	require.NoError(t, web.WriteShelf(dir))
	require.NoError(t, os.WriteFile(file, []byte("body { col"), 0o644)) // half sent
	state := promised[string](p, `navigator.serviceWorker.ready.then((r) => new Promise((done) => {
		r.addEventListener("updatefound", () => {
			const next = r.installing;
			if (next) next.addEventListener("statechange", () => done(next.state));
			else done("none");
		});
		r.update().catch(() => {});
	}))`)
	require.Equal(t, "redundant", state)
	require.EqualValues(t, 1, promised[int](p, `caches.keys().then((k) => k.length)`))
}

// The page can be installed: what its manifest names is there.
func TestManifestNamesWhatIsThere(t *testing.T) {
	dir, err := built()
	require.NoError(t, err)
	text, err := os.ReadFile(filepath.Join(dir, "riddle.webmanifest"))
	require.NoError(t, err)
	var m struct {
		Name      string
		Short     string `json:"short_name"`
		Start     string `json:"start_url"`
		Scope     string
		Display   string
		Icons     []struct{ Src, Sizes, Type, Purpose string }
		ThemeText string `json:"theme_color"`
	}
	require.NoError(t, json.Unmarshal(text, &m))
	require.Equal(t, []string{"./", "./", "standalone"}, []string{m.Start, m.Scope, m.Display})
	require.NotEmpty(t, m.Name)
	require.LessOrEqual(t, len(m.Short), 12, "it is cut off under an icon")
	sizes := map[string]bool{}
	for _, i := range m.Icons {
		f, err := os.Open(filepath.Join(dir, i.Src))
		require.NoError(t, err)
		img, err := png.DecodeConfig(f)
		require.NoError(t, err)
		require.NoError(t, f.Close())
		wide, _, _ := strings.Cut(i.Sizes, "x")
		require.Equal(t, i.Sizes, wide+"x"+wide)
		require.Equal(t, wide, []string{"192", "512"}[img.Width/512])
		require.Equal(t, img.Width, img.Height)
		sizes[i.Sizes+" "+i.Purpose] = true
	}
	// What browsers ask for before they offer to install a page.
	for _, must := range []string{"192x192 any", "512x512 any", "192x192 maskable"} {
		require.True(t, sizes[must], must)
	}
}

// The worker keeps all that the page is made of, each with the fingerprint of
// what lies there.
func TestShelfHoldsThePage(t *testing.T) {
	dir, err := built()
	require.NoError(t, err)
	text, err := os.ReadFile(filepath.Join(dir, "shelf.js"))
	require.NoError(t, err)
	var s struct{ Files map[string]string }
	require.NoError(t, json.Unmarshal(bytes.TrimSuffix(bytes.TrimPrefix(text, []byte("self.shelf = ")), []byte(";\n")), &s))
	for _, must := range []string{"index.html", "frame.html", "page.js", "style.css", "wasm_exec.js", "version.json", "riddle.webmanifest", "icon-192.png"} {
		require.Len(t, s.Files[must], 64, must)
	}
	for name := range s.Files {
		require.FileExists(t, filepath.Join(dir, name))
		require.NotContains(t, []string{".br", ".gz"}, filepath.Ext(name))
	}
	require.NotContains(t, s.Files, "worker.js")
}
