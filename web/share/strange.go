package share

import (
	"bytes"
	"unicode/utf8"

	"riddle/scenarios"
)

// shownTail is how many bytes of the end of a text that is cut off are shown.
const shownTail = 30

// noSetup says what a text is that is no setup, as far as that can be told from
// what it looks like.
func noSetup(text []byte) error {
	if IsRun(text) {
		return &Error{Code: OfRun}
	}
	if err := strange(text); err != nil {
		return err
	}
	return nil
}

// noRun says what a text is that is no run.
func noRun(text []byte) error {
	if err := strange(text); err != nil {
		return err
	}
	if written(text, `riddle.setup/`) {
		return &Error{Code: OfSetup}
	}
	return &Error{Code: Foreign, Field: "schema " + RunForm}
}

// strange says what a text is that is neither a setup nor a run; nil where it may
// be either. A browser gives the bytes that are no UTF-8 as replacements, so
// that what is looked for must be seen with and without them.
func strange(text []byte) error {
	bare := bytes.TrimSpace(bytes.TrimPrefix(text, []byte("\ufeff")))
	code := Code("")
	switch {
	case len(bare) == 0:
		code = Empty
	case wide(text):
		code = Wide
	case picture(text):
		code = Picture
	case beginsWith(text, "PK\x03\x04", "PK\x05\x06", "\x1f\x8b", "\x1f\ufffd"):
		code = Packed
	case bytes.IndexByte(text, 0) >= 0 || !utf8.Valid(text) || beginsWith(text, "%PDF"):
		code = Binary
	case scenarios.Is(text):
		code = OfSituation
	case written(text, `riddle.report/`):
		code = OfReport
	case bare[0] != '{' && bare[0] != '[' && !bytes.Contains(text, []byte(`riddle.`)):
		code = Text
	default:
		return nil
	}
	return &Error{Code: code}
}

// written reports whether a text says that it is of a form.
func written(text []byte, form string) bool {
	_, after, ok := bytes.Cut(text, []byte(`"schema"`))
	return ok && bytes.HasPrefix(bytes.TrimLeft(after, " \t\r\n:"), []byte(`"`+form))
}

func beginsWith(text []byte, starts ...string) bool {
	for _, s := range starts {
		if bytes.HasPrefix(text, []byte(s)) {
			return true
		}
	}
	return false
}

// picture looks for the marks of PNG, GIF, JPEG and WebP.
func picture(text []byte) bool {
	if beginsWith(text, "\x89PNG", "\ufffdPNG", "GIF8", "\xff\xd8\xff") {
		return true
	}
	head := text[:min(len(text), 24)]
	for _, mark := range []string{"JFIF", "Exif", "WEBP"} {
		if bytes.Contains(head, []byte(mark)) {
			return true
		}
	}
	return false
}

// wide reports whether a text is UTF-16: by its mark of byte order, or by letters
// of which every other byte is nothing.
func wide(text []byte) bool {
	if beginsWith(text, "\xff\xfe", "\xfe\xff") {
		return true
	}
	head := bytes.TrimLeft(text[:min(len(text), 64)], "\ufffd")
	zero := [2]int{}
	for i, b := range head {
		if b == 0 {
			zero[i%2]++
		}
	}
	return len(head) >= 4 && (zero[0] == (len(head)+1)/2 && zero[1] == 0 || zero[1] == len(head)/2 && zero[0] == 0)
}
