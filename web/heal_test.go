//go:build !js

package web_test

import (
	"fmt"
	"net/http/httptest"
	"os"
	"path/filepath"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/require"

	"riddle/web"
)

// damage changes one byte in the middle of a file that the browser keeps, so
// that it is as long as before.
const damage = `caches.keys().then(async ([name]) => {
	const shelf = await caches.open(name), url = new URL(%q, location.href).href, kept = await shelf.match(url);
	const bytes = new Uint8Array(await kept.clone().arrayBuffer());
	bytes[bytes.length >> 1] ^= 1;
	await shelf.put(url, new Response(bytes, { headers: kept.headers }));
	return bytes.length;
})`

// keptSum is the fingerprint of a file that the browser keeps.
const keptSum = `caches.match(new URL(%q, location.href).href).then(async (r) => r ? [...new Uint8Array(await crypto.subtle.digest("SHA-256", await r.arrayBuffer()))].map((b) => b.toString(16).padStart(2, "0")).join("") : "")`

// What the browser keeps may rot: it is looked at on the way out and brought once
// more.
func TestADamagedFileInTheBrowserHeals(t *testing.T) {
	server, dir, address := plainHost(t)
	p := newTab(t, 1280, 800) // at the end the console has an error
	p.do(chromedp.Navigate(address))
	p.wait(`document.body.dataset.state === "ready" && document.body.dataset.offline === "ready"`)
	for _, name := range []string{machineFile(t), "words/en.json"} {
		text, err := os.ReadFile(filepath.Join(dir, filepath.FromSlash(name)))
		require.NoError(t, err)
		whole := web.Fingerprint(text)
		require.Equal(t, whole, promised[string](p, fmt.Sprintf(keptSum, name)))
		require.EqualValues(t, len(text), promised[int](p, fmt.Sprintf(damage, name)))
		require.NotEqual(t, whole, promised[string](p, fmt.Sprintf(keptSum, name)))
		eval[any](p, `document.body.dataset.state = "old"`)
		p.do(chromedp.Reload())
		p.turn(`document.body.dataset.state === "ready"`)
		require.Equal(t, whole, promised[string](p, fmt.Sprintf(keptSum, name)), name)
	}
	// A damaged file is not handed out when there is no network either.
	require.Positive(t, promised[int](p, fmt.Sprintf(damage, "dom.js")))
	server.Close()
	require.Equal(t, "failed", promised[string](p, `fetch("dom.js").then((r) => r.text(), () => "failed")`))
	require.NotEqual(t, "failed", promised[string](p, `fetch("plate.js").then((r) => r.text(), () => "failed")`))
}

// A machine that came damaged is fetched past what the browser has put by.
func TestADamagedMachineIsFetchedAgain(t *testing.T) {
	findBrowser(t)
	dir := t.TempDir()
	from, err := built()
	require.NoError(t, err)
	require.NoError(t, os.CopyFS(dir, os.DirFS(from)))
	file := filepath.Join(dir, machineFile(t))
	whole, err := os.ReadFile(file)
	require.NoError(t, err)
	bad := append([]byte(nil), whole...)
	bad[len(bad)-len(bad)/8] ^= 1 // among the data, where it still compiles
	require.NoError(t, os.WriteFile(file, bad, 0o644))
	server := httptest.NewServer(web.Handler(os.DirFS(dir)))
	t.Cleanup(server.Close)
	p := newTab(t, 1280, 800)
	p.do(chromedp.Navigate(server.URL))
	p.turn(`document.body.dataset.state === "failed"`)
	require.Contains(t, eval[string](p, `document.getElementById("loading").innerText`), "damaged")
	require.NoError(t, os.WriteFile(file, whole, 0o644))
	eval[any](p, `document.getElementById("retry").click()`)
	p.turn(`document.body.dataset.state === "ready"`)
}

// Where the host has moved on to another version, what is left of a damaged one
// is given up, and the page comes from the host.
func TestADamagedVersionThatTheHostHasLeftIsGivenUp(t *testing.T) {
	_, dir, address := plainHost(t)
	p := newTab(t, 1280, 800)
	p.do(chromedp.Navigate(address))
	p.wait(`document.body.dataset.state === "ready" && document.body.dataset.offline === "ready"`)
	file := filepath.Join(dir, "dom.js")
	text, err := os.ReadFile(file)
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(file, append(text, "\n// anew\n"...), 0o644))
	require.NoError(t, web.WriteShelf(dir))
	require.Positive(t, promised[int](p, fmt.Sprintf(damage, "dom.js")))
	eval[any](p, `document.body.dataset.state = "old"`)
	p.do(chromedp.Reload())
	p.turn(`document.body.dataset.state === "ready"`)
	require.Contains(t, promised[string](p, `fetch("dom.js").then((r) => r.text())`), "// anew")
}
