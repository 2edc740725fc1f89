//go:build js

package bridge

import "syscall/js"

// port is the window through which page and machine speak: on the frame's window
// stands `riddle` with
//
//	ask(message, answer)  a message as text, answered by answer(text, bytes)
//	listen(hear)          hear(text) is told the State whenever there is news
//	meter()               what frames cost, as text, for programs
type port struct {
	listener js.Value // the page's function for news
	told     State    // the last of it
	making   bool     // a curve was in the making then
}

// open puts the functions on the window.
func (p *port) open(g *game) {
	js.Global().Set("riddle", map[string]any{
		"ask": js.FuncOf(func(_ js.Value, args []js.Value) any {
			text, file := g.Ask(args[0].String())
			args[1].Invoke(text, bytesOf(file))
			return nil
		}),
		"listen": js.FuncOf(func(_ js.Value, args []js.Value) any {
			p.listener, g.moved = args[0], true
			return nil
		}),
		"meter": js.FuncOf(func(js.Value, []js.Value) any { return encode(g.meter.read()) }),
	})
	if ready := js.Global().Get("riddleReady"); ready.Type() == js.TypeFunction {
		ready.Invoke()
	}
}

func bytesOf(file []byte) js.Value {
	if file == nil {
		return js.Null()
	}
	out := js.Global().Get("Uint8Array").New(len(file))
	js.CopyBytesToJS(out, file)
	return out
}

// report sends the state to the page if there is anything new in it.
func (p *port) report(g *game) {
	if p.listener.Type() != js.TypeFunction {
		return
	}
	st := g.state()
	making := g.curve.Making()
	if g.pair == nil && !g.moved && !making && !p.making && st.Tick == p.told.Tick && st.Running == p.told.Running && st.NoticeID == p.told.NoticeID && st.Warm == p.told.Warm && st.Behind == p.told.Behind {
		return
	}
	later := g.run.Warming() && g.beginning() // to find where the names stand takes longer than many pictures
	if g.moved && !later {
		st.Map = g.maps.Map(g.Snapshot(), g.options())
	}
	p.making = making
	p.told, g.moved = st, g.moved && later
	p.listener.Invoke(encode(st))
}
