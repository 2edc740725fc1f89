//go:build !js

package web_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"
)

// A number in inches is written as a rule is read, and read back as it is
// written.
func TestFractionsAreWrittenAndRead(t *testing.T) {
	p := openPage(t, 820, 900)
	words := func(script string) []string {
		return promised[[]string](p, `import("./words.js").then((w) => `+script+`)`)
	}
	require.Equal(t, []string{"5/8", "1/2", "1 1/4", "0", "2 31/32", "3"}, words(`[0.625, 0.5, 1.25, 0, 2.96875, 3].map((v) => w.field(v, { digits: 2, parts: 32 }))`))
	require.Equal(t, []string{"3.2", "10"}, words(`[3.2, 10].map((v) => w.field(v, { digits: 1, parts: 0 }))`))
	require.Equal(t, []string{"0.375", "1.25", "1.25", "0.625", "7", "NaN"}, words(`["3/8", "1 1/4in", "1-1/4", " 5 / 8 ", "7", "wide"].map((v) => String(w.typed(v.replace("in", ""))))`))
}

// In the units of the United States the steps of a control are those of the
// trade, a fraction can be typed, and the losses stand a square foot as well.
func TestCustomaryUnitsOnThePage(t *testing.T) {
	p := openPage(t, 820, 1180)
	p.choose("units", "us")
	of := func(name string) string {
		return fmt.Sprintf(`document.querySelector('[data-name="%s"] .stepper input')`, name)
	}
	p.wait(of("upper-sieve") + `.value === "5/8"`) // 16 mm, 0.63 in
	require.Equal(t, "3.2", eval[string](p, of("ground-speed")+`.value`))
	require.Equal(t, "20", eval[string](p, of("header-width")+`.value`)) // 6 m, 19.7 ft
	up := func(name string) {
		eval[any](p, fmt.Sprintf(`document.querySelector('[data-name="%s"] .stepper button:last-child').click()`, name))
	}
	up("ground-speed")
	p.wait(`Math.abs(` + asked("setup") + `.controls.find((c) => c.name === "ground-speed").value - 3.3) < 1e-9`)
	up("upper-sieve")
	p.wait(asked("setup") + `.controls.find((c) => c.name === "upper-sieve").value === 21 / 32`)
	require.Equal(t, "21/32", eval[string](p, of("upper-sieve")+`.value`))
	eval[any](p, `(() => { const e = `+of("concave-clearance")+`; e.value = "3/8 in"; e.dispatchEvent(new Event("input")); e.dispatchEvent(new Event("change")); })()`)
	p.wait(asked("setup") + `.controls.find((c) => c.name === "concave-clearance").value.toFixed(9) === "0.375000000"`)
	require.Equal(t, "3/8 in", eval[string](p, `document.getElementById("set-concave-clearance").getAttribute("aria-valuetext")`))
	require.Contains(t, eval[string](p, `document.querySelector(".losses thead").textContent`), "/m²/ft²")

	p.choose("units", "metric")
	p.wait(of("lower-sieve") + `.value === "8"`) // never touched, and exact
}
