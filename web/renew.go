package web

import (
	"bytes"
	"cmp"
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"

	"riddle/web/files"
)

// renew brings a directory to what lies in fresh, and leaves alone what this
// package did not write. Each file is changed at one stroke, so that there is a
// page at every moment; if one cannot be written, all is put back. It returns
// the names of files that somebody had changed by hand.
func renew(dir, fresh string) (byHand []string, err error) {
	had, err := owned(dir)
	if err != nil {
		return nil, err
	}
	next, err := takeInventory(fresh)
	if err != nil {
		return nil, err
	}
	u := updating{dir: dir, fresh: fresh, had: had.Files, next: next}
	if err := u.refuseOthers(); err != nil {
		return nil, err
	}
	if err := u.writeAll(); err != nil {
		return nil, errors.Join(err, u.putBack())
	}
	return u.byHand, errors.Join(u.removeOld(), files.Write(within(dir, inventoryFile), next.text()))
}

// updating is one update on its way.
type updating struct {
	dir, fresh string
	had        map[string]string // fingerprints of what this package wrote before, by name
	next       inventory
	byHand     []string
	back       []func() error // put back what was done, the first step first
}

// refuseOthers refuses to write over what others put under a name that the page
// needs.
func (u *updating) refuseOthers() error {
	for _, name := range slices.Sorted(maps.Keys(u.next.Files)) {
		if _, ours := u.had[name]; ours {
			continue
		}
		content, err := os.ReadFile(within(u.dir, name))
		if errors.Is(err, fs.ErrNotExist) || err == nil && fingerprint(content) == u.next.Files[name] {
			continue
		}
		return fmt.Errorf("%s is not riddle's, and the page needs that name: move it away", within(u.dir, name))
	}
	return nil
}

// writeAll writes what is new or has changed. Until all is done, old and new are
// both on the list as this package's.
func (u *updating) writeAll() error {
	both := inventory{MadeBy: madeBy, Files: maps.Clone(u.had)}
	if both.Files == nil {
		both.Files = map[string]string{}
	}
	maps.Copy(both.Files, u.next.Files)
	if err := u.put(inventoryFile, both.text()); err != nil {
		return err
	}
	for _, name := range inOrder(u.next.Files) {
		content, err := os.ReadFile(within(u.fresh, name))
		if err != nil {
			return err
		}
		if err := u.put(name, content); err != nil {
			return err
		}
	}
	return nil
}

// inOrder lists files so that each is there before another leads to it.
func inOrder(list map[string]string) []string {
	last := []string{"index.html", versionFile, workerFile, shelfFile}
	rank := func(name string) int {
		return slices.IndexFunc(last, func(l string) bool { return name == l || strings.HasPrefix(name, l+".") })
	}
	return slices.SortedFunc(maps.Keys(list), func(a, b string) int { return cmp.Or(cmp.Compare(rank(a), rank(b)), cmp.Compare(a, b)) })
}

// put writes a file of the page, unless it is so already.
func (u *updating) put(name string, content []byte) error {
	path := within(u.dir, name)
	before, err := os.ReadFile(path)
	switch {
	case err == nil && bytes.Equal(before, content):
		return nil
	case err == nil:
		if sum, ours := u.had[name]; ours && fingerprint(before) != sum {
			u.byHand = append(u.byHand, name)
		}
		u.back = append(u.back, func() error { return files.Write(path, before) })
	case errors.Is(err, fs.ErrNotExist):
		if err := u.makeDir(filepath.Dir(path)); err != nil {
			return err
		}
		u.back = append(u.back, func() error { return os.Remove(path) })
	}
	return files.Write(path, content)
}

// makeDir makes a directory as open as the page's own.
func (u *updating) makeDir(dir string) error {
	info, err := os.Stat(u.dir)
	if err != nil {
		return err
	}
	return os.MkdirAll(dir, info.Mode().Perm())
}

// putBack undoes what was done.
func (u *updating) putBack() (err error) {
	for _, undo := range slices.Backward(u.back) {
		if e := undo(); !errors.Is(e, fs.ErrNotExist) {
			err = errors.Join(err, e)
		}
	}
	for name := range u.next.Files {
		u.tidy(name)
	}
	return err
}

// removeOld removes what this package wrote and the page no longer has, unless
// somebody has changed it.
func (u *updating) removeOld() (err error) {
	for name, sum := range u.had {
		content, e := os.ReadFile(within(u.dir, name))
		if _, still := u.next.Files[name]; still || e != nil || fingerprint(content) != sum {
			continue
		}
		err = errors.Join(err, os.Remove(within(u.dir, name)))
		u.tidy(name)
	}
	return err
}

// tidy removes the directories of a file that it leaves empty.
func (u *updating) tidy(name string) {
	for d := path.Dir(name); d != "."; d = path.Dir(d) {
		if os.Remove(within(u.dir, d)) != nil { // refuses one that holds anything
			return
		}
	}
}
