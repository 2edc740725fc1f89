package web_test

import (
	"encoding/json"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"riddle/sim/trade/crop"
	"riddle/sim/trade/quantity"
	"riddle/web/speak"
)

const catalogues = "static/words"

// catalogue reads the words of a language.
func catalogue(t *testing.T, code string) map[string]string {
	t.Helper()
	text, err := os.ReadFile(filepath.Join(catalogues, code+".json"))
	require.NoError(t, err)
	words := map[string]string{}
	require.NoError(t, json.Unmarshal(text, &words), code)
	return words
}

// others are the languages that translate English.
func others(t *testing.T) (codes []string) {
	t.Helper()
	files, err := os.ReadDir(catalogues)
	require.NoError(t, err)
	for _, f := range files {
		if code := strings.TrimSuffix(f.Name(), ".json"); code != "en" {
			codes = append(codes, code)
		}
	}
	return codes
}

// english is every text of the page: its own words, and those of the model.
func english(t *testing.T) map[string]string {
	words := catalogue(t, "en")
	for key, text := range speak.Words() {
		require.NotContains(t, words, key, "the model itself has this word")
		words[key] = text
	}
	return words
}

var slot = regexp.MustCompile(`\{\w+\}`)

func slots(text string) []string {
	list := slot.FindAllString(text, -1)
	slices.Sort(list)
	return slices.Compact(list)
}

// Of two entries with one key a reader of JSON takes the later and says nothing.
func TestNoWordStandsTwice(t *testing.T) {
	files, err := filepath.Glob("static/words/*.json")
	require.NoError(t, err)
	require.NotEmpty(t, files)
	for _, file := range files {
		text, err := os.ReadFile(file)
		require.NoError(t, err)
		seen := map[string]bool{}
		for _, m := range regexp.MustCompile(`(?m)^\s*"([^"]+)": `).FindAllSubmatch(text, -1) {
			require.False(t, seen[string(m[1])], "%s: %s", file, m[1])
			seen[string(m[1])] = true
		}
		require.NotEmpty(t, seen, file)
	}
}

// Every language says all that English says, with the same slots, and nothing
// else.
func TestLanguagesAreComplete(t *testing.T) {
	words := english(t)
	keys := slices.Sorted(maps.Keys(words))
	for _, code := range others(t) {
		other := catalogue(t, code)
		for _, key := range keys {
			require.NotEmpty(t, other[key], "%s lacks %q: %q", code, key, words[key])
			require.Equal(t, slots(words[key]), slots(other[key]), "%s: %s", code, key)
		}
		for key := range other {
			require.Contains(t, words, key, "%s says what English does not", code)
		}
	}
}

// sourceText is all that may name a key of the catalogue.
func sourceText(t *testing.T) string {
	t.Helper()
	var all strings.Builder
	for _, dir := range []string{"static", "speak", "controls", "reading", "curve", "view", "follow", "runner", "bridge"} {
		err := filepath.WalkDir(dir, func(path string, d fs.DirEntry, err error) error {
			if err != nil || d.IsDir() || strings.HasSuffix(path, "_test.go") || filepath.Ext(path) == ".json" {
				return err
			}
			text, err := os.ReadFile(path)
			all.Write(text)
			return err
		})
		require.NoError(t, err)
	}
	return all.String()
}

var (
	named    = regexp.MustCompile(`(?:\bt\(|\b[sS]ay\(|data-word(?:-label|-title)?=)"([^"]+)"[,)\s/>]`)
	composed = regexp.MustCompile("(?:\\bt\\(`|key: `)([a-z.-]+)\\$\\{|(?:named|[sS]ay)\\(\"([a-z.-]+\\.)\"")
)

// No text is asked for that the catalogue lacks, and none is held that nobody
// asks for.
func TestEveryWordIsHeldAndUsed(t *testing.T) {
	words, own, text := english(t), catalogue(t, "en"), sourceText(t)
	for _, m := range named.FindAllStringSubmatch(text, -1) {
		if strings.HasSuffix(m[1], ".") {
			continue
		}
		_, one := words[m[1]]
		_, many := words[m[1]+".other"]
		require.True(t, one || many, "nothing is held for %q", m[1])
	}
	var prefixes []string
	for _, m := range composed.FindAllStringSubmatch(text, -1) {
		prefixes = append(prefixes, m[1]+m[2])
	}
	for key := range own {
		base := strings.TrimSuffix(strings.TrimSuffix(key, ".one"), ".other")
		used := strings.Contains(text, `"`+base+`"`) || slices.ContainsFunc(prefixes, func(p string) bool { return strings.HasPrefix(key, p) })
		require.True(t, used, "nobody asks for %q", key)
	}
}

// Whatever unit a value is shown in has a name.
func TestEveryUnitHasAName(t *testing.T) {
	words := catalogue(t, "en")
	for _, system := range []quantity.System{quantity.Metric, quantity.Customary} {
		for _, name := range crop.Names() {
			for _, dim := range []quantity.Dimension{
				quantity.Speed, quantity.Rotation, quantity.Opening, quantity.Height, quantity.Width, quantity.Yield, quantity.Share, quantity.Slope,
				quantity.Lost, quantity.Harvest, quantity.Throughput, quantity.Weight, quantity.Power, quantity.Air, quantity.Work, quantity.Area,
				quantity.Temperature, quantity.Density,
			} {
				require.Contains(t, words, "unit."+system.Scale(dim, name).Unit)
			}
			sold, _ := system.Bulk(name)
			land, _ := system.Land()
			require.Contains(t, words, "unit."+sold)
			require.Contains(t, words, "unit."+land)
		}
	}
}
