// Package web builds the page: it compiles the machine for the browser, puts it
// beside the page's files, and serves them or writes them out for any host.
package web

import (
	"embed"
	"io/fs"
)

//go:embed static
var embedded embed.FS

// static holds the page's own files.
var static = func() fs.FS {
	sub, err := fs.Sub(embedded, "static")
	if err != nil {
		panic(err) // the directory is embedded above
	}
	return sub
}()

// Policy is the content security policy of every page: nothing from elsewhere,
// no inline script or style, WebAssembly allowed.
const Policy = "default-src 'self'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self'; img-src 'self' data: blob:; object-src 'none'; base-uri 'none'"

// framePolicy says who may show the page in a frame. A page cannot say it of
// itself in a meta element, so it goes in the header only.
const framePolicy = "; frame-ancestors 'self'"
