package share

import (
	"strings"
	"testing"
	"unicode/utf16"

	"github.com/stretchr/testify/require"

	"riddle/scenarios"
	"riddle/sim"
	"riddle/sim/setup"
)

// inUTF16 writes a text as an editor does that says "Unicode" for UTF-16.
func inUTF16(text string, mark, big bool) string {
	units := utf16.Encode([]rune(text))
	if mark {
		units = append([]uint16{0xfeff}, units...)
	}
	var b strings.Builder
	for _, u := range units {
		low, high := byte(u), byte(u>>8)
		if big {
			low, high = high, low
		}
		b.WriteByte(low)
		b.WriteByte(high)
	}
	return b.String()
}

// The first thing that is said of a file is true, whichever kind was wanted, and
// be it read as bytes or as the text that a browser makes of them.
func TestTheFirstThingSaidOfAFileIsTrue(t *testing.T) {
	s, err := setup.Default("wheat")
	require.NoError(t, err)
	whole := string((&Kept{Model: sim.Model, Setup: s}).File())
	for name, c := range map[string]struct {
		text         string
		setup, run   Code // that is said where a setup is wanted, and where a run is
		setupF, runF string
	}{
		"empty":              {"", Empty, Empty, "empty", "empty"},
		"blank":              {"\ufeff \r\n", Empty, Empty, "empty", "empty"},
		"a setup":            {whole, "", OfSetup, "", "not of a run"},
		"a run":              {shortFile(t), OfRun, "", "not of a setup", ""},
		"a run cut off":      {shortFile(t)[:900], OfRun, Short, "not of a setup", "cut off"},
		"a setup cut off":    {whole[:200], Short, OfSetup, "cut off", "not of a run"},
		"a brace":            {"{", Short, Foreign, "cut off", "riddle.journal/1"},
		"a situation":        {`{"schema": "` + scenarios.Form + `", "name": "x"}`, OfSituation, OfSituation, "a situation", "a situation"},
		"a report":           {`{"schema":"riddle.report/1","model":"x"}`, OfReport, OfReport, "a report", "a report"},
		"UTF-16":             {inUTF16(whole, true, false), Wide, Wide, "UTF-16", "UTF-16"},
		"UTF-16, big":        {inUTF16(whole, true, true), Wide, Wide, "UTF-16", "UTF-16"},
		"UTF-16, bare":       {inUTF16(whole, false, false), Wide, Wide, "UTF-16", "UTF-16"},
		"a run in UTF-16":    {inUTF16(shortFile(t), true, false), Wide, Wide, "UTF-16", "UTF-16"},
		"PNG":                {"\x89PNG\r\n\x1a\n\x00\x00\x00\rIHDR\x00\x00\x01\x00", Picture, Picture, "picture", "picture"},
		"JPEG":               {"\xff\xd8\xff\xe0\x00\x10JFIF\x00\x01", Picture, Picture, "picture", "picture"},
		"GIF":                {"GIF89a\x01\x00\x01\x00", Picture, Picture, "picture", "picture"},
		"WebP":               {"RIFF\x24\x00\x00\x00WEBPVP8 ", Picture, Picture, "picture", "picture"},
		"zip":                {"PK\x03\x04\x14\x00\x08\x00", Packed, Packed, "unpack", "unpack"},
		"gzip":               {"\x1f\x8b\x08\x00\x00\x00", Packed, Packed, "unpack", "unpack"},
		"PDF":                {"%PDF-1.7\n", Binary, Binary, "text file", "text file"},
		"a program":          {"\x7fELF\x02\x01\x01\x00\x00", Binary, Binary, "text file", "text file"},
		"old letters":        {"H\xf6he", Binary, Binary, "text file", "text file"},
		"a diary":            {"dear diary", Text, Text, "did not write", "did not write"},
		"readings":           {"time_s,window_s\r\n1,1\r\n", Text, Text, "did not write", "did not write"},
		"a web page":         {"<!doctype html><title>x</title>", Text, Text, "did not write", "did not write"},
		"JSON of others":     {`{"version": 3}`, Foreign, Foreign, "schema is missing", "riddle.journal/1"},
		"a list":             {`[1,2]`, Foreign, Foreign, "not made by Riddle", "not made by Riddle"},
		"a brace lost":       {strings.TrimPrefix(whole, "{"), Broken, OfSetup, "damaged", "not of a run"},
		"a setup, with mark": {"\ufeff" + whole, "", OfSetup, "", "not of a run"},
	} {
		for _, text := range []string{c.text, strings.ToValidUTF8(c.text, "\ufffd"), string([]rune(c.text))} {
			if name == "old letters" && text != c.text {
				continue // a browser makes text of it
			}
			_, asSetup := ReadFile([]byte(text))
			_, asRun := ReadRun([]byte(text))
			for i, err := range []error{asSetup, asRun} {
				code, says := [...]Code{c.setup, c.run}[i], [...]string{c.setupF, c.runF}[i]
				if code == "" {
					require.NoError(t, err, name)
					continue
				}
				require.ErrorContains(t, err, says, "%s, %d", name, i)
				require.Equal(t, code, err.(*Error).Code, name)
				require.NotContains(t, err.Error(), "\n")
				require.NotContains(t, err.Error(), "{f")
			}
		}
	}
}
