package web

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"slices"
)

// inventoryFile lists what this package wrote into a directory, so that it can
// tell its own files from those that people put there.
const inventoryFile = "riddle-files.json"

// inventory is every file of a page as it was written, but for itself.
type inventory struct {
	MadeBy string            `json:"made_by"`
	Files  map[string]string `json:"files"` // SHA-256 in hexadecimal, by name
}

func fingerprint(content []byte) string {
	sum := sha256.Sum256(content)
	return hex.EncodeToString(sum[:])
}

// takeInventory lists all files of a directory.
func takeInventory(dir string) (inventory, error) {
	list := inventory{MadeBy: madeBy, Files: map[string]string{}}
	err := fs.WalkDir(os.DirFS(dir), ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || name == inventoryFile {
			return err
		}
		content, err := os.ReadFile(within(dir, name))
		list.Files[name] = fingerprint(content)
		return err
	})
	return list, err
}

// readInventory reads the list of a directory that this package wrote.
func readInventory(dir string) (list inventory, err error) {
	text, err := os.ReadFile(within(dir, inventoryFile))
	if err != nil {
		return list, err
	}
	if err := json.Unmarshal(text, &list); err != nil {
		return list, err
	}
	for name := range list.Files {
		if !fs.ValidPath(name) {
			return list, fmt.Errorf("%s names %q, which lies outside", inventoryFile, name)
		}
	}
	if list.MadeBy != madeBy {
		return list, fmt.Errorf("%s is of another program", inventoryFile)
	}
	return list, nil
}

func (list inventory) text() []byte {
	text, err := json.MarshalIndent(list, "", " ")
	if err != nil {
		panic(err) // texts alone always make JSON
	}
	return append(text, '\n')
}

// sound reports whether every file of a directory is as it was written.
func sound(dir string) bool {
	list, err := readInventory(dir)
	if err != nil {
		return false
	}
	for name, want := range list.Files {
		if content, err := os.ReadFile(within(dir, name)); err != nil || fingerprint(content) != want {
			return false
		}
	}
	return true
}

// within is where a file of a page lies.
func within(dir, name string) string { return filepath.Join(dir, filepath.FromSlash(name)) }

// owned lists the files of a directory that this package wrote. One that holds
// only what others wrote is refused.
func owned(dir string) (inventory, error) {
	entries, err := os.ReadDir(dir)
	if errors.Is(err, fs.ErrNotExist) || err == nil && len(entries) == 0 {
		return inventory{}, nil
	}
	if err != nil {
		return inventory{}, err
	}
	if list, err := readInventory(dir); err == nil {
		return list, nil
	}
	if v, err := readVersion(os.DirFS(dir)); err == nil && v.MadeBy == madeBy {
		return withoutList(dir), nil
	}
	return inventory{}, fmt.Errorf("%s holds files that riddle did not write: name a new or an empty directory", dir)
}

// withoutList finds the files of a page that was written before there were
// lists, or that has lost its own: those on its shelf, their copies, and the few
// that no shelf names.
func withoutList(dir string) inventory {
	var s shelf
	if text, err := os.ReadFile(within(dir, shelfFile)); err == nil {
		text = bytes.TrimSuffix(bytes.TrimPrefix(text, []byte(shelfBegin)), []byte(shelfEnd))
		json.Unmarshal(text, &s) // an unreadable shelf names nothing
	}
	list := inventory{MadeBy: madeBy, Files: map[string]string{}}
	names := slices.AppendSeq([]string{shelfFile, workerFile, stillFile, versionFile, headersFile}, maps.Keys(s.Files))
	for _, name := range names {
		if !fs.ValidPath(name) {
			continue
		}
		for _, copied := range []string{name, name + ".br", name + ".gz"} {
			if content, err := os.ReadFile(within(dir, copied)); err == nil {
				list.Files[copied] = fingerprint(content)
			}
		}
	}
	return list
}
