package scenarios

import (
	"errors"
	"io"
	"os"

	"riddle/scenarios/strict"
)

// Load reads a situation from a file.
func Load(path string) (*Scenario, error) {
	info, err := os.Stat(path)
	if err != nil {
		return nil, unreadable(path, err)
	}
	if !info.Mode().IsRegular() {
		return nil, &Error{File: path, Reason: "is no regular file"}
	}
	f, err := os.Open(path)
	if err != nil {
		return nil, unreadable(path, err)
	}
	defer f.Close()
	text, err := io.ReadAll(io.LimitReader(f, strict.MaxBytes+1))
	if err != nil {
		return nil, unreadable(path, err)
	}
	return read(path, text)
}

func unreadable(path string, err error) error {
	var p *os.PathError
	if errors.As(err, &p) {
		err = p.Err
	}
	return &Error{File: path, Reason: "cannot be read: " + err.Error()}
}

// read checks and reads the text of a file.
func read(file string, text []byte) (*Scenario, error) {
	tree, err := strict.Parse(file, text)
	if err != nil {
		return nil, err
	}
	r := &reader{strict.Reader{File: file}}
	s := r.scenario(tree)
	if r.Err != nil {
		return nil, r.Err
	}
	return s, nil
}
