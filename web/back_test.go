//go:build !js

package web_test

import (
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
	"github.com/stretchr/testify/require"

	"riddle/sim"
	"riddle/web/share"
)

// kept reads a run as the page would save it, and makes it again headless.
func (p *tab) kept(which string) share.Replayed {
	p.t.Helper()
	r, err := share.Replay([]byte(eval[string](p, message(which))), nil)
	require.NoError(p.t, err)
	require.Equal(p.t, share.Same, r.Verdict, r.Reason)
	return r
}

// key presses a key where the focus is.
func (p *tab) key(keys string) {
	p.t.Helper()
	p.do(chromedp.KeyEvent(keys))
}

// By keyboard alone: back 10 s in the picture and by the button, and two
// machines from one moment. What the page and both machines save is made again
// without a browser, to the page's own state.
func TestBackAndForkByKeyboard(t *testing.T) {
	p := browse(t, host(t), 1440, 900).empty()
	dir := p.downloads()
	p.choose("situation", "wheat-green-patch")
	p.forward(30 * sim.TickHz)
	p.send(map[string]any{"do": "set", "name": "fan-speed", "text": "1234"})
	p.forward(5*sim.TickHz + 17)
	then := p.kept(firstRun)
	require.EqualValues(t, 35*sim.TickHz+17, then.Run.Machine.Tick())
	require.Len(t, then.Run.Commands(), 1)

	p.forward(3 * sim.TickHz)
	p.send(map[string]any{"do": "set", "name": "fan-speed", "text": "700"})
	p.forward(7 * sim.TickHz)
	require.NotEqual(t, then.Claimed, p.kept(firstRun).Claimed)
	p.wait(`document.getElementById("log").querySelectorAll("li").length === 2`)
	p.do(chromedp.Focus(chromedp.CSS("#machine")))
	eval[any](p, `document.getElementById("machine").contentDocument.querySelector("canvas").focus()`)
	p.key(",")
	p.wait(asked("state") + `.tick === 4217`)
	require.Equal(t, then.Claimed, p.kept(firstRun).Claimed)
	p.wait(`document.getElementById("log").querySelectorAll("li").length === 1`)
	p.wait(`document.querySelector('.setting input[type="number"][aria-label^="Fan speed"]').value === "1234"`)
	p.wait(`document.getElementById("status").textContent.startsWith("Back at 35.1")`)

	p.forward(10 * sim.TickHz)
	p.do(chromedp.Focus(chromedp.CSS(p.role("button", "Back 10 s"))))
	p.key(kb.Enter)
	p.wait(asked("state") + `.tick === 4217`)
	require.Equal(t, then.Claimed, p.kept(firstRun).Claimed)

	p.do(chromedp.Focus(chromedp.CSS(p.role("button", "Split in two"))))
	p.key(kb.Enter)
	p.wait(`!document.getElementById("two").hidden && document.activeElement.id === "pair"`)
	require.Equal(t, then.Claimed, p.kept(firstRun).Claimed)
	require.Equal(t, then.Claimed, p.kept(secondRun).Claimed, "the same moment twice")
	p.do(chromedp.Focus(chromedp.CSS(p.role("button", "Lower Fan speed, Machine B"))))
	p.key(kb.Enter)
	p.forward(2 * sim.TickHz)
	first, second := p.kept(firstRun), p.kept(secondRun)
	require.NotEqual(t, first.Claimed, second.Claimed)
	require.Equal(t, first.Run.Machine.Tick(), second.Run.Machine.Tick())
	require.Len(t, first.Run.Commands(), 1)
	require.Len(t, second.Run.Commands(), 2)
	require.Equal(t, 1230.0, second.Run.Machine.Setup().Settings.Fan)

	p.press("Save run")
	require.Eventually(t, func() bool {
		found, _ := filepath.Glob(filepath.Join(dir, "riddle-wheat-*-run-?.json"))
		if len(found) != 2 {
			return false
		}
		for i, want := range []string{first.Claimed, second.Claimed} {
			text, err := os.ReadFile(found[i])
			require.NoError(t, err)
			if r, err := share.ReadRun(text); err != nil || r.Digest != want {
				return false
			}
		}
		return true
	}, 30*time.Second, 100*time.Millisecond)

	p.give("run.json", eval[string](p, message(firstRun)))
	p.wait(`document.getElementById("status").textContent.startsWith("This run ended exactly")`)
	require.Equal(t, first.Claimed, p.kept(firstRun).Claimed, "a run that is opened goes the same way")
	p.wait(`document.getElementById("two").hidden`)
}
