//go:build !js

package web_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"riddle/sim"
	"riddle/web/share"
)

// loseContext has the browser take the graphics away, as it does when a driver
// fails or memory runs short, and waits for the frame that comes after.
func (p *tab) loseContext() {
	p.t.Helper()
	eval[any](p, `(() => {
		const inside = document.getElementById("machine").contentWindow;
		inside.old = true;
		document.body.dataset.state = "waiting";
		inside.document.querySelector("canvas").getContext("webgl2").getExtension("WEBGL_lose_context").loseContext();
	})()`)
	p.wait(`document.body.dataset.state === "ready" && !document.getElementById("machine").contentWindow.old`)
	p.wait(asked("state") + `.warm === 1`)
}

// standing is what must be as it was: digest and tick of a run, its price, the
// units, the view and the caption.
type standing struct {
	Run     share.Ran
	Price   float64
	Shown   string // price on the page
	Units   string
	Zone    string
	Caption string
	Link    string
}

func (p *tab) standing(run string) (s standing) {
	p.t.Helper()
	var err error
	s.Run, err = share.ReadRun([]byte(eval[string](p, message(run))))
	require.NoError(p.t, err)
	s.Price = eval[float64](p, asked("state")+`.money.price`)
	s.Shown = eval[string](p, `document.getElementById("price").value`)
	s.Units = eval[string](p, asked("setup")+`.units + document.getElementById("units").value`)
	s.Zone = eval[string](p, `document.getElementById("plate").dataset.zone + document.getElementById("zone").value`)
	s.Caption = eval[string](p, `document.getElementById("caption").textContent`)
	s.Link = p.link()
	return s
}

// A machine whose graphics the browser takes away comes back where it stood, to
// the digest, with price, units and view; and it is said.
func TestALostGraphicsContextLosesNothing(t *testing.T) {
	p := browse(t, host(t), 1280, 800).empty()
	p.choose("units", "us")
	p.choose("situation", "wheat-weedy")
	p.choose("zone", "upper")
	eval[any](p, `(() => { const e = document.getElementById("price"); e.value = "8.25"; e.dispatchEvent(new Event("change")); })()`)
	p.forward(6 * sim.TickHz)
	p.send(map[string]any{"do": "set", "name": "fan-speed", "text": "777"})
	p.forward(3*sim.TickHz + 7)
	p.wait(`document.getElementById("price").value === "8.25"`)
	before := p.standing(firstRun)
	require.Equal(t, 8.25, before.Run.Price)
	require.EqualValues(t, 9*sim.TickHz+7, before.Run.Ticks)
	for range 2 {
		p.loseContext()
		p.wait(`document.getElementById("status").textContent.includes("is right where it was")`)
		require.Equal(t, before, p.standing(firstRun))
		require.Equal(t, "Start", eval[string](p, `document.getElementById("run").textContent`))
	}
	p.wait(`location.hash.includes("price=8.25")`)

	p.send(map[string]any{"do": "pair.fork"}) // a pair, running
	p.send(map[string]any{"do": "second.set", "name": "fan-speed", "text": "1200"})
	p.forward(60)
	first, second := p.standing(firstRun), p.standing(secondRun)
	require.NotEqual(t, first.Run.Digest, second.Run.Digest)
	p.loseContext()
	require.Equal(t, first, p.standing(firstRun))
	require.Equal(t, second, p.standing(secondRun))
	p.send(map[string]any{"do": "start"})
	p.wait(asked("state") + `.tick > ` + "1200")
	p.loseContext()
	p.wait(asked("state") + `.running`)
	require.Greater(t, p.machineTick(), int64(1200))
}
