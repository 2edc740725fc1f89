//go:build !js

package web_test

import (
	"strconv"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
	"github.com/stretchr/testify/require"

	"riddle/sim"
)

// By keyboard alone a lost kernel is followed: its story stands in the page,
// the lens goes to it, a sentence leads back to its moment, and it is left
// again.
func TestAKernelIsFollowedByKeyboard(t *testing.T) {
	p := openPage(t, 1440, 900)
	p.forward(25 * sim.TickHz)

	// The button of the story takes the focus and is pressed.
	eval[any](p, `[...document.querySelectorAll("#closer button")].find((b) => b.textContent === "A kernel lost over the walkers").focus()`)
	whole := eval[float64](p, asked("map")+`.parts.fan.x`)
	p.do(chromedp.KeyEvent(kb.Enter))
	p.wait(`!document.querySelector(".ride").hidden`)
	p.wait(`document.querySelectorAll(".story li").length > 4`)
	require.Contains(t, eval[string](p, `document.querySelector(".story li:last-child").textContent`), "lost")
	require.True(t, eval[bool](p, `document.activeElement === document.querySelector(".ride h3")`), "the focus goes to the story")
	p.wait(`Math.abs(` + asked("map") + `.parts.fan.x - ` + strconv.FormatFloat(whole, 'f', -1, 64) + `) > 0.05`) // the lens has gone to the kernel

	// A sentence leads to its moment: what comes after lies ahead.
	eval[any](p, `document.querySelector(".story button").click()`)
	p.wait(`document.querySelectorAll(".story .ahead").length === document.querySelectorAll(".story li").length - 1`)

	eval[any](p, `[...document.querySelectorAll(".ride button")].find((b) => b.textContent === "Stop following").click()`)
	p.wait(`document.querySelector(".ride").hidden`)
}
