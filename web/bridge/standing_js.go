package bridge

import "syscall/js"

// standers are the functions of the port by which the machines come back after
// the frame had to load itself anew.
func (g *game) standers(function func(func(string) string) js.Func) map[string]any {
	return map[string]any{
		"standing": function(func(string) string {
			st := g.Session.standing(g.pair)
			st.Zone, st.Frame = g.look.Zone, g.eye.frame
			return encode(st)
		}),
		"comeBack": function(func(text string) string {
			pair, st, err := g.standAgain(text)
			g.pair = pair
			if st.Zone != "" {
				g.look.Zone, g.eye.frame = st.Zone, st.Frame
			}
			if (Look{Zone: g.look.Zone, Theme: g.look.Theme}).check() != nil {
				g.look.Zone = "whole"
			}
			g.stale, g.port.moved = true, true
			if err != nil {
				return encode(g.refusal(err))
			}
			return encode(Reply{Setup: g.Setup()})
		}),
	}
}
