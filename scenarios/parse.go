package scenarios

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
)

// Limits of a file, so that no file can hold up the program.
const (
	maxBytes = 64 << 10
	maxDepth = 8
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
	text, err := io.ReadAll(io.LimitReader(f, maxBytes+1))
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
	if len(text) > maxBytes {
		return nil, &Error{File: file, Reason: fmt.Sprintf("is longer than %d bytes", maxBytes)}
	}
	p := &parser{file: file, in: json.NewDecoder(bytes.NewReader(text))}
	p.in.UseNumber()
	tree, err := p.value("$", 0)
	if err != nil {
		return nil, err
	}
	if _, err := p.in.Token(); !errors.Is(err, io.EOF) {
		return nil, p.bad("$", "something follows the object")
	}
	r := &reader{file: file}
	s := r.scenario(tree)
	if r.err != nil {
		return nil, r.err
	}
	return s, nil
}

// parser reads JSON into maps, slices, strings, numbers, truth values and nil.
// Other than the standard decoder it refuses a key that stands twice.
type parser struct {
	file string
	in   *json.Decoder
}

func (p *parser) bad(path, reason string) error {
	return &Error{File: p.file, Path: path, Reason: reason}
}

func (p *parser) value(path string, depth int) (any, error) {
	t, err := p.token(path)
	if err != nil {
		return nil, err
	}
	if d, ok := t.(json.Delim); ok {
		if depth == maxDepth {
			return nil, p.bad(path, "is nested too deep")
		}
		if d == '{' {
			return p.object(path, depth)
		}
		return p.list(path, depth)
	}
	return t, nil
}

func (p *parser) token(path string) (json.Token, error) {
	t, err := p.in.Token()
	if err != nil {
		at := p.in.InputOffset()
		if errors.Is(err, io.EOF) || errors.Is(err, io.ErrUnexpectedEOF) {
			return nil, p.bad(path, fmt.Sprintf("the file ends too early, at byte %d", at))
		}
		return nil, p.bad(path, fmt.Sprintf("is no JSON at byte %d: %v", at, err))
	}
	return t, nil
}

func (p *parser) object(path string, depth int) (any, error) {
	m := map[string]any{}
	for p.in.More() {
		t, err := p.token(path)
		if err != nil {
			return nil, err
		}
		key := t.(string) // the decoder lets nothing else stand here
		here := path + "." + cut(key)
		if _, twice := m[key]; twice {
			return nil, p.bad(here, "stands twice")
		}
		if m[key], err = p.value(here, depth+1); err != nil {
			return nil, err
		}
	}
	_, err := p.token(path)
	return m, err
}

func (p *parser) list(path string, depth int) (any, error) {
	l := []any{}
	for p.in.More() {
		v, err := p.value(fmt.Sprintf("%s[%d]", path, len(l)), depth+1)
		if err != nil {
			return nil, err
		}
		l = append(l, v)
	}
	_, err := p.token(path)
	return l, err
}

// cut shortens a text from a file for a message.
func cut(s string) string {
	const most = 40
	if r := []rune(s); len(r) > most {
		return string(r[:most]) + "…"
	}
	return s
}
