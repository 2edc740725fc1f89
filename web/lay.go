package web

import (
	"context"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"time"

	"github.com/gofrs/flock"

	"riddle/web/files"
)

// lay fills a new directory and brings dir to what lies there. It is all or
// nothing: dir is whole and new, or as it was. It returns the names of files
// that somebody had changed by hand.
func lay(ctx context.Context, dir string, fill func(fresh string) error) (byHand []string, err error) {
	beside := filepath.Dir(dir)
	if err := os.MkdirAll(beside, 0o755); err != nil {
		return nil, err
	}
	done := alone(ctx, beside, filepath.Base(dir))
	defer done()
	fresh, err := os.MkdirTemp(beside, "."+filepath.Base(dir)+"-new-")
	if errors.Is(err, fs.ErrPermission) {
		fresh, err = os.MkdirTemp("", "riddle-new-")
	}
	if err != nil {
		return nil, err
	}
	defer os.RemoveAll(fresh)
	if err := fill(fresh); err != nil {
		return nil, err
	}
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	if _, err := os.Stat(dir); errors.Is(err, fs.ErrNotExist) {
		if err := moveIn(fresh, dir); err == nil {
			return nil, nil
		}
		if err := os.Mkdir(dir, 0o755); err != nil {
			return nil, err
		}
	}
	return renew(dir, fresh)
}

// moveIn makes a filled directory the page's, at one stroke.
func moveIn(fresh, dir string) error {
	list, err := takeInventory(fresh)
	if err != nil {
		return err
	}
	if err := os.WriteFile(within(fresh, inventoryFile), list.text(), 0o644); err != nil {
		return err
	}
	if err := os.Chmod(fresh, 0o755); err != nil {
		return err
	}
	return os.Rename(fresh, dir)
}

// whereTo is where a directory lies, or would lie, links followed.
func whereTo(dir string) (string, error) {
	dir, err := filepath.Abs(dir)
	if err != nil {
		return "", err
	}
	return files.Resolve(dir)
}

// abandoned is the age at which a half-built page is taken for left behind,
// where nothing tells whether somebody is still at it.
const abandoned = time.Hour

// alone waits until nobody else builds in a directory, and removes what builds
// of the page of that name left there when they were broken off. Others wait
// until done is called.
func alone(ctx context.Context, dir, name string) (done func()) {
	lock := lockOf(dir)
	got, err := lock.TryLockContext(ctx, 200*time.Millisecond)
	sweep(dir, name, err == nil && got)
	return func() { lock.Unlock() }
}

// lockOf is the lock of those who build in a directory. It is on the directory
// itself, so that it leaves nothing behind and ends with whoever holds it.
func lockOf(dir string) *flock.Flock { return flock.New(dir, flock.SetFlag(os.O_RDONLY)) }

// sweepCache removes every half-built page from the cache, unless somebody is at
// one.
func sweepCache(base string) {
	lock := lockOf(base)
	got, err := lock.TryLock()
	if err == nil && !got {
		return
	}
	sweep(base, "", got)
	lock.Unlock()
}

// halfBuilt is the name of a directory in which a page is built.
var halfBuilt = regexp.MustCompile(`^\.(.+)-new-\d+$`)

// sweep removes half-built pages of a name, or of any if it is empty: all of
// them, or those that are old.
func sweep(dir, name string, all bool) {
	entries, err := os.ReadDir(dir)
	if err != nil {
		return
	}
	for _, e := range entries {
		of := halfBuilt.FindStringSubmatch(e.Name())
		if of == nil || !e.IsDir() || name != "" && of[1] != name {
			continue
		}
		if info, err := e.Info(); all || err == nil && time.Since(info.ModTime()) > abandoned {
			os.RemoveAll(filepath.Join(dir, e.Name()))
		}
	}
}
