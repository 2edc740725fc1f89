package web

import (
	"fmt"
	"io"
	"io/fs"
	"net/http"
	"path"
	"strings"
)

// types of the files that a page holds. They are stated here since the tables
// of the host machine may lack or bend them.
var types = map[string]string{
	".html": "text/html; charset=utf-8",
	".css":  "text/css; charset=utf-8",
	".js":   "text/javascript; charset=utf-8",
	".json": "application/json",
	".wasm": "application/wasm",
	".txt":  "text/plain; charset=utf-8",
	".png":  "image/png",

	".webmanifest": "application/manifest+json",
}

// Handler serves a built page from a directory: each file under its own type,
// compressed where a compressed copy lies beside it and the browser takes it.
func Handler(dir fs.FS) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if r.Method != http.MethodGet && r.Method != http.MethodHead {
			w.Header().Set("Allow", "GET, HEAD")
			refuse(w, http.StatusMethodNotAllowed, "only GET and HEAD")
			return
		}
		name := strings.TrimPrefix(r.URL.Path, "/")
		if name == "" {
			name = "index.html"
		}
		kind, known := types[path.Ext(name)]
		if info, err := fs.Stat(dir, name); !known || err != nil || info.IsDir() { // refuses names with dots and slashes too
			refuse(w, http.StatusNotFound, "not found")
			return
		}
		setHeaders(w.Header(), name, kind)
		if e, ok := accepted(r, dir, name); ok {
			w.Header().Set("Content-Encoding", e.name)
			name += e.suffix
		}
		serveFile(w, withoutRange(r), dir, name)
	})
}

func serveFile(w http.ResponseWriter, r *http.Request, dir fs.FS, name string) {
	f, err := dir.Open(name)
	if err != nil {
		refuse(w, http.StatusNotFound, "not found")
		return
	}
	defer f.Close()
	info, err := f.Stat()
	content, ok := f.(io.ReadSeeker)
	if err != nil || !ok {
		refuse(w, http.StatusInternalServerError, "the file cannot be read")
		return
	}
	http.ServeContent(w, r, name, info.ModTime(), content)
}

// refuse answers in plain text, under the same policy as the page.
func refuse(w http.ResponseWriter, status int, why string) {
	h := w.Header()
	h.Del("Content-Encoding")
	setHeaders(h, "", types[".txt"])
	h.Set("Cache-Control", "no-store")
	w.WriteHeader(status)
	fmt.Fprintln(w, why)
}

func setHeaders(h http.Header, name, kind string) {
	h.Set("Content-Type", kind)
	h.Set("Content-Security-Policy", Policy+framePolicy)
	h.Set("X-Content-Type-Options", "nosniff")
	h.Set("Referrer-Policy", "no-referrer")
	h.Set("Vary", "Accept-Encoding")
	if path.Ext(name) == ".wasm" { // its name changes with its content
		h.Set("Cache-Control", "public, max-age=31536000, immutable")
	} else {
		h.Set("Cache-Control", "no-cache")
	}
}

// accepted returns the best encoding that the browser takes and that lies
// ready.
func accepted(r *http.Request, dir fs.FS, name string) (encoding, bool) {
	for _, e := range encodings {
		if !takes(r.Header.Get("Accept-Encoding"), e.name) {
			continue
		}
		if _, err := fs.Stat(dir, name+e.suffix); err == nil {
			return e, true
		}
	}
	return encoding{}, false
}

// takes reports whether an Accept-Encoding header names an encoding without
// refusing it.
func takes(header, name string) bool {
	for item := range strings.SplitSeq(header, ",") {
		token, weight, _ := strings.Cut(item, ";")
		if strings.TrimSpace(token) != name {
			continue
		}
		q := strings.TrimPrefix(strings.ReplaceAll(weight, " ", ""), "q=")
		return q == "" || strings.Trim(q, "0.") != ""
	}
	return false
}

// withoutRange drops a wish for a part of a file: a part of a compressed copy
// would be of no use.
func withoutRange(r *http.Request) *http.Request {
	if r.Header.Get("Range") == "" {
		return r
	}
	whole := r.Clone(r.Context())
	whole.Header.Del("Range")
	return whole
}
