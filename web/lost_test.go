//go:build !js

package web_test

import (
	"net/http"
	"net/http/httptest"
	"os"
	"path"
	"path/filepath"
	"strings"
	"sync/atomic"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/require"

	"riddle/web"
)

// lossy serves the page but for one file, which is missing, comes half, or never
// comes.
type lossy struct {
	page http.Handler
	dir  string
	lost atomic.Value // name of the file, a string
	how  string
}

func (l *lossy) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	name := strings.TrimPrefix(r.URL.Path, "/")
	if name != l.lost.Load() {
		l.page.ServeHTTP(w, r)
		return
	}
	switch l.how {
	case "half":
		text, err := os.ReadFile(filepath.Join(l.dir, filepath.FromSlash(name)))
		if err != nil {
			panic(err)
		}
		kinds := map[string]string{".js": "text/javascript", ".json": "application/json", ".html": "text/html", ".wasm": "application/wasm"}
		w.Header().Set("Content-Type", kinds[filepath.Ext(name)])
		w.Header().Set("Cache-Control", "no-store")
		w.Write(text[:len(text)/2])
	case "never":
		<-r.Context().Done()
	default:
		http.NotFound(w, r)
	}
}

// losing shows the page in a browser without one of its files.
func losing(t *testing.T, name, how, query string) (*tab, *lossy) {
	t.Helper()
	findBrowser(t)
	dir, err := built()
	require.NoError(t, err)
	l := &lossy{page: web.Handler(os.DirFS(dir)), dir: dir, how: how}
	l.lost.Store(name)
	server := httptest.NewServer(l)
	t.Cleanup(server.Close)
	t.Cleanup(server.CloseClientConnections)
	p := newTab(t, 1280, 800)
	if how == "never" { // a tab does not wait for what never comes
		go chromedp.Do(p.ctx, chromedp.Navigate(server.URL+"/"+query))
		return p, l
	}
	p.do(chromedp.Navigate(server.URL + "/" + query))
	return p, l
}

// machineFile is the name of the compiled machine.
func machineFile(t *testing.T) string {
	t.Helper()
	findBrowser(t)
	dir, err := built()
	require.NoError(t, err)
	names, err := filepath.Glob(filepath.Join(dir, "machine-*.wasm"))
	require.NoError(t, err)
	require.Len(t, names, 1)
	return filepath.Base(names[0])
}

const visible = `[...document.querySelectorAll("#guard a, #retry")].find((e) => e.checkVisibility({ visibilityProperty: true }))`

// Whatever does not arrive, the page says so in words that it has, and a second
// try brings it.
func TestAPageThatLacksAFileSaysSoAndTriesAgain(t *testing.T) {
	lacks := [][2]string{
		{"words/en.json", "missing"}, {"words/en.json", "half"}, {"page.js", "missing"}, {"dom.js", "missing"}, {"dom.js", "half"}, {"frame.html", "missing"},
		{"frame.js", "missing"}, {"view.js", "half"}, {"wasm_exec.js", "missing"}, {"start.js", "missing"}, {"first.js", "missing"}, {"style.css", "missing"},
		{"version.json", "half"}, {machineFile(t), "half"}, {"readings.js", "never"},
	}
	if testing.Short() {
		lacks = lacks[:1]
	}
	for _, c := range lacks {
		t.Run(c[0]+" "+c[1], func(t *testing.T) {
			p, l := losing(t, c[0], c[1], "")
			p.turn(visible + ` !== undefined`)
			text := eval[string](p, visible+`.parentElement.innerText`)
			t.Log(text)
			require.Regexp(t, "not arrive|could not be loaded|not have arrived", text)
			if c[0] != "first.js" && c[1] != "never" { // the one is who would tell, the other may still come
				require.Contains(t, text, path.Base(c[0]), "it says which")
			}
			l.lost.Store("nothing")
			eval[any](p, visible+`.click()`)
			p.turn(`document.body.dataset.state === "ready" && ` + visible + ` === undefined`)
		})
	}
}

// A language whose words do not come leaves the page in English, or in the one
// that it speaks, and is not remembered.
func TestALanguageThatDoesNotComeIsNotKept(t *testing.T) {
	p, l := losing(t, "words/de.json", "missing", "?lang=de")
	p.wait(`document.body.dataset.state === "ready"`)
	require.Equal(t, "en", eval[string](p, `document.documentElement.lang + document.getElementById("language").value.slice(2)`))
	require.Contains(t, eval[string](p, `document.getElementById("wrong").innerText`), "Deutsch could not be loaded")

	p.choose("language", "fr")
	p.wait(`document.documentElement.lang === "fr" && document.getElementById("wrong").hidden`)
	p.choose("language", "de")
	p.wait(`!document.getElementById("wrong").hidden`)
	require.Equal(t, []string{"fr", "fr", "fr"}, eval[[]string](p, `[document.documentElement.lang, document.getElementById("language").value, localStorage.getItem("riddle.language")]`))

	l.lost.Store("nothing")
	p.choose("language", "de")
	p.wait(`document.documentElement.lang === "de" && document.getElementById("wrong").hidden`)
	require.Equal(t, "de", eval[string](p, `localStorage.getItem("riddle.language")`))
}

// Without English a page speaks the language that was asked for, whose words are
// all there.
func TestALanguageNeedsNoEnglish(t *testing.T) {
	p, _ := losing(t, "words/en.json", "missing", "?lang=de")
	p.wait(`document.body.dataset.state === "ready"`)
	require.Equal(t, "de", eval[string](p, `document.documentElement.lang`))
}
