//go:build !js

package web_test

import (
	"strconv"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
	"github.com/stretchr/testify/require"

	"riddle/sim"
)

// spills lists what is wider than its room: text cut off, or anything that
// sticks out of the page.
const spills = `[...document.body.querySelectorAll("*")].filter((e) => {
	if (!e.checkVisibility() || e.closest("[aria-hidden], #labels") || e.getBoundingClientRect().width < 2) return false;
	const style = getComputedStyle(e), box = e.getBoundingClientRect();
	const cut = e instanceof HTMLElement && style.display !== "inline" && e.scrollWidth > e.clientWidth + 1 && e.childElementCount === 0 && !["INPUT", "SELECT", "IFRAME"].includes(e.tagName);
	const full = e.matches("input[type=number]") && e.scrollWidth > e.clientWidth;
	return cut || full || box.right > document.documentElement.clientWidth + 1 || box.left < -1;
}).map((e) => e.tagName + "#" + e.id + "." + e.getAttribute("class") + " " + (e.textContent || "").slice(0, 40))`

// A language that is 40 % longer than English fits at every width, and so does
// every language that there is.
func TestNoTextIsCutOff(t *testing.T) {
	for _, width := range []int{1440, 820, 360, 320} {
		t.Run(strconv.Itoa(width), func(t *testing.T) {
			p := showPageAt(t, "/?lang=xx", width, 900)
			p.empty().forward(20 * sim.TickHz)
			p.wait(`document.getElementById("log").textContent !== ""`)
			require.Contains(t, eval[string](p, `document.getElementById("log-title").textContent`), "ii", "it does not speak the long language")
			require.Empty(t, eval[[]string](p, spills), "xx")
			for _, code := range []string{"en", "es", "de", "fr", "pt"} {
				p.speak(code)
				require.Empty(t, eval[[]string](p, spills), code)
			}
		})
	}
}

// At 200 % zoom a window of 1280 px shows 640 px of page, which reflow without
// a bar to scroll sideways (WCAG 1.4.4, 1.4.10).
func TestTextCanBeTwiceAsLarge(t *testing.T) {
	p := openPage(t, 640, 450)
	require.Empty(t, eval[[]string](p, spills))
	require.LessOrEqual(t, eval[int](p, `document.documentElement.scrollWidth`), 640)
}

// A reader whose browser makes text twice as large without zooming gets the
// layout that has room for it, on a desktop's window too.
func TestLargeTextGetsTheLayoutThatHoldsIt(t *testing.T) {
	for _, width := range []int{1280, 640} {
		p := showPage(t, width, 900, chromedp.Flag("blink-settings", "defaultFontSize=32")).empty()
		p.forward(20 * sim.TickHz)
		require.Equal(t, "30px", eval[string](p, `getComputedStyle(document.body).fontSize`), "the page has a size of text of its own")
		for _, code := range []string{"en", "de", "fr"} {
			p.speak(code)
			require.Empty(t, eval[[]string](p, spills), "%s at %d", code, width)
			require.LessOrEqual(t, eval[int](p, `document.documentElement.scrollWidth`), width, "%s", code)
		}
	}
}

// Every setting and condition obeys the keys (WCAG 2.1.1): arrows on the
// slider, Enter on the step buttons, typing in the number, Enter on the way
// back.
func TestEveryControlObeysTheKeys(t *testing.T) {
	p := openPage(t, 1440, 900)
	value := func(name string) string {
		return eval[string](p, `String(`+asked("setup")+`.controls.find((c) => c.name === "`+name+`").value)`)
	}
	moved := func(name, from string) {
		t.Helper()
		p.wait(`String(` + asked("setup") + `.controls.find((c) => c.name === "` + name + `").value) !== "` + from + `"`)
	}
	for _, name := range eval[[]string](p, asked("setup")+`.controls.filter((c) => c.has && !c.switch).map((c) => c.name)`) {
		box := `[data-name="` + name + `"] `
		start := value(name)
		p.do(chromedp.Focus(chromedp.CSS("#set-"+name)), chromedp.KeyEvent(kb.ArrowRight))
		moved(name, start)
		now := value(name)
		p.do(chromedp.Focus(chromedp.CSS(box+".nudge:last-child")), chromedp.KeyEvent(kb.Enter))
		moved(name, now)
		p.do(chromedp.Focus(chromedp.CSS(box+".back")), chromedp.KeyEvent(kb.Enter))
		p.wait(`String(` + asked("setup") + `.controls.find((c) => c.name === "` + name + `").value) === "` + start + `"`)
		require.Equal(t, "set-"+name, eval[string](p, `document.activeElement.id`), "the focus is lost with the button")
	}
	for _, name := range []string{"chopper", "unload"} {
		start := value(name)
		p.do(chromedp.Focus(chromedp.CSS("#set-"+name)), chromedp.KeyEvent(" "))
		moved(name, start)
	}
	p.do(chromedp.Focus(chromedp.CSS("#run")), chromedp.KeyEvent(kb.Enter))
	p.wait(asked("state") + `.running`)
	p.do(chromedp.Focus(chromedp.CSS("#units")), chromedp.KeyEvent(kb.ArrowDown))
	p.wait(asked("setup") + `.units === "us"`)
}

// In forced colours every control keeps an edge and the focus is seen.
func TestForcedColoursKeepControlsVisible(t *testing.T) {
	p := openPage(t, 820, 1180)
	media := emulation.SetEmulatedMediaParams{Features: []*emulation.MediaFeature{{Name: "forced-colors", Value: "active"}}}
	_, err := chromedp.Call(p.ctx, emulation.SetEmulatedMedia, media)
	require.NoError(t, err)
	p.wait(`matchMedia("(forced-colors: active)").matches`)
	require.Empty(t, eval[[]string](p, `[...document.querySelectorAll("button, select, input:not([type=range], [type=checkbox])")].filter((e) => e.checkVisibility()
		&& parseFloat(getComputedStyle(e).borderTopWidth) === 0).map((e) => e.id || e.textContent)`))
	p.do(chromedp.Focus(chromedp.CSS("#run")), chromedp.KeyEvent(kb.Tab))
	require.NotEqual(t, "none", eval[string](p, `getComputedStyle(document.activeElement).outlineStyle`))
	require.Greater(t, p.coloursOf("#picture"), 20, "the picture is blank")
}

// small lists what can be touched and is less than 24 px either way (WCAG
// 2.5.8), in text sentences excepted.
const small = `[...document.querySelectorAll("button, select, input, summary, a[href]")].filter((e) => {
	if (!e.checkVisibility() || e.closest("p") && e.tagName === "A") return false;
	const box = (e.closest("label.tick") || e).getBoundingClientRect();
	return box.width < 24 || box.height < 23.9;
}).map((e) => e.id || e.getAttribute("aria-label") || e.textContent)`

// A speaking reader hears a change once it has settled, not ten times a second:
// what changes all the time is no live region.
func TestLiveRegionsAreFew(t *testing.T) {
	p := openPage(t, 1440, 900)
	live := eval[[]string](p, `[...document.querySelectorAll("[role=status], [role=alert], [aria-live]")].map((e) => e.id)`)
	require.Contains(t, live, "status")
	for _, busy := range []string{"clock", "sum", "losses", "tank", "loads", "money", "chart", "curve"} {
		require.NotContains(t, live, busy)
		require.False(t, eval[bool](p, `document.getElementById("`+busy+`").closest("[role=status], [role=alert], [aria-live]") !== null`), busy)
	}
}

// The operator's first task, by role and name alone: canola in the field with
// the settings of wheat loses more than 3 % behind the header; the usual range
// that stands at each setting leads below 1.5 %.
func TestOperatorSetsCanola(t *testing.T) {
	p := openPage(t, 1440, 900)
	p.pick("Crop", "canola")
	p.pick("Situation", "canola-set-for-wheat")
	p.forward(45 * 120)
	loss := func() float64 {
		p.t.Helper()
		text := eval[string](p, `document.querySelector("#loss-processing td:nth-child(3) span").textContent`)
		v, err := strconv.ParseFloat(strings.TrimSpace(text), 64)
		require.NoError(t, err, "Machine loss reads %q", text)
		return v
	}
	p.wait(`Number(document.querySelector("#loss-processing td:nth-child(3) span").textContent) > 3`)
	before := loss()
	for _, s := range []struct {
		name string
		to   string
	}{{"Cylinder speed in rpm", "510"}, {"Concave clearance in mm", "16"}, {"Fan speed in rpm", "760"},
		{"Upper sieve in mm", "14"}, {"Ground speed in km/h", "4.5"}} {
		p.do(chromedp.Focus(chromedp.CSS(p.role("spinbutton", s.name))))
		eval[any](p, `document.activeElement.select()`)
		p.do(chromedp.KeyEvent(s.to), chromedp.KeyEvent(kb.Enter))
	}
	p.wait(asked("setup") + `.controls.find((c) => c.name === "ground-speed").value === 4.5`)
	p.forward(60 * 120)
	p.wait(`Number(document.querySelector("#loss-processing td:nth-child(3) span").textContent) < 1.5`)
	require.Greater(t, before, 3.0)
	p.wait(`document.querySelectorAll("#log li").length === 5`)
}

// pick chooses an entry of the list of that name.
func (p *tab) pick(name, value string) {
	p.t.Helper()
	list := p.role("combobox", name)
	eval[bool](p, `(() => { const e = document.querySelector(`+strconv.Quote(list)+`); e.value = `+strconv.Quote(value)+`; return e.dispatchEvent(new Event("change")); })()`)
}
