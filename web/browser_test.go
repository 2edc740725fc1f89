//go:build !js

package web_test

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"image/png"
	"net/http/httptest"
	"os"
	"os/exec"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/require"

	"riddle/sim/read/readout"
	"riddle/web"
)

var pageDir string // that holds the page, once it is built

// built is the page, compiled once for all tests.
var built = sync.OnceValues(func() (string, error) {
	dir, err := os.MkdirTemp("", "riddle-page-")
	if err != nil {
		return "", err
	}
	pageDir = dir
	return dir, web.Build(context.Background(), dir, func(string) {})
})

func TestMain(m *testing.M) {
	web.Built = built
	code := m.Run()
	closeBrowser()
	if pageDir != "" {
		os.RemoveAll(pageDir)
	}
	os.Exit(code)
}

// closeBrowser ends the browser that the tests share, if there is one.
var closeBrowser = func() {}

// shared is the one browser of all tests that need no flags of their own. A
// test sees it through a context of its own, as a fresh profile: with nothing
// stored, nothing kept and no worker of another test.
var shared = sync.OnceValues(func() (context.Context, error) {
	ctx, cancel := startBrowser()
	closeBrowser = cancel
	return ctx, chromedp.Do(ctx)
})

// startBrowser returns a context whose first use starts a browser.
func startBrowser(flags ...chromedp.ExecAllocatorOption) (context.Context, context.CancelFunc) {
	path, _ := browserPath()
	options := append(chromedp.DefaultExecAllocatorOptions[:], chromedp.ExecPath(path), chromedp.DisableGPU,
		chromedp.Flag("use-angle", "swiftshader"), chromedp.Flag("enable-unsafe-swiftshader", true))
	if os.Geteuid() == 0 {
		options = append(options, chromedp.NoSandbox)
	}
	allocator, cancelAllocator := chromedp.NewExecAllocator(context.Background(), append(options, flags...)...)
	ctx, cancel := chromedp.NewContext(allocator)
	return ctx, func() { cancel(); cancelAllocator() }
}

// browserPath returns where a Chromium lies.
func browserPath() (string, bool) {
	for _, name := range []string{"chromium", "chromium-browser", "google-chrome", "google-chrome-stable", "chrome"} {
		if path, err := exec.LookPath(name); err == nil {
			return path, true
		}
	}
	return "", false
}

// findBrowser skips the test where no Chromium is installed. A test run that
// must not skip sets RIDDLE_NEED_BROWSER.
func findBrowser(t *testing.T) {
	t.Helper()
	if _, found := browserPath(); found {
		return
	}
	if os.Getenv("RIDDLE_NEED_BROWSER") != "" {
		t.Fatal("no Chromium is installed, and RIDDLE_NEED_BROWSER says that one must be")
	}
	t.Skip("no Chromium is installed, so the page cannot be looked at")
}

// tab is the page in a browser.
type tab struct {
	t   *testing.T
	ctx context.Context
}

// openPage shows the page in a window of the given size and waits until the
// machine is there, standing empty at the edge of the field: filling it first
// is for those tests that ask for it. Whatever the page writes to the console
// as an error fails the test.
func openPage(t *testing.T, width, height int) *tab {
	t.Helper()
	return showPage(t, width, height).empty()
}

// empty waits for the machine and puts it to the edge of the field.
func (p *tab) empty() *tab {
	p.t.Helper()
	p.turn(`document.body.dataset.state === "ready" && !document.getElementById("link").disabled`)
	p.send(map[string]any{"do": "pause"})
	p.send(map[string]any{"do": "reset"})
	p.wait(`document.getElementById("run").textContent.startsWith("Start")`)
	return p
}

func showPage(t *testing.T, width, height int, flags ...chromedp.ExecAllocatorOption) *tab {
	t.Helper()
	return showPageAt(t, "", width, height, flags...)
}

// showPageAt shows the page with something after its address.
func showPageAt(t *testing.T, path string, width, height int, flags ...chromedp.ExecAllocatorOption) *tab {
	t.Helper()
	findBrowser(t)
	dir, err := built()
	require.NoError(t, err)
	server := httptest.NewServer(web.Handler(os.DirFS(dir)))
	t.Cleanup(server.Close)
	return browse(t, server.URL+path, width, height, flags...)
}

// browse shows an address in a fresh profile that has never been anywhere; with
// flags, in a browser of its own.
func browse(t *testing.T, address string, width, height int, flags ...chromedp.ExecAllocatorOption) *tab {
	t.Helper()
	p := newTab(t, width, height, flags...)
	p.watchConsole()
	p.do(chromedp.Navigate(address))
	return p
}

// newTab opens an empty tab of a fresh profile.
func newTab(t *testing.T, width, height int, flags ...chromedp.ExecAllocatorOption) *tab {
	t.Helper()
	findBrowser(t)
	var ctx context.Context
	var cancel context.CancelFunc
	if len(flags) == 0 {
		all, err := shared()
		require.NoError(t, err)
		ctx, cancel = chromedp.NewContext(all, chromedp.WithNewBrowserContext())
	} else {
		ctx, cancel = startBrowser(flags...)
	}
	t.Cleanup(cancel)
	ctx, cancel = context.WithTimeout(ctx, 4*time.Minute)
	t.Cleanup(cancel)

	p := &tab{t, ctx}
	p.do(chromedp.EmulateViewport(int64(width), int64(height)))
	focus := emulation.SetFocusEmulationEnabledParams{Enabled: true} // as a window in front has it
	_, err := chromedp.Call(ctx, emulation.SetFocusEmulationEnabled, focus)
	require.NoError(t, err)
	return p
}

// watchConsole fails the test for errors, until the test is over.
func (p *tab) watchConsole() {
	ctx, cancel := context.WithCancel(p.ctx)
	messages, over := chromedp.Console(ctx), make(chan struct{})
	var wrong []string
	go func() {
		defer close(over)
		for m, err := range messages {
			if err != nil {
				return
			}
			if m.IsException() || m.Type == "error" || m.Type == "assert" {
				wrong = append(wrong, m.String())
			}
		}
	}()
	p.t.Cleanup(func() {
		cancel()
		<-over
		if len(wrong) > 0 {
			p.t.Errorf("the console has errors: %q", wrong)
		}
	})
}

func (p *tab) do(steps ...chromedp.Action[chromedp.Void]) {
	p.t.Helper()
	require.NoError(p.t, chromedp.Do(p.ctx, steps...))
}

// wait waits until an expression is true.
func (p *tab) wait(expression string) {
	p.t.Helper()
	_, err := chromedp.Run(p.ctx, chromedp.Poll[bool](expression, chromedp.WithPollingTimeout(2*time.Minute), chromedp.WithPollingInterval(100*time.Millisecond)))
	require.NoError(p.t, err, expression)
}

// eval runs a script in the page and returns its value.
func eval[T any](p *tab, script string) T {
	p.t.Helper()
	v, err := chromedp.Run(p.ctx, chromedp.Evaluate[T](script))
	require.NoError(p.t, err, script)
	return v
}

const port = `document.getElementById("machine").contentWindow.riddle`

// machineTick returns how many steps the machine has made.
func (p *tab) machineTick() int64 {
	p.t.Helper()
	return eval[int64](p, `JSON.parse(`+port+`.state()).tick`)
}

// send has the machine carry out a command, past the page's controls.
func (p *tab) send(command map[string]any) {
	p.t.Helper()
	text, err := json.Marshal(command)
	require.NoError(p.t, err)
	reply := eval[string](p, fmt.Sprintf("%s.do(%q)", port, text))
	require.NotContains(p.t, reply, "error")
}

// forward makes model steps, in parts that leave the page awake.
func (p *tab) forward(ticks int) {
	p.t.Helper()
	for ; ticks > 0; ticks -= 600 {
		p.send(map[string]any{"do": "step", "value": min(ticks, 600)})
	}
}

// readings are what the machine reads over its short and its long window.
type readings struct{ Short, Long readout.Report }

func (p *tab) readings() (r readings) {
	p.t.Helper()
	require.NoError(p.t, json.Unmarshal([]byte(eval[string](p, port+".readings()")), &r))
	return r
}

// choose picks an entry of a list as a user does.
func (p *tab) choose(id, value string) {
	p.t.Helper()
	eval[bool](p, fmt.Sprintf(`(() => { const e = document.getElementById(%q); e.value = %q; return e.dispatchEvent(new Event("change")); })()`, id, value))
}

// coloursOf returns how many colours the picture shows on the screen.
func (p *tab) coloursOf(selector string) int {
	p.t.Helper()
	shot, err := chromedp.Run(p.ctx, chromedp.Screenshot(chromedp.CSS(selector)))
	require.NoError(p.t, err)
	img, err := png.Decode(bytes.NewReader(shot))
	require.NoError(p.t, err)
	seen := map[[3]uint32]bool{}
	for y := img.Bounds().Min.Y; y < img.Bounds().Max.Y; y++ {
		for x := img.Bounds().Min.X; x < img.Bounds().Max.X; x++ {
			r, g, b, _ := img.At(x, y).RGBA()
			seen[[3]uint32{r >> 8, g >> 8, b >> 8}] = true
		}
	}
	return len(seen)
}
