package marks

import (
	"io/fs"
	"os"
	"path"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// tick finds the number of steps a second where somebody writes it out.
var tick = regexp.MustCompile(`(?i)(/|\*|hz\b[^\n]*=)\s*120\b|\b120\s*/\s*s\b|1/120\b`)

// The tick stands once; everybody else takes it from there, the page from what
// the machine describes.
func TestTheTickStandsOnce(t *testing.T) {
	tree := os.DirFS("../../../..")
	var found []string
	for _, dir := range []string{"sim", "cmd", "web", "render", "scenarios"} {
		require.NoError(t, fs.WalkDir(tree, dir, func(name string, d fs.DirEntry, err error) error {
			if err != nil || d.IsDir() || strings.HasSuffix(name, "_test.go") || !slices.Contains([]string{".go", ".js", ".html"}, path.Ext(name)) {
				return err
			}
			text, err := fs.ReadFile(tree, name)
			for _, line := range strings.Split(string(text), "\n") {
				if tick.MatchString(line) {
					found = append(found, name+": "+strings.TrimSpace(line))
				}
			}
			return err
		}))
	}
	require.Equal(t, []string{"sim/stage/flow/tick.go: const TickHz = 120"}, found)
}
