package web

import (
	"encoding/json"
	"html"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/sfnt"
)

// compiledFrom finds the modules whose files the compiled machine names: what is
// in it, by its own word.
var compiledFrom = regexp.MustCompile(`[a-z0-9.-]+\.[a-z]+(?:/[A-Za-z0-9._-]+)+@v[0-9][A-Za-z0-9.-]*`)

// The page carries the licence of everything that is in the machine.
func TestThePageCarriesTheLicences(t *testing.T) {
	dir, err := Built()
	require.NoError(t, err)
	text, err := os.ReadFile(filepath.Join(dir, licencesFile))
	require.NoError(t, err)
	page := html.UnescapeString(string(text))
	v, err := readVersion(os.DirFS(dir))
	require.NoError(t, err)
	machine, err := os.ReadFile(filepath.Join(dir, v.Wasm))
	require.NoError(t, err)

	modules := map[string]bool{}
	for _, m := range compiledFrom.FindAllString(string(machine), -1) {
		modules[m] = true
	}
	require.GreaterOrEqual(t, len(modules), 3, "the engine, its shapes and its texts")
	for m := range modules {
		name, version, _ := strings.Cut(m, "@")
		require.Contains(t, page, "<h2>"+name+" <span>"+version+"</span></h2>")
	}
	// The Apache licence of the engine, 4(d), asks for its notices too; the
	// licence of Go and of its fonts for their copyright and conditions.
	for _, must := range []string{
		"Apache License\n                           Version 2.0", "Ebitengine bundles the following third-party libraries",
		"Copyright 2009 The Go Authors.", "Redistributions in binary form must reproduce the above", `THE COPYRIGHT HOLDERS AND CONTRIBUTORS`,
	} {
		require.Contains(t, page, must)
	}
	// The typeface says itself whose it is.
	face, err := sfnt.Parse(goregular.TTF)
	require.NoError(t, err)
	whose, err := face.Name(nil, sfnt.NameIDCopyright)
	require.NoError(t, err)
	require.Contains(t, page, strings.Replace(whose, "by ", "", 1))
	require.Equal(t, 1, strings.Count(page, "Copyright (c) 2016 Bigelow"))

	require.Contains(t, page, Policy)
	front, err := os.ReadFile(filepath.Join(dir, "index.html"))
	require.NoError(t, err)
	require.Contains(t, string(front), `href="`+licencesFile+`"`)
	require.True(t, shelved(licencesFile), "it is there without a network")
}

// What comes without a licence is not handed on.
func TestAWorkWithoutALicenceIsRefused(t *testing.T) {
	dir := t.TempDir()
	require.NoError(t, pageOf(map[string]string{"a/deep/LICENSE": "Copyright A", "a/NOTICE.md": "thanks", "b/readme": "free"})(dir))
	entry := func(name, below string) string {
		p := map[string]any{"ImportPath": name, "Dir": filepath.Join(dir, name, below), "Module": map[string]any{"Path": name, "Version": "v1", "Dir": filepath.Join(dir, name)}}
		text, err := json.Marshal(p)
		require.NoError(t, err)
		return string(text)
	}
	own := `{"ImportPath":"fmt"}{"ImportPath":"riddle","Module":{"Path":"riddle","Main":true}}`
	works, err := worksOf(strings.NewReader(own + entry("a", "deep") + entry("a", "")))
	require.NoError(t, err)
	require.Equal(t, []work{{"a", "v1", []terms{{"deep/LICENSE", "Copyright A"}, {"NOTICE.md", "thanks"}}}}, works)
	_, err = worksOf(strings.NewReader(entry("a", "deep") + entry("b", "")))
	require.ErrorContains(t, err, "b v1")
}
