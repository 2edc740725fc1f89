package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"riddle/web/files"
)

// writable notices before a long run that its result would have no place to go.
func writable(option, path string) error {
	if path == "" {
		return wrong(option, path, "the path of a file")
	}
	err := files.Ready(path)
	switch dir := filepath.Dir(path); {
	case err == nil:
		return nil
	case errors.Is(err, fs.ErrPermission):
		return fmt.Errorf("cannot write %s: %s", path, reason(err))
	case !isDir(dir):
		return wrong(option, path, "a file in a directory that exists: "+brief(dir)+" does not")
	}
	return wrong(option, path, "a writable file: "+reason(err))
}

func isDir(path string) bool {
	info, err := os.Stat(path)
	return err == nil && info.IsDir()
}

// replace puts content into a file, whole or not at all.
func replace(path string, content []byte) error { return files.Write(path, content) }
