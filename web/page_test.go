//go:build !js

package web_test

import (
	"fmt"
	"math"
	"strconv"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
	"github.com/stretchr/testify/require"

	"riddle/scenarios"
	"riddle/sim"
	"riddle/sim/read/readout"
)

// Grain comes to the tank; a fan set far too high by keyboard blows grain over
// the shoe, by far more than chance.
func TestFanSetByKeyboardBlowsGrainOver(t *testing.T) {
	p := openPage(t, 1440, 900)
	eval[any](p, `document.getElementById("run").click()`)
	p.wait(asked("state") + `.tick > 60`)
	eval[any](p, `document.getElementById("run").click()`)
	p.wait(`document.getElementById("run").textContent === "Start"`)

	p.forward(30 * sim.TickHz)
	before := p.readings().Short
	require.NotNil(t, before.Ledger)
	require.Positive(t, before.Ledger.Tank, "no grain has reached the tank")
	p.wait(`!document.getElementById("tank-head").textContent.startsWith("0")`)

	p.do(chromedp.Focus(chromedp.CSS("#set-fan-speed")))
	p.wait(`document.querySelectorAll(".leads path.held").length === 1`) // the setting in hand points at its part
	start := eval[float64](p, `Number(document.getElementById("set-fan-speed").value)`)
	for range 60 {
		if eval[float64](p, `Number(document.getElementById("set-fan-speed").value)`) >= 1.6*start {
			break
		}
		p.do(chromedp.KeyEvent(kb.ArrowRight))
	}
	p.wait(asked("setup") + `.controls.find((c) => c.name === "fan-speed").value >= ` + strconv.FormatFloat(1.6*start, 'f', -1, 64))

	p.forward(30 * sim.TickHz)
	after := p.readings().Short
	a, b := readout.Errors(&before).Shoe, readout.Errors(&after).Shoe
	require.NotNil(t, a)
	require.NotNil(t, b)
	require.Greater(t, *after.Loss.Shoe-*before.Loss.Shoe, 3*math.Hypot(*a, *b))
	require.Greater(t, *after.ShoeLoss.Blown, *before.ShoeLoss.Blown)
	p.wait(`document.getElementById("status").textContent.includes("Fan speed")`)
	require.Equal(t, eval[string](p, `document.querySelector("#loss-shoe td:nth-child(3) span").textContent`), format(*after.Loss.Shoe))
}

func format(v float64) string {
	if math.Abs(v) < 9.995 {
		return strconv.FormatFloat(v, 'f', 2, 64)
	}
	return strconv.FormatFloat(v, 'f', 1, 64)
}

// where says what has the focus, in the frame too.
const where = `(() => {
  const a = document.activeElement;
  if (a && a.id === "machine") return "machine " + (a.contentDocument.activeElement?.tagName ?? "");
  return a?.id ?? "";
})()`

// The engine keeps every key for itself unless it is kept from it.
func TestTabLeavesTheMachine(t *testing.T) {
	p := openPage(t, 1440, 900)
	p.do(chromedp.Focus(chromedp.CSS("#present")))
	back := chromedp.KeyModifiers(kb.ModifierShift)
	p.do(chromedp.KeyEvent(kb.Tab))
	require.Equal(t, "machine CANVAS", eval[string](p, where))
	p.do(chromedp.KeyEvent(kb.Tab))
	after := eval[string](p, `document.activeElement.id || document.activeElement.closest("[data-name]")?.dataset.name`)
	require.NotContains(t, []string{"", "machine"}, after)
	require.True(t, eval[bool](p, `(document.getElementById("machine").compareDocumentPosition(document.activeElement) & Node.DOCUMENT_POSITION_FOLLOWING) !== 0`), after)
	p.do(chromedp.KeyEvent(kb.Tab, back))
	require.Equal(t, "machine CANVAS", eval[string](p, where))
	p.do(chromedp.KeyEvent(kb.Tab, back))
	require.Equal(t, "present", eval[string](p, where))
}

// nameOf tells a control from the others, as a function of the element.
const nameOf = `((e) => e.id || e.getAttribute("aria-label") || e.textContent.trim() || e.tagName)`

// stops lists what a user may act on, as it stands on the page; of a group that
// is one stop, where it is.
const stops = `[...document.querySelectorAll("button, select, input, summary, a[href], iframe, textarea, [tabindex]")]
	.filter((e) => !e.disabled && e.tabIndex >= 0 && e.checkVisibility())`

// seen says whether what has the focus can be seen: within the window, and not
// under the bar that stays at its top (WCAG 2.4.11).
const seen = `(() => {
	const e = document.activeElement, box = e.getBoundingClientRect(), bar = document.querySelector(".bar").getBoundingClientRect();
	return e.closest(".bar") !== null || (box.bottom <= innerHeight + 1 || box.height > innerHeight / 2) && box.bottom > bar.bottom && (box.top >= bar.bottom - 1 || box.height > innerHeight / 2);
})()`

// Tab meets every control of the page in the order in which they stand, the
// transport first and Pause first of it.
func TestTabMeetsEveryControlInOrder(t *testing.T) {
	p := openPage(t, 1440, 900)
	controls := eval[[]string](p, stops+`.map(`+nameOf+`)`)
	require.Equal(t, []string{"run", "step", "back", "reset", "speed", "crop", "situation", "zone", "theme", "units", "language", "air", "names", "pair", "fork", "present", "machine"}, controls[:17])
	eval[any](p, `document.activeElement.blur()`)
	var met []string
	for range controls {
		p.do(chromedp.KeyEvent(kb.Tab))
		met = append(met, eval[string](p, nameOf+`(document.activeElement)`))
		require.True(t, eval[bool](p, seen), "the focus is out of sight on %s", met[len(met)-1])
	}
	require.Equal(t, controls, met)
}

// A row of buttons is one stop of Tab; arrows, Home and End move in it, and Tab
// comes back to where it was left (WAI-ARIA Authoring Practices, toolbar).
func TestRowsOfButtonsAreOneStop(t *testing.T) {
	p := openPage(t, 1440, 900)
	rows := eval[[]int](p, `[...document.querySelectorAll("#closer [role=toolbar]")].map((r) => [...r.querySelectorAll("button, input")].filter((e) => e.tabIndex >= 0).length)`)
	require.Equal(t, []int{1, 1, 1, 1}, rows)
	const at = `[...document.querySelectorAll("#closer [role=toolbar]")].map((r) => [...r.querySelectorAll("button, input")].indexOf(document.activeElement))`
	eval[any](p, `document.querySelector("#closer [role=toolbar] button").focus()`)
	last := eval[int](p, `document.querySelectorAll("#closer [role=toolbar]")[0].querySelectorAll("button").length`) - 1
	for _, c := range []struct {
		key string
		at  []int
	}{
		{kb.ArrowRight, []int{1, -1, -1, -1}},
		{kb.End, []int{last, -1, -1, -1}},
		{kb.ArrowRight, []int{0, -1, -1, -1}},
		{kb.ArrowLeft, []int{last, -1, -1, -1}},
		{kb.Home, []int{0, -1, -1, -1}},
		{kb.ArrowDown, []int{1, -1, -1, -1}},
		{kb.Tab, []int{-1, 0, -1, -1}},
	} {
		p.do(chromedp.KeyEvent(c.key))
		require.Equal(t, c.at, eval[[]int](p, at))
	}
	p.do(chromedp.KeyEvent(kb.Tab, chromedp.KeyModifiers(kb.ModifierShift)))
	require.Equal(t, []int{1, -1, -1, -1}, eval[[]int](p, at), "Tab comes back to where it was")
	p.do(chromedp.KeyEvent(kb.Enter))
	p.wait(`document.getElementById("plate").dataset.zone === "gap"`)
}

func TestPageFitsEveryWidth(t *testing.T) {
	for _, c := range []struct{ width, height int }{{360, 800}, {820, 1180}, {1440, 900}} {
		t.Run(strconv.Itoa(c.width), func(t *testing.T) {
			p := openPage(t, c.width, c.height)
			p.forward(20 * sim.TickHz)
			p.wait(`document.getElementById("tank-head").textContent !== ""`)
			require.LessOrEqual(t, eval[int](p, `document.documentElement.scrollWidth`), c.width)
			require.Greater(t, p.coloursOf("#picture"), 40, "the picture is blank")
			require.Empty(t, eval[[]string](p, small), "too small for a finger")
			nameless := eval[[]string](p, `[...document.querySelectorAll("button, select, input")].filter((e) => e.checkVisibility() &&
				!(e.getAttribute("aria-label") || e.labels?.length || e.textContent)).map((e) => e.id)`)
			require.Empty(t, nameless)
		})
	}
}

func TestOverloadEndsPluggedWithReasonAndCaution(t *testing.T) {
	p := openPage(t, 1440, 900)
	p.choose("situation", "wheat-overload")
	p.forward(30 * sim.TickHz)
	p.wait(`!document.getElementById("alarm").hidden`)
	text := eval[string](p, `document.getElementById("alarm").innerText`)
	for _, must := range []string{"Plugged", "engine off", "key out", "wait for all moving parts to stop", "operator's manual"} {
		require.Contains(t, text, must)
	}
	require.True(t, eval[bool](p, `document.getElementById("run").disabled`))
	report := p.readings().Long
	l := report.Ledger
	require.Equal(t, l.KernelsIn, l.Tank+l.Header+l.Unthreshed+l.Walker+l.Shoe+l.Inside)
	require.NotNil(t, report.PluggedWhy)
	require.Contains(t, text, *report.PluggedWhy)

	p.do(chromedp.Focus(chromedp.CSS("#reset")), chromedp.KeyEvent(kb.Enter))
	p.wait(`document.getElementById("alarm").hidden && !document.getElementById("run").disabled`)
}

func TestEverySituationRunsOnThePage(t *testing.T) {
	p := openPage(t, 820, 1180)
	for _, s := range scenarios.All() {
		p.choose("crop", s.Crop)
		p.choose("situation", s.Name)
		require.Contains(t, eval[string](p, `document.getElementById("caption").textContent`), s.Field)
		require.Equal(t, s.Shows, eval[string](p, `document.getElementById("shows").textContent`))
		p.forward(5 * sim.TickHz)
		p.wait(`document.getElementById("plate").dataset.state === "plugged" || ` + asked("state") + `.tick >= ` + strconv.Itoa(5*sim.TickHz))
	}
}

// On a narrow screen the picture follows the part in hand.
func TestNarrowPictureFollowsThePartInHand(t *testing.T) {
	p := openPage(t, 360, 800)
	require.Equal(t, "whole", eval[string](p, `document.getElementById("plate").dataset.zone`))
	p.do(chromedp.Focus(chromedp.CSS("#set-lower-sieve")))
	p.wait(`document.getElementById("plate").dataset.zone === "lower"`)
	below := eval[float64](p, `document.querySelector('[data-name="lower-sieve"]').getBoundingClientRect().top - document.getElementById("sum").getBoundingClientRect().bottom`)
	require.GreaterOrEqual(t, below, 0.0, "the setting in hand is hidden under the picture")
}

// A phone shows the whole machine on its first screen; what is seldom wanted of
// the bar unfolds.
func TestAPhoneShowsTheMachineAtOnce(t *testing.T) {
	p := openPage(t, 390, 844)
	const seen = `document.getElementById("theme").checkVisibility()`
	require.False(t, eval[bool](p, seen))
	require.LessOrEqual(t, eval[float64](p, `document.querySelector(".picture").getBoundingClientRect().bottom / innerHeight`), 0.75)
	p.do(chromedp.Focus(chromedp.CSS("#more")), chromedp.KeyEvent(kb.Enter))
	require.True(t, eval[bool](p, seen))
	require.Equal(t, "true", eval[string](p, `document.getElementById("more").ariaExpanded`))
	p.do(chromedp.KeyEvent(kb.Tab))
	require.Equal(t, "theme", eval[string](p, `document.activeElement.id`))
	require.LessOrEqual(t, eval[int](p, `document.documentElement.scrollWidth`), 390)
	p.do(chromedp.Focus(chromedp.CSS("#more")), chromedp.KeyEvent(kb.Enter))
	require.False(t, eval[bool](p, seen))
}

// A touch of the picture names the part and leads to its setting.
func TestTouchingAPartLeadsToItsSetting(t *testing.T) {
	p := openPage(t, 1440, 900)
	p.wait(`document.querySelectorAll(".leads circle").length > 5`)
	at := eval[[]float64](p, `(() => {
		const m = `+asked("map")+`.parts["fan"], box = document.getElementById("machine").getBoundingClientRect();
		return [box.left + m.x * box.width, box.top + m.y * box.height];
	})()`)
	p.do(chromedp.MouseClickXY(at[0], at[1]))
	p.wait(`document.activeElement.id === "set-fan-speed"`)
	require.Contains(t, eval[string](p, `document.getElementById("status").textContent`), "Fan: ")
}

// A frame that has to load itself anew, as after a lost graphics context, comes
// back with what was set.
func TestMachineComesBackAsItWasSet(t *testing.T) {
	p := openPage(t, 820, 1180)
	p.choose("crop", "corn")
	eval[any](p, `document.getElementById("run").click()`)
	p.send(map[string]any{"do": "set", "name": "fan-speed", "text": "777"})
	p.wait(`document.getElementById("set-fan-speed").value === "780" || document.querySelector('[data-name="fan-speed"] [type="number"]').value === "777"`)
	eval[any](p, `(() => { document.body.dataset.state = "waiting"; document.getElementById("machine").contentWindow.location.reload(); })()`)
	p.wait(`document.body.dataset.state === "ready"`)
	p.wait(asked("setup") + `.crop === "corn" && ` + asked("setup") + `.controls.find((c) => c.name === "fan-speed").value === 777`)
	p.wait(asked("state") + `.tick > 5`)
}

func TestReducedMotionStartsPaused(t *testing.T) {
	p := showPage(t, 820, 1180, chromedp.Flag("force-prefers-reduced-motion", true))
	p.wait(`document.body.dataset.state === "ready" && ` + asked("state") + `.warm === 1`)
	p.wait(`document.getElementById("run").textContent === "Start" && !document.getElementById("run").disabled`)
	filled := p.machineTick()
	require.Never(t, func() bool { return p.machineTick() != filled }, time.Second, 200*time.Millisecond, "it moves without being asked")
	p.do(chromedp.Focus(chromedp.CSS("#step")), chromedp.KeyEvent(kb.Enter))
	p.wait(asked("state") + `.tick === ` + strconv.FormatInt(filled+1, 10))
}

func TestBadNumberIsRefusedInWords(t *testing.T) {
	p := openPage(t, 820, 1180)
	eval[bool](p, `(() => { const e = document.querySelector('[data-name="fan-speed"] input[type="number"]'); e.value = "5000"; e.dispatchEvent(new Event("input")); return e.dispatchEvent(new Event("change")); })()`)
	p.wait(`document.getElementById("set-fan-speed-wrong")?.textContent.includes("200 to 1,800\u00a0rpm")`)
}

func TestBrowserWithoutWebGLIsTold(t *testing.T) {
	p := showPage(t, 820, 1180, chromedp.Flag("disable-3d-apis", true))
	p.wait(`document.body.dataset.state === "failed"`)
	require.Contains(t, eval[string](p, `document.getElementById("loading").textContent`), "WebGL 2")
}

// The curve of the setting in hand comes while the machine stands, too: who
// wants no motion starts so.
func TestCurveComesWhileTheMachineStands(t *testing.T) {
	p := openPage(t, 820, 1180)
	eval[any](p, `document.getElementById("set-fan-speed").focus()`)
	p.wait(`/lowest at/.test(document.getElementById("curve-text").textContent)`)
	require.Equal(t, "Start", eval[string](p, `document.getElementById("run").textContent`))
	require.Regexp(t, `Cost is lowest at [\d,]+ rpm: \$[\d.]+/ha, with [\d.]+ % total loss\. You are at 910 rpm\.`, eval[string](p, `document.getElementById("curve-text").textContent.replaceAll("\u00a0", " ")`))
}

// The numbers at the lines of a chart are those of their places, not rounded to
// others.
func TestScalesSayWhereTheirLinesStand(t *testing.T) {
	p := openPage(t, 820, 1180)
	for _, top := range []float64{0.5, 1, 2, 5, 10, 20, 50} {
		texts := promised[[]string](p, fmt.Sprintf(`import("./lines.js").then((m) => new m.Scale(400, 200, 0, 1, %g).grid().filter((e) => e.tagName === "text").map((e) => e.textContent))`, top))
		require.Len(t, texts, 3)
		for i, text := range texts {
			v, err := strconv.ParseFloat(text, 64)
			require.NoError(t, err)
			require.InDelta(t, top*float64(i)/2, v, 1e-9, "%g", top)
		}
	}
}
