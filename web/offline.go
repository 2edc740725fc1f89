package web

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
)

// shelfFile lists, for the page's service worker, what to keep for use without
// a network. workerFile reads it, so neither is on the list.
const shelfFile, workerFile, stillFile = "shelf.js", "worker.js", "still.png"

// shelfBegin and shelfEnd stand around the list, which is a script.
const shelfBegin, shelfEnd = "self.shelf = ", ";\n"

// shelf is every file of a built page with its fingerprint, and one
// fingerprint of them all.
type shelf struct {
	Build string            `json:"build"`
	Files map[string]string `json:"files"` // SHA-256 in hexadecimal, by name
}

// writeShelf lists the files that lie in a built page.
func writeShelf(dir string) error {
	s := shelf{Files: map[string]string{}}
	all := sha256.New()
	err := fs.WalkDir(os.DirFS(dir), ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || !shelved(name) {
			return err
		}
		text, err := os.ReadFile(filepath.Join(dir, filepath.FromSlash(name)))
		if err != nil {
			return err
		}
		s.Files[name] = fingerprint(text)
		fmt.Fprintln(all, name, s.Files[name]) // in the order of the walk, which is that of the names
		return nil
	})
	if err != nil {
		return err
	}
	worker, err := os.ReadFile(filepath.Join(dir, workerFile))
	if err != nil {
		return err
	}
	all.Write(worker)
	s.Build = hex.EncodeToString(all.Sum(nil))[:16]
	text, err := json.MarshalIndent(s, "", " ")
	if err != nil {
		return err
	}
	return os.WriteFile(filepath.Join(dir, shelfFile), []byte(shelfBegin+string(text)+shelfEnd), 0o644)
}

// shelved reports whether a file of a built page is kept in the browser:
// whatever the page asks for, and no compressed copies. The still is shown
// where no machine can run, and there nothing is kept.
func shelved(name string) bool {
	return name != shelfFile && name != workerFile && name != stillFile && types[filepath.Ext(name)] != "" && !strings.HasSuffix(name, ".txt")
}

// manifest describes the page where it is installed.
type manifest struct {
	Name        string         `json:"name"`
	Short       string         `json:"short_name"`
	Description string         `json:"description"`
	ID          string         `json:"id"`
	Start       string         `json:"start_url"`
	Scope       string         `json:"scope"`
	Display     string         `json:"display"`
	Background  string         `json:"background_color"`
	Theme       string         `json:"theme_color"`
	Icons       []manifestIcon `json:"icons"`
}

type manifestIcon struct {
	Src     string `json:"src"`
	Sizes   string `json:"sizes"`
	Type    string `json:"type"`
	Purpose string `json:"purpose"`
}

const manifestFile = "riddle.webmanifest"

// writeManifest lets the page be installed, from whatever path it is served.
func writeManifest(dir string) error {
	m := manifest{
		Name: "Riddle: the flow of grain through a combine", Short: "Riddle", Description: "The flow of grain through a combine harvester, kernel by kernel.",
		ID: "./", Start: "./", Scope: "./", Display: "standalone", Background: "#F4EFE3", Theme: "#F4EFE3",
	}
	for _, i := range icons {
		m.Icons = append(m.Icons, manifestIcon{Src: i.name, Sizes: fmt.Sprintf("%dx%d", i.px, i.px), Type: "image/png", Purpose: i.purpose})
	}
	text, err := json.MarshalIndent(m, "", "  ")
	if err != nil {
		return err
	}
	return os.WriteFile(filepath.Join(dir, manifestFile), append(text, '\n'), 0o644)
}
