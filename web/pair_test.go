//go:build !js

package web_test

import (
	"fmt"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
	"github.com/stretchr/testify/require"

	"riddle/sim"
)

// A presenter puts two machines side by side, sets one differently, shows both
// on a full screen of 1920 by 1080, and leaves by Escape. All by role and name.
func TestPresenterShowsTwoMachines(t *testing.T) {
	p := browse(t, host(t), 1920, 1080).empty()
	p.press("Start")
	p.press("Two machines")
	before := p.second()["fan-speed"]
	p.press("Raise Fan speed, Machine B")
	require.InDelta(t, before+10, p.second()["fan-speed"], 1e-9)
	box := p.role("spinbutton", "Fan speed, Machine B in rpm")
	p.do(chromedp.Focus(chromedp.CSS(box)))
	eval[any](p, `document.activeElement.select()`)
	p.do(chromedp.KeyEvent("1300" + kb.Tab))
	require.InDelta(t, 1300, p.second()["fan-speed"], 1e-9)
	p.press("Full screen")
	p.turn(`document.fullscreenElement !== null && innerWidth === 1920 && innerHeight === 1080`)
	require.LessOrEqual(t, eval[int](p, `document.documentElement.scrollHeight`), 1080, "a room cannot scroll")
	require.LessOrEqual(t, eval[int](p, `document.documentElement.scrollWidth`), 1920)
	require.Greater(t, p.coloursOf("#picture"), 40)
	cut := eval[[]string](p, `[...document.querySelectorAll("#two th, #two td, #two button")].filter((e) => {
		const box = e.getBoundingClientRect();
		return box.height > 0 && (box.bottom > innerHeight || box.right > innerWidth);
	}).map((e) => e.textContent)`)
	require.Empty(t, cut, "out of sight")

	p.wait(asked("state") + `.warm === 1`)
	p.press("Pause")
	p.forward(20 * sim.TickHz)
	p.wait(`[...document.querySelectorAll("#pair-readings .sure th")].some((e) => e.textContent.startsWith("blown out"))`)
	require.True(t, eval[bool](p, `(() => { const s = `+asked("state")+`.compare.seconds; return s[0] === s[1]; })()`), "they are not in step")

	p.press("Swap A and B")
	require.InDelta(t, before, p.second()["fan-speed"], 1e-9)
	p.press("Copy A to B")
	require.InDelta(t, 1300, p.second()["fan-speed"], 1e-9)

	p.do(chromedp.KeyEvent(kb.Escape))
	p.turn(`document.body.dataset.present === undefined && document.activeElement.id === "present"`)
	p.press("Back to one machine")
	p.wait(`document.getElementById("two").hidden`)
}

// second returns the settings of the second machine.
func (p *tab) second() map[string]float64 {
	p.t.Helper()
	type control struct {
		Name  string
		Value float64
	}
	setup := eval[struct{ Controls []control }](p, asked("second"))
	values := map[string]float64{}
	for _, c := range setup.Controls {
		values[c.Name] = c.Value
	}
	return values
}

// Two machines come back from their link, and fit every width.
func TestTwoMachinesComeBackAndFit(t *testing.T) {
	address := host(t)
	const link = "v=1&crop=soybeans&seed=5&fan-speed=900&b.fan-speed=1200&end"
	for _, width := range []int{360, 820, 1440} {
		p := browse(t, address+"#"+link, width, 900).ready()
		p.wait(`document.body.dataset.pair === "on" && document.querySelectorAll("#pair-readings tr").length > 10`)
		require.Equal(t, 1200.0, p.second()["fan-speed"])
		wide := eval[[]string](p, `[...document.querySelectorAll("#two *, .halves *")].filter((e) => e.getBoundingClientRect().right > innerWidth + 1).map((e) => e.outerHTML.slice(0, 80))`)
		require.Empty(t, wide, fmt.Sprint(width))
	}
}
