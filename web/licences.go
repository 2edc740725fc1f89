package web

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"html/template"
	"io"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"
)

// licencesFile is the page with the licences of all that the page is built with
// and hands on. It is a template, filled when the page is built.
const licencesFile = "licences.html"

// work is something of others that the page hands on, with the terms of that.
type work struct {
	Name, Version string
	Files         []terms
}

// terms are a licence or a notice, as it came with the work.
type terms struct{ Name, Text string }

// grant is one set of terms, and the works that came with it, word for word.
type grant struct {
	Works []work
	Files []terms
}

// termsOf are the names under which works keep their terms.
var termsOf = []string{"LICENSE*", "LICENCE*", "COPYING*", "NOTICE*", "PATENTS*"}

// apart are works within a module that keep their terms elsewhere in it: the
// packages under a path, and the file.
var apart = []struct{ name, under, file string }{
	{"Go fonts", "golang.org/x/image/font/gofont/", "font/gofont/ttfs/README"},
}

// used is a package of the compiled machine, as the toolchain lists it.
type used struct {
	ImportPath string
	Dir        string
	Module     *struct {
		Path, Version, Dir string
		Main               bool
	}
}

// writeLicences fills the page of the licences, which lies in dir already.
func writeLicences(ctx context.Context, root, goroot, dir string) error {
	cmd := toolchain(ctx, "list", "-deps", "-json=ImportPath,Dir,Module", "./cmd/riddleweb")
	cmd.Dir = root
	cmd.Env = append(os.Environ(), "GOOS=js", "GOARCH=wasm")
	list, err := cmd.Output()
	if err != nil {
		return fmt.Errorf("listing what the machine is built with: %w", err)
	}
	works, err := worksOf(bytes.NewReader(list))
	if err != nil {
		return err
	}
	language, err := languageWork(goroot)
	if err != nil {
		return err
	}
	page, err := template.ParseFiles(within(dir, licencesFile))
	if err != nil {
		return err
	}
	var text bytes.Buffer
	if err := page.Execute(&text, grants(append([]work{language}, works...))); err != nil {
		return err
	}
	return os.WriteFile(within(dir, licencesFile), text.Bytes(), 0o644)
}

// languageWork is Go itself: its runtime and standard library in the machine,
// and the script that starts them.
func languageWork(goroot string) (work, error) {
	w := work{Name: "Go, its runtime and standard library"}
	version, err := os.ReadFile(filepath.Join(goroot, "VERSION"))
	if err != nil {
		return w, err
	}
	w.Version, _, _ = strings.Cut(string(version), "\n")
	return w, w.take(goroot, goroot)
}

// worksOf reads the modules of others from the toolchain's list of packages.
func worksOf(list io.Reader) ([]work, error) {
	var works []work
	find := func(name, version string) *work {
		for i := range works {
			if works[i].Name == name {
				return &works[i]
			}
		}
		works = append(works, work{Name: name, Version: version})
		return &works[len(works)-1]
	}
	for d := json.NewDecoder(list); ; {
		var p used
		switch err := d.Decode(&p); {
		case errors.Is(err, io.EOF):
			return works, complete(works)
		case err != nil:
			return nil, err
		}
		m := p.Module
		if m == nil || m.Main {
			continue
		}
		if err := find(m.Path, m.Version).take(m.Dir, p.Dir); err != nil {
			return nil, err
		}
		for _, a := range apart {
			if strings.HasPrefix(p.ImportPath, a.under) {
				if err := find(a.name, m.Path+" "+m.Version).add(m.Dir, within(m.Dir, a.file)); err != nil {
					return nil, err
				}
			}
		}
	}
}

// complete refuses a work without terms: it could not be handed on.
func complete(works []work) error {
	for _, w := range works {
		if !slices.ContainsFunc(w.Files, func(t terms) bool {
			return strings.Contains(t.Text, "Copyright") || strings.Contains(t.Text, "License")
		}) {
			return fmt.Errorf("%s %s comes without a licence, so the page cannot hand it on", w.Name, w.Version)
		}
	}
	return nil
}

// take adds the terms that lie in a directory of a module and in those above it.
func (w *work) take(root, dir string) error {
	for ; ; dir = filepath.Dir(dir) {
		for _, pattern := range termsOf {
			found, err := filepath.Glob(filepath.Join(dir, pattern))
			if err != nil {
				return err
			}
			for _, file := range found {
				if info, err := os.Stat(file); err != nil || !info.Mode().IsRegular() || path.Ext(file) == ".go" {
					continue
				}
				if err := w.add(root, file); err != nil {
					return err
				}
			}
		}
		if dir == root || !strings.HasPrefix(dir, root) {
			return nil
		}
	}
}

// add takes a file of a module in, once.
func (w *work) add(root, file string) error {
	name, err := filepath.Rel(root, file)
	if err != nil {
		return err
	}
	if slices.ContainsFunc(w.Files, func(t terms) bool { return t.Name == filepath.ToSlash(name) }) {
		return nil
	}
	text, err := os.ReadFile(file)
	if errors.Is(err, fs.ErrNotExist) {
		return fmt.Errorf("the licence of %s is not where it was: %s", w.Name, file)
	}
	w.Files = append(w.Files, terms{filepath.ToSlash(name), string(bytes.TrimSpace(text))})
	return err
}

// grants puts works together that came with the same words.
func grants(works []work) (list []grant) {
	for _, w := range works {
		i := slices.IndexFunc(list, func(g grant) bool { return slices.Equal(g.Files, w.Files) })
		if i < 0 {
			list = append(list, grant{Files: w.Files})
			i = len(list) - 1
		}
		list[i].Works = append(list[i].Works, w)
	}
	return list
}
