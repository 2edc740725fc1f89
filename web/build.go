package web

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"time"
)

// versionFile names the machine's file, and marks a directory as written by
// this package.
const versionFile = "version.json"

// version is what versionFile holds.
type version struct {
	MadeBy string `json:"made_by"`
	Wasm   string `json:"wasm"`   // name of the compiled machine, with its fingerprint
	Size   int64  `json:"size"`   // of it, bytes
	Sum    string `json:"sha256"` // of it, in hexadecimal
}

const madeBy = "riddle site"

// Build compiles the machine for the browser and puts it with all else that the
// page needs into an existing directory. It tells each step to progress.
func Build(ctx context.Context, dir string, progress func(string)) error {
	root, err := findSource()
	if err != nil {
		return err
	}
	progress("compiling the machine for the browser")
	checked := check()
	v, err := compile(ctx, root, dir)
	if err != nil {
		return err
	}
	progress("laying out the page")
	goroot, err := gorootOf(ctx)
	if err != nil {
		return err
	}
	if err := copyRuntime(goroot, dir); err != nil {
		return err
	}
	if err := os.CopyFS(dir, static); err != nil {
		return err
	}
	if err := copyStill(root, dir); err != nil {
		return err
	}
	if err := writeLicences(ctx, root, goroot, dir); err != nil {
		return err
	}
	progress("checking the model against published figures")
	select {
	case <-ctx.Done():
		return ctx.Err()
	case list := <-checked:
		if err := writeKnown(dir, list); err != nil {
			return err
		}
	}
	if err := writeModel(root, dir); err != nil {
		return err
	}
	text, err := json.MarshalIndent(v, "", "  ")
	if err != nil {
		return err
	}
	if err := os.WriteFile(filepath.Join(dir, versionFile), append(text, '\n'), 0o644); err != nil {
		return err
	}
	if err := writeIcons(dir); err != nil {
		return err
	}
	if err := writeManifest(dir); err != nil {
		return err
	}
	return writeShelf(dir)
}

// seldom are packages that come along with the engine and are no part of any
// loop that counts: their functions are not copied to where they are called,
// which makes the whole download 7 % smaller.
var seldom = []string{
	"github.com/hajimehoshi/...", "archive/...", "compress/...", "encoding/...", "go/...", "log/...", "math/big", "net/...", "reflect", "regexp/...", "text/...",
}

// compile builds the machine and names it by the fingerprint of what came out,
// so that a browser may keep it for good.
func compile(ctx context.Context, root, dir string) (version, error) {
	out, err := filepath.Abs(filepath.Join(dir, "machine.wasm"))
	if err != nil {
		return version{}, err
	}
	args := []string{"build", "-trimpath", "-ldflags", "-s -w", "-o", out}
	for _, p := range seldom {
		args = append(args, "-gcflags="+p+"=-l")
	}
	work, err := os.MkdirTemp(filepath.Dir(out), ".work-") // goes with the page if that is never finished
	if err != nil {
		return version{}, err
	}
	defer os.RemoveAll(work)
	cmd := toolchain(ctx, append(args, "./cmd/riddleweb")...)
	cmd.Dir = root
	cmd.Env = append(os.Environ(), "GOOS=js", "GOARCH=wasm", "GOTMPDIR="+work)
	if text, err := cmd.CombinedOutput(); err != nil {
		return version{}, fmt.Errorf("compiling the machine: %w\n%s", err, bytes.TrimSpace(text))
	}
	code, err := os.ReadFile(out)
	if err != nil {
		return version{}, err
	}
	sum := fingerprint(code)
	v := version{MadeBy: madeBy, Wasm: "machine-" + sum[:12] + ".wasm", Size: int64(len(code)), Sum: sum}
	if err := os.Chmod(out, 0o644); err != nil {
		return version{}, err
	}
	return v, os.Rename(out, filepath.Join(dir, v.Wasm))
}

// toolchain is a command of Go that ends with ctx, and all that it has started
// with it.
func toolchain(ctx context.Context, args ...string) *exec.Cmd {
	cmd := exec.CommandContext(ctx, "go", args...)
	cmd.WaitDelay = 5 * time.Second
	endTogether(cmd)
	return cmd
}

// gorootOf asks Go where it lies.
func gorootOf(ctx context.Context) (string, error) {
	out, err := toolchain(ctx, "env", "GOROOT").Output()
	if err != nil {
		return "", fmt.Errorf("asking Go for its place: %w", err)
	}
	return strings.TrimSpace(string(out)), nil
}

// copyRuntime fetches the script that runs Go in a browser from the very Go
// that compiled the machine.
func copyRuntime(goroot, dir string) error {
	const name = "wasm_exec.js"
	text, err := os.ReadFile(filepath.Join(goroot, "lib", "wasm", name))
	if err != nil {
		return err
	}
	return os.WriteFile(filepath.Join(dir, name), text, 0o644)
}

// copyStill lays the picture of the machine beside the page, for browsers that
// cannot show the moving one.
func copyStill(root, dir string) error {
	picture, err := os.ReadFile(filepath.Join(root, "testdata", "machine.png"))
	if err != nil {
		return err
	}
	return os.WriteFile(filepath.Join(dir, stillFile), picture, 0o644)
}

// readVersion reads the version of a built page.
func readVersion(dir fs.FS) (v version, err error) {
	text, err := fs.ReadFile(dir, versionFile)
	if err != nil {
		return v, err
	}
	return v, json.Unmarshal(text, &v)
}
