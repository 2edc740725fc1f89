package web

import (
	"compress/gzip"
	"context"
	"io"
	"io/fs"
	"net"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"github.com/andybalholm/brotli"
	"github.com/stretchr/testify/require"

	"riddle/sim/setup"
	"riddle/web/bridge"
)

// get asks a handler for a path and returns the answer.
func get(t *testing.T, h http.Handler, path, encodings string) *http.Response {
	t.Helper()
	r := httptest.NewRequest(http.MethodGet, "/", nil)
	r.URL.Path = path
	r.Header.Set("Accept-Encoding", encodings)
	w := httptest.NewRecorder()
	h.ServeHTTP(w, r)
	return w.Result()
}

func page() fs.FS {
	return fstest.MapFS{
		"index.html": {Data: []byte("<p>page")}, "index.html.gz": {Data: []byte("packed")}, "a.wasm": {Data: []byte("code")},
		"a.wasm.br": {Data: []byte("smallest")}, "a.wasm.gz": {Data: []byte("small")}, "secret.key": {Data: []byte("no")},
	}
}

func TestFilesComeUnderTheirOwnType(t *testing.T) {
	h := Handler(page())
	for path, want := range map[string]string{"/": "text/html; charset=utf-8", "/index.html": "text/html; charset=utf-8", "/a.wasm": "application/wasm"} {
		for _, encoding := range []string{"", "gzip", "br, gzip"} {
			r := get(t, h, path, encoding)
			require.Equal(t, http.StatusOK, r.StatusCode, path)
			require.Equal(t, want, r.Header.Get("Content-Type"))
			require.Equal(t, "nosniff", r.Header.Get("X-Content-Type-Options"))
		}
	}
}

func TestEveryPageSendsThePolicy(t *testing.T) {
	answers := map[string]*http.Response{}
	for _, path := range []string{"/", "/index.html", "/a.wasm", "/none", "/none.html"} {
		answers[path] = get(t, Handler(page()), path, "gzip")
	}
	w := httptest.NewRecorder()
	Handler(page()).ServeHTTP(w, httptest.NewRequest(http.MethodPost, "/", nil))
	answers["POST"] = w.Result()
	require.Equal(t, "GET, HEAD", answers["POST"].Header.Get("Allow"))
	for path, r := range answers {
		require.Equal(t, "nosniff", r.Header.Get("X-Content-Type-Options"), path)
		require.Equal(t, "no-referrer", r.Header.Get("Referrer-Policy"), path)
		if r.StatusCode != http.StatusOK {
			require.Equal(t, "no-store", r.Header.Get("Cache-Control"), path)
			require.Equal(t, "text/plain; charset=utf-8", r.Header.Get("Content-Type"), path)
		}
		policy := r.Header.Get("Content-Security-Policy")
		for _, must := range []string{"default-src 'self'", "script-src 'self' 'wasm-unsafe-eval'", "style-src 'self'", "object-src 'none'", "base-uri 'none'", "frame-ancestors 'self'"} {
			require.Contains(t, policy, must)
		}
		require.NotContains(t, policy, "unsafe-inline")
		require.NotContains(t, policy, "'unsafe-eval'")
	}
}

func TestBrowserGetsTheEncodingThatItTakes(t *testing.T) {
	for _, c := range []struct{ path, accept, encoding, body string }{
		{"/a.wasm", "gzip, deflate, br", "br", "smallest"}, {"/a.wasm", "gzip", "gzip", "small"}, {"/a.wasm", "", "", "code"},
		{"/a.wasm", "br;q=0, gzip;q=0.5", "gzip", "small"}, {"/a.wasm", "br;q=0.0", "", "code"}, {"/", "br", "", "<p>page"}, {"/", "br, gzip", "gzip", "packed"},
	} {
		r := get(t, Handler(page()), c.path, c.accept)
		body, err := io.ReadAll(r.Body)
		require.NoError(t, err)
		require.Equal(t, c.encoding, r.Header.Get("Content-Encoding"), "%v", c)
		require.Equal(t, c.body, string(body), "%v", c)
		require.Equal(t, "Accept-Encoding", r.Header.Get("Vary"))
	}
}

func TestOnlyThePageIsServed(t *testing.T) {
	for _, path := range []string{"/secret.key", "/../go.mod", "/..%2f", "/none.html", "/a.wasm/", "/index.html.gz"} {
		require.Equal(t, http.StatusNotFound, get(t, Handler(page()), path, "").StatusCode, path)
	}
	w := httptest.NewRecorder()
	Handler(page()).ServeHTTP(w, httptest.NewRequest(http.MethodPost, "/", nil))
	require.Equal(t, http.StatusMethodNotAllowed, w.Code)
}

var inline = regexp.MustCompile(`(?i)<style|\sstyle\s*=|\son[a-z]+\s*=|javascript:|<script(?:[^>]*)>[^<]`)

// What the policy forbids is not there, and pages on hosts that send no
// headers carry the policy themselves.
func TestPagesKeepThePolicy(t *testing.T) {
	for _, name := range []string{"index.html", "frame.html"} {
		text, err := fs.ReadFile(static, name)
		require.NoError(t, err)
		require.Contains(t, string(text), `<meta http-equiv="Content-Security-Policy" content="`+Policy+`">`)
		require.Empty(t, inline.FindAllString(string(text), -1), name)
		require.NotContains(t, string(text), "://", "something would be fetched from elsewhere")
	}
	scripts, err := fs.Glob(static, "*.js")
	require.NoError(t, err)
	for _, name := range scripts {
		text, err := fs.ReadFile(static, name)
		require.NoError(t, err)
		for _, bad := range []string{"eval(", "innerHTML", "new Function", "document.write"} {
			require.NotContains(t, string(text), bad, name)
		}
	}
}

// The page's script shows and sends; what it knows of the trade would be here.
func TestScriptKnowsNothingOfTheTrade(t *testing.T) {
	scripts, err := fs.Glob(static, "*.js")
	require.NoError(t, err)
	trade := regexp.MustCompile(`(?i)wheat|soybean|corn\b|cylinder|concave|walker|sieve|\brpm\b|kg/ha|km/h|t/ha`)
	for _, name := range scripts {
		text, err := fs.ReadFile(static, name)
		require.NoError(t, err)
		require.Empty(t, trade.FindAllString(string(text), -1), name)
	}
}

// Nor does it name a setting or condition: what is to be said or done of one comes
// from the machine.
func TestScriptNamesNoSetting(t *testing.T) {
	scripts, err := fs.Glob(static, "*.js")
	require.NoError(t, err)
	for _, name := range scripts {
		text, err := fs.ReadFile(static, name)
		require.NoError(t, err)
		for i := range setup.Fields {
			f := regexp.QuoteMeta(setup.Fields[i].Name)
			require.NotRegexp(t, "[\"'`.]"+f+"[\"'`]", string(text), name)
		}
	}
}

var sent = regexp.MustCompile(`(?:\bask\(|\bdo: )"([a-z.-]+)"`)

// Whatever the script sends is a message that the machine knows.
func TestScriptSendsKnownMessages(t *testing.T) {
	scripts, err := fs.Glob(static, "*.js")
	require.NoError(t, err)
	n := 0
	for _, name := range scripts {
		text, err := fs.ReadFile(static, name)
		require.NoError(t, err)
		for _, m := range sent.FindAllStringSubmatch(string(text), -1) {
			kind := m[1]
			if name == "pair.js" && !strings.Contains(kind, ".") && !slices.Contains(bridge.Kinds(), kind) {
				kind = "pair." + kind // as its own ask has it
			}
			require.Contains(t, bridge.Kinds(), kind, name)
			n++
		}
	}
	require.Greater(t, n, 30)
}

func TestSiteTouchesNoDirectoryOfOthers(t *testing.T) {
	dir := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(dir, "thesis.txt"), []byte("years"), 0o644))
	err := Site(context.Background(), dir, false, io.Discard)
	require.ErrorContains(t, err, dir)
	got, err := os.ReadFile(filepath.Join(dir, "thesis.txt"))
	require.NoError(t, err)
	require.Equal(t, "years", string(got))
}

func TestSiteHoldsThePageAndItsCompressedCopies(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "a", "site")
	require.NoError(t, Site(context.Background(), dir, false, io.Discard))
	v, err := readVersion(os.DirFS(dir))
	require.NoError(t, err)
	wasm, err := os.ReadFile(filepath.Join(dir, v.Wasm))
	require.NoError(t, err)
	require.EqualValues(t, len(wasm), v.Size)
	require.Equal(t, "\x00asm", string(wasm[:4]))
	for _, name := range []string{"index.html", "page.js", "style.css", "frame.html", "wasm_exec.js", "words/en.json", v.Wasm} {
		plain, err := os.ReadFile(filepath.Join(dir, name))
		require.NoError(t, err)
		require.Equal(t, plain, unpack(t, filepath.Join(dir, name+".gz"), func(r io.Reader) (io.Reader, error) { return gzip.NewReader(r) }))
		require.Equal(t, plain, unpack(t, filepath.Join(dir, name+".br"), func(r io.Reader) (io.Reader, error) { return brotli.NewReader(r), nil }))
	}
	sample, err := os.ReadFile(filepath.Join(dir, "headers-sample.txt"))
	require.NoError(t, err)
	require.Contains(t, string(sample), Policy+framePolicy)
	require.True(t, sound(dir), "it is as its list has it")
}

func unpack(t *testing.T, name string, open func(io.Reader) (io.Reader, error)) []byte {
	t.Helper()
	f, err := os.Open(name)
	require.NoError(t, err)
	defer f.Close()
	r, err := open(f)
	require.NoError(t, err)
	text, err := io.ReadAll(r)
	require.NoError(t, err)
	return text
}

func TestSourcesAreFoundFromWithinOnly(t *testing.T) {
	root, err := findSource()
	require.NoError(t, err)
	require.FileExists(t, filepath.Join(root, "cmd", "riddleweb", "main.go"))
	t.Chdir(t.TempDir())
	_, err = findSource()
	require.ErrorContains(t, err, "inside a clone")
	require.NotContains(t, err.Error(), "\n")
}

// A page that is open to the network says so, and the address that it gives for
// this computer is one that a browser can open.
func TestServeTellsWhoCanReachIt(t *testing.T) {
	own := func() ([]net.Addr, error) {
		return []net.Addr{
			&net.IPNet{IP: net.IPv4(127, 0, 0, 1)}, &net.IPNet{IP: net.IPv4(192, 168, 4, 7)}, &net.IPNet{IP: net.ParseIP("fe80::1")}, &net.IPNet{IP: net.ParseIP("fd00::7")},
		}, nil
	}
	for _, c := range []struct {
		ip, here string
		others   []string
	}{
		{"127.0.0.1", "http://127.0.0.1:80/", nil},
		{"::1", "http://[::1]:80/", nil},
		{"192.168.4.7", "http://192.168.4.7:80/", []string{"http://192.168.4.7:80/"}},
		{"0.0.0.0", "http://127.0.0.1:80/", []string{"http://192.168.4.7:80/", "http://[fd00::7]:80/"}},
		{"::", "http://127.0.0.1:80/", []string{"http://192.168.4.7:80/", "http://[fd00::7]:80/"}},
	} {
		here, others := addresses(&net.TCPAddr{IP: net.ParseIP(c.ip), Port: 80}, own)
		require.Equal(t, c.here, here, c.ip)
		require.Equal(t, c.others, others, c.ip)
	}
	for _, address := range []string{":0", "0.0.0.0:0", "[::]:0"} {
		listener, err := net.Listen("tcp", address)
		require.NoError(t, err)
		here, others := addresses(listener.Addr(), net.InterfaceAddrs)
		require.NotNil(t, others)
		go func() {
			if c, err := listener.Accept(); err == nil {
				c.Close()
			}
		}()
		c, err := net.Dial("tcp", strings.Trim(strings.TrimPrefix(here, "http:"), "/"))
		require.NoError(t, err, address)
		require.NoError(t, c.Close())
		require.NoError(t, listener.Close())
	}
}

func TestServeTellsABusyAddressAndStopsWhenTold(t *testing.T) {
	busy, err := net.Listen("tcp", "127.0.0.1:0")
	require.NoError(t, err)
	defer busy.Close()
	require.ErrorContains(t, Serve(context.Background(), busy.Addr().String(), false, io.Discard), busy.Addr().String())

	free, err := net.Listen("tcp", "127.0.0.1:0")
	require.NoError(t, err)
	ctx, cancel := context.WithCancel(context.Background())
	over := make(chan error, 1)
	go func() { over <- serve(ctx, free, Handler(page())) }()
	r, err := (&http.Client{Transport: &http.Transport{DisableCompression: true}}).Get("http://" + free.Addr().String())
	require.NoError(t, err)
	text, err := io.ReadAll(r.Body)
	require.NoError(t, err)
	require.NoError(t, r.Body.Close())
	require.True(t, strings.HasPrefix(string(text), "<p>"))
	cancel()
	select {
	case err := <-over:
		require.NoError(t, err)
	case <-time.After(10 * time.Second):
		t.Fatal("it does not stop")
	}
}

func TestCacheKeepsTheLatestPagesAndNothingElseIsTouched(t *testing.T) {
	base := t.TempDir()
	for i, name := range []string{"a", "b", "c", "d", "e"} {
		dir := filepath.Join(base, name)
		require.NoError(t, os.Mkdir(dir, 0o755))
		require.NoError(t, os.WriteFile(filepath.Join(dir, versionFile), []byte(`{"made_by":"riddle site"}`), 0o644))
		when := time.Now().Add(time.Duration(i-10) * time.Hour)
		require.NoError(t, os.Chtimes(dir, when, when))
	}
	other := filepath.Join(base, "0-other")
	require.NoError(t, os.Mkdir(other, 0o755))
	prune(base)
	left, err := filepath.Glob(filepath.Join(base, "*"))
	require.NoError(t, err)
	require.Equal(t, []string{other, filepath.Join(base, "c"), filepath.Join(base, "d"), filepath.Join(base, "e")}, left)
}
