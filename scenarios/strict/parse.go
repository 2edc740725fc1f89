// Package strict reads JSON that people bring along: every key known, none
// twice, every value of its kind and within its range. What is wrong is said
// with its place in the file. Nothing in a file can hold up the program.
package strict

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
)

// Limits of a file, so that no file can hold up the program.
const (
	MaxBytes = 64 << 10
	MaxDepth = 8
)

// Error is what is wrong with a file.
type Error struct {
	File   string
	Path   string // in the file, such as $.settings.fan_speed_rpm; empty for the file as a whole
	Reason string
	Short  bool // the end of the file is missing
}

func (e *Error) Error() string {
	if e.Path == "" {
		return fmt.Sprintf("%s: %s", e.File, e.Reason)
	}
	return fmt.Sprintf("%s: %s: %s", e.File, e.Path, e.Reason)
}

// Parse reads the text of a file, which must be one JSON value. The mark of byte
// order that some editors put before it is passed over.
func Parse(file string, text []byte) (any, error) { return ParseUpTo(MaxBytes, file, text) }

// ParseUpTo does the same for a kind of file that may have more bytes.
func ParseUpTo(most int, file string, text []byte) (any, error) {
	if len(text) > most {
		return nil, &Error{File: file, Reason: fmt.Sprintf("is longer than %d bytes", most)}
	}
	text = bytes.TrimPrefix(text, []byte("\ufeff"))
	p := &parser{file: file, in: json.NewDecoder(bytes.NewReader(text))}
	p.in.UseNumber()
	tree, err := p.value("$", 0)
	if err != nil {
		return nil, err
	}
	if _, err := p.in.Token(); !errors.Is(err, io.EOF) {
		return nil, p.bad("$", "something follows the object")
	}
	return tree, nil
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
		if depth == MaxDepth {
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
			return nil, &Error{File: p.file, Path: path, Reason: fmt.Sprintf("the file ends too early, at byte %d", at), Short: true}
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
		here := path + "." + Cut(key)
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

// Cut shortens a text from a file for a message.
func Cut(s string) string {
	const most = 40
	if r := []rune(s); len(r) > most {
		return string(r[:most]) + "…"
	}
	return s
}
