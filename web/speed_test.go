//go:build !js && !windows

package web_test

import (
	"runtime"
	"sync"
	"syscall"
	"testing"
	"time"

	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/require"
)

// What a first visit from localhost may take, on two processors that nothing
// else uses: until anything is painted, and until a picture is drawn in which
// grain has moved.
const (
	mostToPaint = time.Second
	mostToMove  = 3 * time.Second
	speedLoads  = 5 // at most, of which the best counts: the first one warms the host
)

// watchPictures notes when the engine hands the second of two different
// pictures to the graphics interface, both of a machine that has moved. It
// looks at the pixels and trusts nothing that the page tells of itself.
const watchPictures = `if (window.parent === window) {
	addEventListener("load", () => new PerformanceObserver((list) => {
		for (const e of list.getEntries()) if (e.name === "first-contentful-paint") window.painted = e.startTime;
	}).observe({ type: "paint", buffered: true }));
} else {
	let before, tick = 0;
	const told = () => riddle.ask('{"do":"state"}', (text) => { tick = JSON.parse(text).tick; });
	const upload = WebGL2RenderingContext.prototype.texSubImage2D;
	WebGL2RenderingContext.prototype.texSubImage2D = function (...given) {
		const [, , , , wide, high, , , bytes, from = 0] = given; // WebGL 2.0, 3.7.6
		if (!parent.moved && wide * high > 100_000) told();
		if (!parent.moved && wide * high > 100_000 && tick > 0) {
			const now = new Uint32Array(bytes.slice(from, from + 4 * wide * high).buffer);
			if (before?.length === now.length && now.some((p, i) => p !== before[i])) parent.moved = parent.performance.now();
			before = now;
		}
		return upload.apply(this, given);
	};
}`

// busy returns how much longer than undisturbed the processors now need for
// what two threads ask of them: wall time over processor time of two loops.
func busy() float64 {
	used := func() time.Duration {
		var u syscall.Rusage
		syscall.Getrusage(syscall.RUSAGE_SELF, &u)
		return time.Duration(u.Utime.Nano() + u.Stime.Nano())
	}
	threads := min(2, runtime.NumCPU())
	began, before := time.Now(), used()
	var all sync.WaitGroup
	for range threads {
		all.Go(func() {
			for time.Since(began) < 200*time.Millisecond {
			}
		})
	}
	all.Wait()
	return max(1, float64(threads)*float64(time.Since(began))/float64(used()-before))
}

// A first visit paints soon, and grain moves soon after. Where other work slows
// the processors, as measured before and after each visit, it may take as much
// longer as that work makes it.
func TestGrainMovesSoon(t *testing.T) {
	address := host(t)
	within := func(took time.Duration, most time.Duration, slow float64) bool {
		return took <= time.Duration(float64(most)*slow)
	}
	var paints, moves bool
	for n := 0; n < speedLoads && !(paints && moves); n++ {
		slow := busy()
		p := browse(t, "about:blank", 1280, 800)
		_, err := chromedp.Call(p.ctx, page.AddScriptToEvaluateOnNewDocument, page.AddScriptToEvaluateOnNewDocumentParams{Source: watchPictures})
		require.NoError(t, err)
		p.do(chromedp.Navigate(address))
		p.turn(`window.moved > 0 && window.painted > 0`)
		ms := func(name string) time.Duration {
			return time.Duration(eval[float64](p, "window."+name) * float64(time.Millisecond)).Round(time.Millisecond)
		}
		painted, moved := ms("painted"), ms("moved")
		p.do(chromedp.Navigate("about:blank"))
		slow = (slow + busy()) / 2
		t.Logf("painted after %v, grain moves after %v; the processors are %.1f times as slow as undisturbed", painted, moved, slow)
		paints, moves = paints || within(painted, mostToPaint, slow), moves || within(moved, mostToMove, slow)
	}
	require.True(t, paints, "nothing is painted within %v", mostToPaint)
	require.True(t, moves, "no grain moves within %v", mostToMove)
}
