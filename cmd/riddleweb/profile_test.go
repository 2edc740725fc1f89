package main_test

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	_ "riddle/render/raster" // so that the test runs anew when the painter is another
)

// The profile still names what strokes and specks are made of: the compiler
// copies these into the loops that all dots pass, which go half as fast again
// for it.
func TestTheProfileFits(t *testing.T) {
	if testing.Short() {
		t.Skip("compiles the painter")
	}
	profile, err := filepath.Abs("default.pgo")
	require.NoError(t, err)
	require.FileExists(t, profile) // and when the profile is
	cmd := exec.Command("go", "build", "-pgo="+profile, "-gcflags=riddle/render/raster=-m", "riddle/render/raster")
	cmd.Env = append(os.Environ(), "GOOS=js", "GOARCH=wasm")
	said, err := cmd.CombinedOutput()
	require.NoError(t, err, "%s", said)
	for _, call := range []string{"ink.dab", "touch"} {
		assert.GreaterOrEqual(t, strings.Count(string(said), "inlining call to "+call), 5, "%s is not copied into place: remake the profile, see DEVELOPERS.md", call)
	}
}
