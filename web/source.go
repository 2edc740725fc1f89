package web

import (
	"bufio"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
)

// modulePath is the name of this module.
const modulePath = "riddle"

// findSource returns the root of the module's sources: the working directory
// or the nearest one above it that holds the module.
func findSource() (string, error) {
	from, err := os.Getwd()
	if err != nil {
		return "", err
	}
	for dir := from; ; {
		if isModule(filepath.Join(dir, "go.mod")) {
			return dir, nil
		}
		up := filepath.Dir(dir)
		if up == dir {
			return "", fmt.Errorf("the page is compiled from Riddle's sources, and %s does not lie in them: run the command inside a clone of the repository", from)
		}
		dir = up
	}
}

func isModule(file string) bool {
	f, err := os.Open(file)
	if err != nil {
		return false
	}
	defer f.Close()
	for lines := bufio.NewScanner(f); lines.Scan(); {
		if name, ok := strings.CutPrefix(lines.Text(), "module "); ok {
			return strings.TrimSpace(name) == modulePath
		}
	}
	return false
}

// sourceParts are the files and directories that the page is made of.
var sourceParts = []string{"go.mod", "go.sum", "cmd/riddleweb", "render", "scenarios", "sim", "testdata/published", "web"}

// sourceHash returns a fingerprint of the sources and of the Go version.
func sourceHash(root string) (string, error) {
	h := sha256.New()
	fmt.Fprintln(h, runtime.Version())
	for _, part := range sourceParts {
		err := filepath.WalkDir(filepath.Join(root, part), func(path string, d fs.DirEntry, err error) error {
			if err != nil || d.IsDir() || !isSource(path) {
				return err
			}
			return hashFile(h, root, path)
		})
		if err != nil {
			return "", err
		}
	}
	return hex.EncodeToString(h.Sum(nil))[:16], nil
}

func isSource(path string) bool {
	return !strings.HasSuffix(path, "_test.go") && slices.Contains([]string{".go", ".mod", ".sum", ".json", ".html", ".css", ".js"}, filepath.Ext(path))
}

func hashFile(h io.Writer, root, path string) error {
	name, err := filepath.Rel(root, path)
	if err != nil {
		return err
	}
	f, err := os.Open(path)
	if err != nil {
		return err
	}
	defer f.Close()
	fmt.Fprintln(h, filepath.ToSlash(name))
	_, err = io.Copy(h, f)
	return err
}
