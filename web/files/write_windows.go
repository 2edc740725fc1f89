package files

import "github.com/google/renameio/v2/maybe"

// write is as whole as Windows can have it.
func write(path string, content []byte) error { return maybe.WriteFile(path, content, 0o644) }
