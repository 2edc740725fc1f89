package web

import (
	"context"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// pageOf fills a directory with files.
func pageOf(files map[string]string) func(string) error {
	return func(dir string) error {
		for name, text := range files {
			if err := os.MkdirAll(filepath.Dir(within(dir, name)), 0o755); err != nil {
				return err
			}
			if err := os.WriteFile(within(dir, name), []byte(text), 0o644); err != nil {
				return err
			}
		}
		return nil
	}
}

var (
	oldPage = map[string]string{"index.html": "old", "page.js": "same", "words/en.json": "old", "old/only.js": "old", "machine-1.wasm": "old"}
	newPage = map[string]string{"index.html": "new", "page.js": "same", "words/en.json": "new", "new/only.js": "new", "machine-2.wasm": "new"}
)

func layDown(t *testing.T, dir string, files map[string]string) (byHand []string) {
	t.Helper()
	to, err := whereTo(dir)
	require.NoError(t, err)
	byHand, err = lay(context.Background(), to, pageOf(files))
	require.NoError(t, err)
	return byHand
}

// found reads all files under a directory, but for the list of them.
func found(t *testing.T, dir string) map[string]string {
	t.Helper()
	all := map[string]string{}
	require.NoError(t, filepath.WalkDir(dir, func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || d.Name() == inventoryFile {
			return err
		}
		text, err := os.ReadFile(path)
		name, _ := filepath.Rel(dir, path)
		all[filepath.ToSlash(name)] = string(text)
		return err
	}))
	return all
}

// What people put beside the page stays: a repository, a host's own files, modes
// and links.
func TestAnUpdateKeepsWhatOthersPutThere(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "real")
	layDown(t, dir, oldPage)
	require.Equal(t, oldPage, found(t, dir))
	theirs := map[string]string{".git/HEAD": "ref", ".git/objects/1": "blob", "CNAME": "tarn.example", "_headers": "/*", "old/notes.txt": "mine"}
	require.NoError(t, pageOf(theirs)(dir))
	require.NoError(t, os.Chmod(dir, 0o750))
	require.NoError(t, os.Chmod(filepath.Join(dir, "index.html"), 0o640))
	far := filepath.Join(filepath.Dir(dir), "far.json")
	require.NoError(t, os.Rename(filepath.Join(dir, "words", "en.json"), far))
	require.NoError(t, os.Symlink(far, filepath.Join(dir, "words", "en.json")))
	link := filepath.Join(filepath.Dir(dir), "link")
	require.NoError(t, os.Symlink("real", link))
	before, err := os.Stat(filepath.Join(dir, "page.js"))
	require.NoError(t, err)

	require.Empty(t, layDown(t, link, newPage))
	want := map[string]string{}
	for _, m := range []map[string]string{newPage, theirs} {
		for name, text := range m {
			want[name] = text
		}
	}
	require.Equal(t, want, found(t, dir))
	mode := func(path string) fs.FileMode {
		info, err := os.Lstat(path)
		require.NoError(t, err)
		return info.Mode()
	}
	require.Equal(t, fs.ModeDir|0o750, mode(dir))
	require.Equal(t, fs.ModeDir|0o750, mode(filepath.Join(dir, "new")), "as open as the page")
	require.Equal(t, fs.FileMode(0o640), mode(filepath.Join(dir, "index.html")))
	require.Equal(t, fs.ModeSymlink, mode(link).Type())
	require.Equal(t, fs.ModeSymlink, mode(filepath.Join(dir, "words", "en.json")).Type())
	after, err := os.Stat(filepath.Join(dir, "page.js"))
	require.NoError(t, err)
	require.True(t, os.SameFile(before, after), "what is the same is not written")
	left, err := os.ReadDir(filepath.Dir(dir))
	require.NoError(t, err)
	require.Len(t, left, 3)
}

// A link may lead to where nothing is yet.
func TestAPageIsMadeAtTheEndOfALink(t *testing.T) {
	dir := t.TempDir()
	require.NoError(t, os.Symlink("to/be/made", filepath.Join(dir, "link")))
	layDown(t, filepath.Join(dir, "link"), oldPage)
	require.Equal(t, oldPage, found(t, filepath.Join(dir, "to", "be", "made")))
}

// Nobody who looks meanwhile finds the page missing, or leading to a machine
// that is not there.
func TestThereIsAPageAtEveryMoment(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "site")
	version := func(n string) map[string]string {
		page := map[string]string{"index.html": n, versionFile: n, "machine-" + n + ".wasm": n, "machine-" + n + ".wasm.br": n}
		for _, more := range []string{"a.js", "m.js", "z.js", "words/en.json"} {
			page[more] = n
		}
		return page
	}
	layDown(t, dir, version("0"))
	stop, over := make(chan struct{}), make(chan error, 1)
	go func() {
		for {
			select {
			case <-stop:
				over <- nil
				return
			default:
			}
			if _, err := os.Stat(filepath.Join(dir, "index.html")); err != nil {
				over <- err
				return
			}
			n, err := os.ReadFile(filepath.Join(dir, versionFile))
			if err == nil {
				_, err = os.Stat(filepath.Join(dir, "machine-"+string(n)+".wasm"))
			}
			if again, _ := os.ReadFile(filepath.Join(dir, versionFile)); err != nil && string(again) == string(n) {
				over <- err
				return
			}
		}
	}()
	for i := range 20 {
		layDown(t, dir, version([]string{"0", "1"}[i%2]))
	}
	close(stop)
	require.NoError(t, <-over)
}

// What cannot be done whole is not done at all.
func TestAnUpdateIsAllOrNothing(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "site")
	broken := errors.New("no room")
	_, err := lay(context.Background(), dir, func(fresh string) error {
		return errors.Join(pageOf(newPage)(fresh), broken)
	})
	require.ErrorIs(t, err, broken)
	left, err := os.ReadDir(filepath.Dir(dir))
	require.NoError(t, err)
	require.Empty(t, left)

	layDown(t, dir, oldPage)
	ctx, cancel := context.WithCancel(context.Background())
	_, err = lay(ctx, dir, func(fresh string) error { cancel(); return pageOf(newPage)(fresh) })
	require.ErrorIs(t, err, context.Canceled)
	require.Equal(t, oldPage, found(t, dir))

	// A directory stands where the last file is to go.
	blocked := map[string]string{shelfFile: "new"}
	for name, text := range newPage {
		blocked[name] = text
	}
	require.NoError(t, os.Mkdir(filepath.Join(dir, shelfFile), 0o755))
	before, err := os.ReadFile(filepath.Join(dir, inventoryFile))
	require.NoError(t, err)
	_, err = lay(context.Background(), dir, pageOf(blocked))
	require.Error(t, err)
	require.Equal(t, oldPage, found(t, dir))
	after, err := os.ReadFile(filepath.Join(dir, inventoryFile))
	require.NoError(t, err)
	require.Equal(t, string(before), string(after))
	require.NoDirExists(t, filepath.Join(dir, "new"))

	// So does an error half way.
	u := updating{dir: dir, had: map[string]string{}, next: inventory{Files: newPage}}
	require.NoError(t, u.put("index.html", []byte("new")))
	require.NoError(t, u.put("new/only.js", []byte("new")))
	require.NoError(t, u.putBack())
	require.Equal(t, oldPage, found(t, dir))
	require.NoDirExists(t, filepath.Join(dir, "new"))
}

// A file of somebody else's is not written over, and a hand's change is told of.
func TestAnUpdateWritesOverItsOwnFilesOnly(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "site")
	layDown(t, dir, oldPage)
	require.NoError(t, pageOf(map[string]string{"new/only.js": "mine"})(dir))
	_, err := lay(context.Background(), dir, pageOf(newPage))
	require.ErrorContains(t, err, filepath.Join("new", "only.js"))
	require.Equal(t, "old", found(t, dir)["index.html"])

	require.NoError(t, os.RemoveAll(filepath.Join(dir, "new")))
	require.NoError(t, pageOf(map[string]string{"index.html": "by hand", "old/only.js": "by hand"})(dir))
	require.Equal(t, []string{"index.html"}, layDown(t, dir, newPage))
	got := found(t, dir)
	require.Equal(t, "new", got["index.html"])
	require.Equal(t, "by hand", got["old/only.js"], "what the page no longer has is not removed if somebody changed it")
}

// A page from before there were lists is known by its shelf.
func TestAPageWithoutAListIsKnownByItsShelf(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "site")
	old := map[string]string{"index.html": "old", "index.html.gz": "old", "machine-1.wasm": "old", "machine-1.wasm.br": "old", workerFile: "old"}
	require.NoError(t, pageOf(old)(dir))
	require.NoError(t, os.WriteFile(filepath.Join(dir, versionFile), []byte(`{"made_by":"riddle site"}`), 0o644))
	require.NoError(t, writeShelf(dir))
	require.NoError(t, pageOf(map[string]string{".git/HEAD": "ref", "CNAME": "tarn.example"})(dir))
	layDown(t, dir, newPage)
	got := found(t, dir)
	require.Equal(t, "ref", got[".git/HEAD"])
	require.Equal(t, "tarn.example", got["CNAME"])
	require.Equal(t, "new", got["index.html"])
	require.NotContains(t, got, "machine-1.wasm")
	require.NotContains(t, got, "machine-1.wasm.br")
}

// No list leads out of the directory.
func TestAListStaysInItsDirectory(t *testing.T) {
	dir := t.TempDir()
	require.NoError(t, pageOf(map[string]string{"site/" + inventoryFile: `{"made_by":"riddle site","files":{"../thesis.txt":"` + fingerprint([]byte("years")) + `"}}`, "thesis.txt": "years"})(dir))
	_, err := lay(context.Background(), filepath.Join(dir, "site"), pageOf(newPage))
	require.Error(t, err)
	require.FileExists(t, filepath.Join(dir, "thesis.txt"))
}

// Half-built pages that were left behind go with the next build; one that
// somebody is at does not.
func TestHalfBuiltPagesAreRemoved(t *testing.T) {
	base := t.TempDir()
	require.NoError(t, pageOf(map[string]string{".site-new-123/machine.wasm": "half", ".other-new-123/index.html": "half", ".site-new-mine/x": "mine", "site-new-1/x": "mine"})(base))
	layDown(t, filepath.Join(base, "site"), oldPage)
	left := func() (names []string) {
		entries, err := os.ReadDir(base)
		require.NoError(t, err)
		for _, e := range entries {
			names = append(names, e.Name())
		}
		return names
	}
	require.Equal(t, []string{".other-new-123", ".site-new-mine", "site", "site-new-1"}, left())

	inside, goOn := make(chan struct{}), make(chan struct{})
	first := make(chan error, 1)
	go func() {
		_, err := lay(context.Background(), filepath.Join(base, "site"), func(fresh string) error {
			close(inside)
			<-goOn
			return pageOf(newPage)(fresh)
		})
		first <- err
	}()
	<-inside
	second := make(chan error, 1)
	go func() {
		_, err := lay(context.Background(), filepath.Join(base, "site"), pageOf(oldPage))
		second <- err
	}()
	select {
	case err := <-second:
		t.Fatal("it does not wait for the first", err)
	case <-time.After(500 * time.Millisecond):
	}
	require.True(t, slices.ContainsFunc(left(), func(n string) bool { return halfBuilt.MatchString(n) && n != ".other-new-123" }))
	close(goOn)
	require.NoError(t, <-first)
	require.NoError(t, <-second)
	require.Equal(t, oldPage, found(t, filepath.Join(base, "site")))
}

// A page in the cache that is damaged is built again, and one that is sound is
// not.
func TestTheCacheHeals(t *testing.T) {
	base := t.TempDir()
	dir := filepath.Join(base, "0123456789abcdef")
	builds := 0
	see := func() {
		t.Helper()
		require.NoError(t, inCache(context.Background(), dir, func(string) {}, func(fresh string) error {
			builds++
			return pageOf(oldPage)(fresh)
		}))
		require.Equal(t, oldPage, found(t, dir))
	}
	see()
	see()
	require.Equal(t, 1, builds)
	for i, damage := range []func() error{
		func() error { return os.WriteFile(filepath.Join(dir, "machine-1.wasm"), []byte("olD"), 0o644) },
		func() error { return os.Truncate(filepath.Join(dir, "index.html"), 0) },
		func() error { return os.Remove(filepath.Join(dir, "words", "en.json")) },
		func() error { return os.WriteFile(filepath.Join(dir, inventoryFile), []byte("{"), 0o644) },
		func() error { return os.Remove(filepath.Join(dir, inventoryFile)) },
	} {
		require.NoError(t, damage())
		see()
		require.Equal(t, i+2, builds)
	}
	require.NoError(t, pageOf(map[string]string{".fedcba9876543210-new-77/machine.wasm": "half"})(base))
	see()
	left, err := os.ReadDir(base)
	require.NoError(t, err)
	require.Len(t, left, 1, "half-built pages of other versions go too")
}
