package web

import (
	"bytes"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
)

// mostDownload is what a first visit may cost, bytes: 3 MB, the whole page as a
// host sends it that compresses with brotli.
const mostDownload = 3_000_000

// TestDownloadIsSmall compresses everything that a browser fetches on its first
// visit, the files that it keeps for later among them, as `riddle site --best`
// does.
func TestDownloadIsSmall(t *testing.T) {
	if testing.Short() {
		t.Skip("compressing hardest takes half a minute")
	}
	dir, err := Built()
	require.NoError(t, err)
	whole := 0
	require.NoError(t, fs.WalkDir(os.DirFS(dir), ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		if !shelved(name) && name != workerFile && name != shelfFile {
			require.Equal(t, stillFile, name, "is made but never fetched")
			return nil
		}
		text, err := os.ReadFile(filepath.Join(dir, name))
		require.NoError(t, err)
		size := len(text)
		if slices.Contains(compressed, filepath.Ext(name)) {
			var small bytes.Buffer
			w := encodings[0].writer(&small, true)
			_, err = w.Write(text)
			require.NoError(t, err)
			require.NoError(t, w.Close())
			size = small.Len()
		}
		if size > 20_000 {
			t.Logf("%8d bytes: %s", size, name)
		}
		whole += size
		return nil
	}))
	t.Logf("%8d bytes in all", whole)
	require.Less(t, whole, mostDownload)
}
