package files

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"
)

func put(t *testing.T, path string, mode os.FileMode) {
	t.Helper()
	require.NoError(t, os.WriteFile(path, []byte("old"), mode))
	require.NoError(t, os.Chmod(path, mode))
}

func holds(t *testing.T, path, want string, mode os.FileMode) {
	t.Helper()
	got, err := os.ReadFile(path)
	require.NoError(t, err)
	require.Equal(t, want, string(got))
	info, err := os.Stat(path)
	require.NoError(t, err)
	require.Equal(t, mode, info.Mode().Perm())
}

func TestAFileKeepsItsMode(t *testing.T) {
	dir := t.TempDir()
	for _, mode := range []os.FileMode{0o600, 0o640, 0o664} {
		file := filepath.Join(dir, mode.String())
		put(t, file, mode)
		require.NoError(t, Write(file, []byte("new")))
		holds(t, file, "new", mode)
	}
}

func TestLinksAreFollowed(t *testing.T) {
	dir := t.TempDir()
	require.NoError(t, os.MkdirAll(filepath.Join(dir, "far", "below"), 0o755))
	put(t, filepath.Join(dir, "far", "file"), 0o640)
	require.NoError(t, os.Symlink("../file", filepath.Join(dir, "far", "below", "second")))
	require.NoError(t, os.Symlink("far/below", filepath.Join(dir, "way")))
	require.NoError(t, os.Symlink("way/second", filepath.Join(dir, "first")))
	require.NoError(t, Write(filepath.Join(dir, "first"), []byte("new")))
	holds(t, filepath.Join(dir, "far", "file"), "new", 0o640)
	to, err := os.Readlink(filepath.Join(dir, "first"))
	require.NoError(t, err)
	require.Equal(t, "way/second", to, "the link stays")

	require.NoError(t, os.Symlink("far/made", filepath.Join(dir, "ahead")))
	require.NoError(t, Write(filepath.Join(dir, "ahead"), []byte("new")))
	holds(t, filepath.Join(dir, "far", "made"), "new", 0o644)

	require.NoError(t, os.Symlink("round", filepath.Join(dir, "round")))
	require.ErrorContains(t, Write(filepath.Join(dir, "round"), nil), "links")
}

func TestWhatCannotBeWrittenIsToldBeforehand(t *testing.T) {
	dir := t.TempDir()
	file := filepath.Join(dir, "file")
	put(t, file, 0o644)
	for _, good := range []string{file, filepath.Join(dir, "new"), os.DevNull} {
		require.NoError(t, Ready(good), good)
	}
	for _, bad := range []string{dir, filepath.Join(dir, "none", "new"), filepath.Join(file, "new")} {
		require.Error(t, Ready(bad), bad)
		require.Error(t, Write(bad, nil), bad)
	}
	left, err := os.ReadDir(dir)
	require.NoError(t, err)
	require.Len(t, left, 1, "nothing is left behind")
}
