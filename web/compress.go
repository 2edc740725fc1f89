package web

import (
	"compress/gzip"
	"context"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"

	"github.com/andybalholm/brotli"
)

// encoding is one way in which a file is kept compressed beside itself.
type encoding struct {
	name, suffix string // as HTTP calls it; of the file
	writer       func(w io.Writer, best bool) io.WriteCloser
}

// encodings in the order in which they are preferred. Brotli's hardest level
// takes ten times as long as the rest of the build, so it is for best only.
var encodings = []encoding{
	{"br", ".br", func(w io.Writer, best bool) io.WriteCloser {
		if best {
			return brotli.NewWriterOptions(w, brotli.WriterOptions{Quality: brotli.BestCompression, LGWin: 24}) // sees the whole machine at once
		}
		return brotli.NewWriterLevel(w, 5)
	}},
	{"gzip", ".gz", func(w io.Writer, best bool) io.WriteCloser {
		level := 6
		if best {
			level = gzip.BestCompression
		}
		z, err := gzip.NewWriterLevel(w, level)
		if err != nil {
			panic(err) // the level is one of the package's
		}
		return z
	}},
}

// compressed lists the kinds of file that are worth compressing.
var compressed = []string{".wasm", ".js", ".css", ".html", ".json", ".webmanifest"}

// compress writes compressed copies of the files in a directory beside them.
func compress(ctx context.Context, dir string, best bool, kinds ...encoding) error {
	return filepath.WalkDir(dir, func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || !slices.Contains(compressed, filepath.Ext(name)) {
			return err
		}
		text, err := os.ReadFile(name)
		if err != nil {
			return err
		}
		for _, k := range kinds {
			if err := k.write(ctx, name+k.suffix, text, best); err != nil {
				return err
			}
		}
		return nil
	})
}

func (k encoding) write(ctx context.Context, name string, text []byte, best bool) error {
	f, err := os.Create(name)
	if err != nil {
		return err
	}
	defer f.Close()
	z := k.writer(f, best)
	for part := range slices.Chunk(text, 1<<17) { // the hardest level takes half a minute for the machine
		if err := ctx.Err(); err != nil {
			return err
		}
		if _, err := z.Write(part); err != nil {
			return err
		}
	}
	if err := z.Close(); err != nil {
		return err
	}
	return f.Close()
}
