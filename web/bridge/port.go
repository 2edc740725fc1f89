//go:build js

package bridge

import (
	"encoding/json"
	"maps"
	"syscall/js"

	"riddle/render"
	"riddle/sim/read/story"
)

// port is the window through which page and machine speak: functions on the
// frame's window that take and give JSON.
type port struct {
	listener js.Value // the page's function for messages
	told     State    // the last message
	making   bool     // a curve was in the making then
	moved    bool     // the parts now lie elsewhere on the picture
	maps     mapper
}

// open puts the functions on the window as `riddle`.
func (p *port) open(g *game) {
	function := func(do func(text string) string) js.Func {
		return js.FuncOf(func(_ js.Value, args []js.Value) any {
			text := ""
			if len(args) > 0 && args[0].Type() == js.TypeString {
				text = args[0].String()
			}
			return do(text)
		})
	}
	functions := map[string]any{
		"describe": function(func(string) string { return encode(Describe()) }),
		"setup":    function(func(string) string { return encode(g.Setup()) }),
		"state":    function(func(string) string { return encode(g.state()) }),
		"readings": function(func(string) string { return encode(g.Readings()) }),
		"chart": function(func(text string) string {
			var after float64
			json.Unmarshal([]byte(text), &after) // none is from the first
			return encode(g.Chart(after))
		}),
		"curve": function(func(text string) string {
			var name string
			json.Unmarshal([]byte(text), &name)
			return encode(g.Curve(name))
		}),
		"map":   function(func(string) string { return encode(p.maps.mapOf(g.Snapshot(), g.options())) }),
		"look":  function(g.setLook),
		"touch": function(g.touch),
		"move":  function(g.moveEye),
		"grasp": function(g.grasp),
		"meter": function(func(string) string { return encode(g.meter.read()) }),
		"do": function(func(text string) string {
			reply := g.do(text)
			g.stale, p.moved = true, true
			return reply
		}),
		"listen": js.FuncOf(func(_ js.Value, args []js.Value) any {
			p.listener, p.moved = args[0], true
			return nil
		}),
	}
	maps.Copy(functions, g.keepers(function))
	maps.Copy(functions, g.pairers(function))
	js.Global().Set("riddle", functions)
	if ready := js.Global().Get("riddleReady"); ready.Type() == js.TypeFunction {
		ready.Invoke()
	}
}

// report sends the state to the page if there is anything new in it.
func (p *port) report(g *game) {
	if p.listener.Type() != js.TypeFunction {
		return
	}
	st := g.state()
	making := g.reckons()
	if g.pair == nil && !p.moved && !making && !p.making && st.Tick == p.told.Tick && st.Running == p.told.Running && st.NoticeID == p.told.NoticeID && st.Warm == p.told.Warm && st.Behind == p.told.Behind {
		return
	}
	later := g.Warming() && g.beginning() // to find where the names stand takes longer than many pictures
	if p.moved && !later {
		st.Map = p.maps.mapOf(g.Snapshot(), g.options())
	}
	p.making = making
	p.told, p.moved = st, p.moved && later
	p.listener.Invoke(encode(st))
}

// setLook changes how the machine is drawn.
func (g *game) setLook(text string) string {
	look := g.look
	words, led := look.Words, look.Led
	look.Words, look.Led = nil, nil // what is read must not be written into those of the look before
	if err := json.Unmarshal([]byte(text), &look); err != nil {
		return encode(Reply{Error: err.Error()})
	}
	if look.Words == nil {
		look.Words = words
	}
	if look.Led == nil {
		look.Led = led
	}
	if err := look.check(); err != nil {
		return encode(Reply{Error: err.Error()})
	}
	if look.Zone != g.look.Zone {
		g.eye = eye{}
	}
	g.look, g.stale, g.port.moved = look, true, true
	return encode(Reply{})
}

// touch says which part is at a spot of the picture.
func (g *game) touch(text string) string {
	var at Spot
	if err := json.Unmarshal([]byte(text), &at); err != nil {
		return encode(Reply{Error: err.Error()})
	}
	at, _ = g.inHalf(at)
	p := touched(g.snap.Crop, g.options().View(), at)
	if p == nil {
		return encode(Touched{})
	}
	return encode(Touched{Part: p.ID, Setting: settingOf(p)})
}

// moveEye moves the view.
func (g *game) moveEye(text string) string {
	var m Move
	if err := json.Unmarshal([]byte(text), &m); err != nil {
		return encode(Reply{Error: err.Error()})
	}
	if err := g.eye.move(m, g.options().View().Rect); err != nil {
		return encode(Reply{Error: err.Error()})
	}
	g.stale, g.port.moved = true, true
	return encode(Reply{})
}

// graspWithin is how near to a dot it must be pointed, px at scale 1.
const graspWithin = 14

// grasp takes up the dot at a spot of the picture.
func (g *game) grasp(text string) string {
	var at Spot
	if err := json.Unmarshal([]byte(text), &at); err != nil {
		return encode(Reply{Error: err.Error()})
	}
	at, second := g.inHalf(at)
	if second > 0 {
		return encode(Reply{Error: "kernels of the first machine can be followed", Say: say("ride.nothing")})
	}
	v := g.options().View()
	q := v.Metres(render.Pt{X: float32(at.X) * v.W, Y: float32(at.Y) * v.H})
	id, ok := story.Nearest(&g.snap, q.X, q.Y, graspWithin*v.Scale/v.K)
	if !ok {
		return encode(Reply{Error: "no dot lies there", Say: say("ride.nothing")})
	}
	g.rideOn(id)
	g.stale, g.port.moved = true, true
	return encode(Reply{})
}
