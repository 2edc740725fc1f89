package web

import (
	"context"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
)

// headersFile shows the headers that a host should send.
const headersFile = "headers-sample.txt"

// Site writes the page into dir as static files that any host can serve from
// any path, with compressed copies beside them; best takes the time to
// compress hardest. It is all or nothing: dir is whole and new, or as it was.
// In a directory that it wrote before it changes its own files and no others.
func Site(ctx context.Context, dir string, best bool, out io.Writer) error {
	to, err := whereTo(dir)
	if err != nil {
		return err
	}
	if _, err := owned(to); err != nil {
		return err
	}
	tell := func(step string) { fmt.Fprintf(out, "riddle: %s\n", step) }
	byHand, err := lay(ctx, to, func(fresh string) error {
		if err := Build(ctx, fresh, tell); err != nil {
			return err
		}
		tell("compressing")
		if err := compress(ctx, fresh, best, encodings...); err != nil {
			return err
		}
		return os.WriteFile(filepath.Join(fresh, headersFile), []byte(headersSample()), 0o644)
	})
	switch {
	case ctx.Err() != nil && err != nil:
		return fmt.Errorf("stopped before the page was whole; %s is as it was", dir)
	case err != nil:
		return err
	}
	if len(byHand) > 0 {
		tell("changed by hand since, and now as riddle writes it: " + strings.Join(byHand, ", "))
	}
	tell("the page lies in " + dir)
	return nil
}

// headersSample shows the headers that a host should send, where it can be
// told.
func headersSample() string {
	return `# Headers for a host that takes them. The pages carry their content security
# policy themselves; only who may frame them has to come from the host. A school
# platform that shows the page in its own frame wants its address there too.

/*
  Content-Security-Policy: ` + Policy + framePolicy + `
  X-Content-Type-Options: nosniff
  Referrer-Policy: no-referrer
  Cache-Control: no-cache

/*.wasm
  Content-Type: application/wasm
  Cache-Control: public, max-age=31536000, immutable
`
}
