// Package files writes files where people want them: completely or not at all,
// through links to what they point at, keeping the mode of an existing file.
package files

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
)

// mostLinks is how many links in a row are followed, as Linux does.
const mostLinks = 40

// Write puts content in the place of what the file holds, or makes the file.
// Whoever reads it meanwhile finds the old content or the new.
func Write(path string, content []byte) error {
	path, err := Resolve(path)
	if err != nil {
		return err
	}
	if info, err := os.Stat(path); err == nil && !info.Mode().IsRegular() {
		return os.WriteFile(path, content, 0o644) // a device or a pipe takes it; a directory refuses
	}
	return write(path, content)
}

// Ready reports why Write could not write to path, as far as that can be told
// beforehand. It leaves nothing behind.
func Ready(path string) error {
	path, err := Resolve(path)
	if err != nil {
		return err
	}
	dir := filepath.Dir(path)
	if info, err := os.Stat(dir); err != nil {
		return err
	} else if !info.IsDir() {
		return &fs.PathError{Op: "open", Path: dir, Err: errors.New("not a directory")}
	}
	switch info, err := os.Stat(path); {
	case err != nil:
	case info.IsDir():
		return &fs.PathError{Op: "open", Path: path, Err: errors.New("is a directory")}
	case !info.Mode().IsRegular():
		return nil
	}
	probe, err := os.CreateTemp(dir, ".riddle-*")
	if err != nil {
		return err
	}
	return errors.Join(probe.Close(), os.Remove(probe.Name()))
}

// Resolve follows links from path to where a file or directory lies, or would
// lie if it were made.
func Resolve(path string) (string, error) {
	for range mostLinks {
		to, err := os.Readlink(path)
		if err != nil {
			return path, nil // no link, or nothing there yet
		}
		if !filepath.IsAbs(to) {
			dir, err := filepath.EvalSymlinks(filepath.Dir(path))
			if err != nil {
				return "", err
			}
			to = filepath.Join(dir, to)
		}
		path = to
	}
	return "", &fs.PathError{Op: "open", Path: path, Err: errors.New("too many links in a row")}
}
