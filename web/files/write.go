//go:build !windows

package files

import (
	"path/filepath"

	"github.com/google/renameio/v2"
)

// write writes beside the file and moves that over it. The new file takes the
// group of its directory, which one from elsewhere would not.
func write(path string, content []byte) error {
	return renameio.WriteFile(path, content, 0o644, renameio.WithTempDir(filepath.Dir(path)))
}
