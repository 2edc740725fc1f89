package web

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
)

// Site writes the page into dir as static files that any host can serve from
// any path, with compressed copies beside them; best takes the time to
// compress hardest. It is all or nothing: dir is whole and new, or as it was.
func Site(ctx context.Context, dir string, best bool, out io.Writer) error {
	if err := mayReplace(dir); err != nil {
		return err
	}
	tell := func(step string) { fmt.Fprintf(out, "riddle: %s\n", step) }
	err := replace(dir, func(fresh string) error {
		if err := Build(ctx, fresh, tell); err != nil {
			return err
		}
		tell("compressing")
		if err := compress(fresh, best, encodings...); err != nil {
			return err
		}
		return os.WriteFile(filepath.Join(fresh, "headers-sample.txt"), []byte(headersSample()), 0o644)
	})
	if err == nil {
		tell("the page lies in " + dir)
	}
	return err
}

// mayReplace refuses a directory that holds what this package did not write.
func mayReplace(dir string) error {
	entries, err := os.ReadDir(dir)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil
	case err != nil:
		return err
	case len(entries) == 0:
		return nil
	}
	if v, err := readVersion(os.DirFS(dir)); err != nil || v.MadeBy != madeBy {
		return fmt.Errorf("%s holds files that riddle did not write: name a new or an empty directory", dir)
	}
	return nil
}

// replace fills a new directory beside dir and puts it in dir's place.
func replace(dir string, fill func(fresh string) error) error {
	dir, err := filepath.Abs(dir)
	if err != nil {
		return err
	}
	if err := os.MkdirAll(filepath.Dir(dir), 0o755); err != nil {
		return err
	}
	fresh, err := os.MkdirTemp(filepath.Dir(dir), "."+filepath.Base(dir)+"-new-")
	if err != nil {
		return err
	}
	defer os.RemoveAll(fresh)
	if err := fill(fresh); err != nil {
		return err
	}
	if err := os.Chmod(fresh, 0o755); err != nil {
		return err
	}
	return swap(fresh, dir)
}

// swap puts fresh in the place of dir; if it cannot, dir stays.
func swap(fresh, dir string) error {
	old := fresh + "-old"
	err := os.Rename(dir, old)
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	had := err == nil
	if err := os.Rename(fresh, dir); err != nil {
		if had {
			return errors.Join(err, os.Rename(old, dir))
		}
		return err
	}
	return os.RemoveAll(old)
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
